using System.Diagnostics;
using OpenTelemetry;

namespace Broodtide.Server.Operating;

/// <summary>
/// Takes from a trace what could name a person, a device or a secret: of the address only the pattern that answered
/// remains, and nothing is told of who called.
/// </summary>
internal sealed class NothingPersonal : BaseProcessor<Activity>
{
    // What may stay, by the names of OpenTelemetry's semantic conventions for HTTP.
    public static readonly string[] Kept =
    [
        "http.request.method",
        "http.response.status_code",
        "http.route",
        "network.protocol.version",
        "url.scheme",
        "error.type",
    ];

    public override void OnEnd(Activity data)
    {
        foreach (var (name, _) in data.TagObjects.ToArray())
        {
            if (!Kept.Contains(name))
            {
                data.SetTag(name, null);
            }
        }

        data.DisplayName = $"{data.GetTagItem("http.request.method")} {data.GetTagItem("http.route")}".Trim();
    }
}
