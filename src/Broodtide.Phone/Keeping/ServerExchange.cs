using System.Net;
using System.Net.Http.Headers;
using Broodtide.Units;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Phone.Keeping;

/// <summary>The way to the server that this app came from, over HTTP.</summary>
internal sealed class ServerExchange(HttpClient http) : IServerLink
{
    private const string Path = "api/journal/";

    public async Task<byte[]> AskAsync(string request, byte[] body, CancellationToken cancellation = default)
    {
        try
        {
            using var content = new ByteArrayContent(body);
            content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
            using var answer = await http.PostAsync(Path + request, content, cancellation);
            var bytes = await answer.Content.ReadAsByteArrayAsync(cancellation);
            return answer.IsSuccessStatusCode ? bytes : throw Failure(answer.StatusCode, bytes);
        }
        catch (HttpRequestException away)
        {
            throw new HouseAwayException(away.Message, away);
        }
    }

    // What stands before the server says that it is away; the server itself says why it refuses.
    private static Exception Failure(HttpStatusCode status, byte[] body) =>
        status switch
        {
            HttpStatusCode.BadGateway or HttpStatusCode.ServiceUnavailable or HttpStatusCode.GatewayTimeout =>
                new HouseAwayException($"The way to the server ends with {(int)status}."),
            HttpStatusCode.Unauthorized => new HouseRefusedException(Gate.NotSignedIn),
            >= HttpStatusCode.InternalServerError => new HouseRefusedException(
                new Remark("sync-house-failed", new Argument("status", (int)status))
            ),
            _ => HouseRefusedException.Of(body),
        };
}
