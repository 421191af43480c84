using System.Text;
using Broodtide.Domain.Journal;
using Broodtide.Server.Site;
using Broodtide.Workbench;
using Broodtide.Workbench.Recording;

namespace Broodtide.Server.Sharing;

/// <summary>
/// What phones ask: what do you hold, what do I lack, take this. Bodies must say that they are JSON, so that a page
/// from elsewhere cannot send one unasked.
/// </summary>
internal static class JournalApi
{
    private const string Lines = "application/jsonl";
    private const long LongestRequest = 64 * 1024 * 1024;

    public static void MapJournal(this WebApplication app, IJournal journal)
    {
        var group = app.MapGroup(PhoneSite.ApiPath + "/journal")
            .WithMetadata(new RequestSizeLimit(LongestRequest));
        group.MapGet(
            "/holdings",
            async (CancellationToken cancel) =>
            {
                var holdings = Holdings.Of(await journal.ReadAllAsync(cancel));
                return Results.Bytes(HoldingsText.Write(holdings), "application/json");
            }
        );
        group.MapPost(
            "/lacking",
            async (HttpRequest request, CancellationToken cancel) =>
            {
                if (await BodyAsync(request, cancel) is not { } body)
                {
                    return Results.StatusCode(StatusCodes.Status415UnsupportedMediaType);
                }

                var theirs = HoldingsText.Read(body);
                return theirs.Succeeded
                    ? Text(JournalLines.Write(theirs.Value.LackedOf(await journal.ReadAllAsync(cancel))))
                    : Refused(theirs.Reason);
            }
        );
        group.MapPost(
            "/take",
            async (HttpRequest request, CancellationToken cancel) =>
            {
                if (await BodyAsync(request, cancel) is not { } body)
                {
                    return Results.StatusCode(StatusCodes.Status415UnsupportedMediaType);
                }

                var lines = Encoding.UTF8.GetString(body).Split('\n', StringSplitOptions.RemoveEmptyEntries);
                var entries = JournalLines.Read(lines);
                if (!entries.Succeeded)
                {
                    return Refused(entries.Reason);
                }

                await journal.TakeAsync(entries.Value, cancel);
                return Results.NoContent();
            }
        );
    }

    private static IResult Text(IEnumerable<string> lines) =>
        Results.Text(string.Join('\n', lines) + "\n", Lines, Encoding.UTF8);

    private static IResult Refused(Units.Remark reason) =>
        Results.Text(reason.ToString(), statusCode: StatusCodes.Status400BadRequest);

    private static async Task<byte[]?> BodyAsync(HttpRequest request, CancellationToken cancel)
    {
        if (!request.HasJsonContentType())
        {
            return null;
        }

        using var buffer = new MemoryStream();
        await request.Body.CopyToAsync(buffer, cancel);
        return buffer.ToArray();
    }

    private sealed record RequestSizeLimit(long? MaxRequestBodySize)
        : Microsoft.AspNetCore.Http.Metadata.IRequestSizeLimitMetadata;
}
