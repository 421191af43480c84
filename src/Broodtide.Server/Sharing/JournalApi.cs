using Broodtide.Server.Operating;
using Broodtide.Server.People;
using Broodtide.Server.Site;
using Broodtide.Units;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Server.Sharing;

/// <summary>
/// The gate over HTTP. Bodies must say that they are JSON, so that a page from elsewhere cannot send one unasked; who
/// asks is what the session proves, never what the body says.
/// </summary>
internal static class JournalApi
{
    public const string Path = PhoneSite.ApiPath + "/journal";

    public static void MapJournal(this IEndpointRouteBuilder app, Gate gate)
    {
        var door = new GateDoor(gate);
        // The gate counts the bytes itself, so that what is too long is refused by name and kept.
        var group = app.MapGroup(Path).WithMetadata(new NoSizeLimit());
        foreach (var request in GateRequest.All)
        {
            group.MapPost(
                "/" + request,
                async (HttpContext context, HouseMeter meter, CancellationToken cancel) =>
                {
                    if (context.Visitor() is not { } visitor)
                    {
                        return Refused(Gate.NotSignedIn);
                    }

                    var body = await Bodies.ReadAsync(context.Request, BatchSize.MostBytes, cancel);
                    if (body.Refusal is { } wrong)
                    {
                        gate.Refuse(visitor, wrong);
                        meter.Refused(wrong.Code);
                        return Refused(wrong);
                    }

                    meter.Asked(request, body.Bytes.Length);
                    var answer = await door.AskAsync(request, visitor, body.Bytes, cancel);
                    if (answer.Succeeded)
                    {
                        return Results.Bytes(answer.Value, TypeOf(request));
                    }

                    meter.Refused(answer.Reason.Code);
                    return Refused(answer.Reason);
                }
            );
        }
    }

    private static string TypeOf(string request) =>
        request == GateRequest.Lacking ? "application/octet-stream" : "application/json";

    public static IResult Refused(Remark reason) => new Refusing(reason);

    private static int StatusOf(string code) =>
        code switch
        {
            "sync-not-signed-in" => StatusCodes.Status401Unauthorized,
            "sync-batch-too-big" => StatusCodes.Status413PayloadTooLarge,
            "sync-not-json" => StatusCodes.Status415UnsupportedMediaType,
            _ when code.StartsWith("sync-", StringComparison.Ordinal) && code != "sync-not-understood" =>
                StatusCodes.Status403Forbidden,
            _ => StatusCodes.Status400BadRequest,
        };

    private sealed class Refusing(Remark reason) : IResult
    {
        public async Task ExecuteAsync(HttpContext httpContext)
        {
            httpContext.Response.StatusCode = StatusOf(reason.Code);
            httpContext.Response.ContentType = "application/json";
            await httpContext.Response.Body.WriteAsync(GateDoor.TextOf(reason), httpContext.RequestAborted);
        }
    }

    private sealed record NoSizeLimit : Microsoft.AspNetCore.Http.Metadata.IRequestSizeLimitMetadata
    {
        public long? MaxRequestBodySize => null;
    }
}
