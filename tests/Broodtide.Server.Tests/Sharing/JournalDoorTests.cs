using System.Text;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Server.Tests.Sharing;

/// <summary>A client that means ill, at the door of the journal: refused by name, kept, and no byte changed.</summary>
public sealed class JournalDoorTests : IAsyncLifetime
{
    private const string Give = "/api/journal/give";
    private RunningGate _gate = null!;
    private Entry[] _bens = null!;

    public async ValueTask InitializeAsync()
    {
        _gate = await RunningGate.StartAsync();
        _bens = Chain(new ReplicaId(Guid.CreateVersion7()), "Ben", 2);
        var (status, text) = await _gate.PostAsync("Ben", Give, Giving(_bens));
        Assert.Equal((200, """{"new":2,"known":0,"heldBack":0}"""), (status, text));
    }

    public ValueTask DisposeAsync() => _gate.DisposeAsync();

    [Fact]
    public Task A_forged_author_is_refused() =>
        RefusedAsync(
            "Cleo",
            Giving(Chain(new ReplicaId(Guid.CreateVersion7()), "Ben", 1)),
            403,
            "sync-author-of-another"
        );

    [Fact]
    public Task Anothers_store_is_refused() =>
        RefusedAsync(
            "Cleo",
            Giving([Seal(_bens[0].Envelope.Replica, 3, _bens[1].Digest, "Cleo")]),
            403,
            "sync-replica-of-another"
        );

    [Fact]
    public Task A_broken_chain_is_refused() =>
        RefusedAsync(
            "Ben",
            Giving([Seal(_bens[0].Envelope.Replica, 3, _bens[0].Digest, "Ben")]),
            403,
            "sync-chain-broken"
        );

    [Fact]
    public Task The_houses_own_store_is_refused() =>
        RefusedAsync("Ada", Giving([Seal(_gate.Own, 1, null, "Ada")]), 403, "sync-replica-of-the-house");

    [Fact]
    public Task Who_only_reads_writes_nothing() =>
        RefusedAsync(
            "Dan",
            Giving(Chain(new ReplicaId(Guid.CreateVersion7()), "Dan", 1)),
            403,
            "sync-reader-writes"
        );

    [Fact]
    public Task A_request_that_is_too_long_is_refused() =>
        RefusedAsync("Ben", new byte[BatchSize.MostBytes + 1], 413, "sync-batch-too-big");

    [Fact]
    public async Task An_entry_that_is_too_long_is_refused()
    {
        // Its hash is right and its body canonical: nothing is wrong with it but its length.
        var body = Encoding.UTF8.GetBytes($"\"{new string('a', EntryBytes.LongestBody)}\"");
        byte[] salted = [.. new byte[EntryBytes.SaltLength], .. body];
        var honest = Seal(_bens[0].Envelope.Replica, 3, _bens[1].Digest, "Ben");
        var envelope = EnvelopeText.Write(honest.Envelope with { Body = Digest.Of(salted) });
        var line =
            $"{{\"envelope\":{System.Text.Json.JsonSerializer.Serialize(Encoding.UTF8.GetString(envelope))},"
            + $"\"body\":{System.Text.Json.JsonSerializer.Serialize(Encoding.UTF8.GetString(body))},"
            + $"\"salt\":\"{Convert.ToBase64String(salted.AsSpan(0, EntryBytes.SaltLength))}\"}}";
        var file = JournalLines.Write([honest]).ToList();
        await RefusedAsync(
            "Ben",
            Encoding.UTF8.GetBytes($"{{}}\n{file[0]}\n{line}\n{file[2]}\n"),
            400,
            "entry-not-whole",
            "body-length"
        );
    }

    [Fact]
    public async Task What_is_no_JSON_is_refused()
    {
        await RefusedAsync("Ben", "not\njson"u8.ToArray(), 400, "sync-not-understood");
        await RefusedAsync("Ben", Giving(_bens), 415, "sync-not-json", mediaType: "text/plain");
    }

    [Fact]
    public async Task Changed_bytes_are_refused()
    {
        var next = Seal(_bens[0].Envelope.Replica, 3, _bens[1].Digest, "Ben");
        var text = Encoding
            .UTF8.GetString(Giving([next]))
            .Replace("note 3", "note 4", StringComparison.Ordinal);
        await RefusedAsync("Ben", Encoding.UTF8.GetBytes(text), 400, "entry-not-whole");
    }

    [Fact]
    public async Task Packed_entries_that_are_cut_or_changed_are_refused_and_whole_ones_taken()
    {
        var next = Seal(_bens[0].Envelope.Replica, 3, _bens[1].Digest, "Ben");
        byte[] whole =
        [
            .. "{}\n"u8,
            1,
            .. BitConverter.GetBytes(next.Bytes.Envelope.Length),
            .. BitConverter.GetBytes(next.Bytes.SaltedBody.Length),
            .. next.Bytes.Envelope.Span,
            .. next.Bytes.SaltedBody.Span,
        ];
        var changed = whole.ToArray();
        changed[^3] ^= 1;
        await RefusedAsync("Ben", changed, 400, "entry-not-whole");
        await RefusedAsync("Ben", whole[..^1], 400, "sync-not-understood");
        await RefusedAsync("Ben", whole[..9], 400, "sync-not-understood");
        var overlong = whole.ToArray();
        BitConverter.GetBytes(int.MaxValue).CopyTo(overlong, 4);
        await RefusedAsync("Ben", overlong, 400, "sync-not-understood");
        var negative = whole.ToArray();
        BitConverter.GetBytes(-1).CopyTo(negative, 8);
        await RefusedAsync("Ben", negative, 400, "sync-not-understood");
        var (status, text) = await _gate.PostAsync("Ben", Give, whole);
        Assert.Equal((200, """{"new":1,"known":0,"heldBack":0}"""), (status, text));
    }

    [Fact]
    public async Task Who_is_not_signed_in_gets_nothing()
    {
        foreach (var request in GateRequest.All)
        {
            var (status, text) = await _gate.PostAsync(null, "/api/journal/" + request, Giving(_bens));
            Assert.Equal(401, status);
            Assert.Contains("sync-not-signed-in", text, StringComparison.Ordinal);
        }

        Assert.Equal(401, (await _gate.GetAsync(null, "/api/sharing")).Status);
    }

    [Fact]
    public async Task The_owner_alone_sees_what_was_refused_and_held_back_and_decides()
    {
        var wish = Draft("Cleo", new Correction(CorrectionKind.Retracts, _bens[0].Id))
            .Seal(new ReplicaId(Guid.CreateVersion7()), 1, null, Guid.NewGuid().ToByteArray());
        var (_, text) = await _gate.PostAsync("Cleo", Give, Giving([wish]));
        Assert.Equal("""{"new":0,"known":0,"heldBack":1}""", text);
        Assert.Equal(403, (await _gate.GetAsync("Ben", "/api/sharing")).Status);
        var (status, state) = await _gate.GetAsync("Ada", "/api/sharing");
        Assert.Equal(200, status);
        Assert.Contains(wish.Digest.ToString(), state, StringComparison.Ordinal);
        Assert.Contains("corrects-anothers", state, StringComparison.Ordinal);
        Assert.Contains("sync-owner-only", state, StringComparison.Ordinal);

        var before = await _gate.BytesAsync();
        var asked = Encoding.UTF8.GetBytes($$"""{"entries":["{{wish.Digest}}"]}""");
        Assert.Equal(403, (await _gate.PostAsync("Cleo", "/api/sharing/let-in", asked)).Status);
        Assert.Equal("""{"letIn":1}""", (await _gate.PostAsync("Ada", "/api/sharing/let-in", asked)).Text);
        Assert.Equal(before.Count + 1, (await _gate.BytesAsync()).Count);
        Assert.Equal(
            """{"discarded":0}""",
            (await _gate.PostAsync("Ada", "/api/sharing/discard", asked)).Text
        );
        Assert.Equal(
            403,
            (await _gate.PostAsync("Ada", "/api/sharing/refill", """{"hours":200}"""u8.ToArray())).Status
        );
        Assert.Equal(200, (await _gate.PostAsync("Ada", "/api/sharing/refill", "{}"u8.ToArray())).Status);
        Assert.NotNull(_gate.Memory.RefillUntil());
        Assert.Equal(
            """{"closed":1}""",
            (await _gate.PostAsync("Ada", "/api/sharing/refill/close", "{}"u8.ToArray())).Text
        );
    }

    private async Task RefusedAsync(
        string who,
        byte[] body,
        int status,
        string code,
        string detail = "",
        string mediaType = "application/json"
    )
    {
        var before = await _gate.BytesAsync();
        var kept = _gate.Memory.Refusals().Count;
        var answer = await _gate.PostAsync(who, Give, body, mediaType);
        Assert.Equal(status, answer.Status);
        Assert.Contains($"\"code\":\"{code}\"", answer.Text, StringComparison.Ordinal);
        Assert.Equal(before, await _gate.BytesAsync());
        var refusal = Assert.Single(_gate.Memory.Refusals().Skip(kept));
        Assert.Equal((code, who), (refusal.Code, refusal.Name));
        Assert.Contains(detail, refusal.Details, StringComparison.Ordinal);
    }

    private static byte[] Giving(IEnumerable<Entry> entries) =>
        Encoding.UTF8.GetBytes("{}\n" + string.Join('\n', JournalLines.Write(entries)) + "\n");

    private static Entry[] Chain(ReplicaId store, string author, int count)
    {
        var chain = new List<Entry>();
        for (var number = 1; number <= count; number++)
        {
            chain.Add(Seal(store, number, chain.Count > 0 ? chain[^1].Digest : null, author));
        }

        return [.. chain];
    }

    private static Entry Seal(ReplicaId store, long number, Digest? previous, string author) =>
        (Draft(author) with { Fact = new NoteWritten($"note {number}") }).Seal(
            store,
            number,
            previous,
            Guid.NewGuid().ToByteArray()
        );

    private static Draft Draft(string author, Correction? correction = null)
    {
        var at = SystemClock.Instance.GetCurrentInstant();
        return new(
            new EntryId(Guid.CreateVersion7()),
            new Author(author),
            at,
            "Etc/UTC",
            Happened.At(at),
            correction is null ? new NoteWritten("note") : new EntryTakenBack(),
            correction
        );
    }
}
