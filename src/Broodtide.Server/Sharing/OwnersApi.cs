using Broodtide.Server.People;
using Broodtide.Server.Site;
using Broodtide.Units;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Server.Sharing;

/// <summary>What the owner sees and decides of sharing, over HTTP.</summary>
internal static class OwnersApi
{
    public const string Path = PhoneSite.ApiPath + "/sharing";
    private const int LongestRequest = 256 * 1024;

    public static void MapSharing(this IEndpointRouteBuilder app, Gate gate)
    {
        var owner = new OwnersGate(gate);
        var group = app.MapGroup(Path);
        group.MapGet(
            "",
            async (HttpContext context, CancellationToken cancel) =>
                context.Visitor() is { } visitor
                    ? Answer(await owner.LookAsync(visitor, cancel), OwnersText.Write)
                    : JournalApi.Refused(Gate.NotSignedIn)
        );
        Post(
            group,
            gate,
            "/let-in",
            OwnersText.ReadEntries,
            (visitor, entries, cancel) => owner.LetInAsync(visitor, entries, cancel),
            count => OwnersText.Write("letIn", count)
        );
        Post(
            group,
            gate,
            "/discard",
            OwnersText.ReadEntries,
            (visitor, entries, cancel) => owner.DiscardAsync(visitor, entries, cancel),
            count => OwnersText.Write("discarded", count)
        );
        Post(
            group,
            gate,
            "/revoke",
            OwnersText.ReadStores,
            (visitor, stores, cancel) => owner.RevokeAsync(visitor, stores, cancel),
            count => OwnersText.Write("revoked", count)
        );
        Post(
            group,
            gate,
            "/refill",
            OwnersText.ReadRefill,
            (visitor, length, cancel) => owner.OpenRefillAsync(visitor, length, cancel),
            until => OwnersText.Write("untilUnixSeconds", until.ToUnixTimeSeconds())
        );
        Post(
            group,
            gate,
            "/refill/close",
            _ => Parsed<bool>.Of(true),
            (visitor, _, cancel) => owner.CloseRefillAsync(visitor, cancel),
            wasOpen => OwnersText.Write("closed", wasOpen ? 1 : 0)
        );
    }

    private static void Post<TAsked, TAnswer>(
        RouteGroupBuilder group,
        Gate gate,
        string path,
        Func<ReadOnlyMemory<byte>, Parsed<TAsked>> read,
        Func<Visitor, TAsked, CancellationToken, Task<Parsed<TAnswer>>> ask,
        Func<TAnswer, byte[]> write
    )
        where TAsked : notnull
        where TAnswer : notnull =>
        group.MapPost(
            path,
            async (HttpContext context, CancellationToken cancel) =>
            {
                if (context.Visitor() is not { } visitor)
                {
                    return JournalApi.Refused(Gate.NotSignedIn);
                }

                var body = await Bodies.ReadAsync(context.Request, LongestRequest, cancel);
                var asked = body.Refusal is { } wrong ? Parsed<TAsked>.No(wrong) : read(body.Bytes);
                if (!asked.Succeeded)
                {
                    gate.Refuse(visitor, asked.Reason);
                    return JournalApi.Refused(asked.Reason);
                }

                return Answer(await ask(visitor, asked.Value, cancel), write);
            }
        );

    private static IResult Answer<T>(Parsed<T> answer, Func<T, byte[]> write)
        where T : notnull =>
        answer.Succeeded
            ? Results.Bytes(write(answer.Value), "application/json")
            : JournalApi.Refused(answer.Reason);
}
