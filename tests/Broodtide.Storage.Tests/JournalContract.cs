using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Workbench;

namespace Broodtide.Storage.Tests;

/// <summary>What every store of the journal must do; run by each of them.</summary>
public abstract class JournalContract : IAsyncLifetime
{
    private readonly List<IJournal> _opened = [];

    protected abstract Task<IJournal> MakeAsync();

    public ValueTask InitializeAsync() => ValueTask.CompletedTask;

    public virtual async ValueTask DisposeAsync()
    {
        GC.SuppressFinalize(this);
        foreach (var journal in _opened)
        {
            await journal.DisposeAsync();
        }
    }

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_new_store_is_empty()
    {
        var journal = await NewAsync();
        Assert.Empty(await journal.ReadAllAsync(Stop));
        Assert.Empty(await journal.CheckpointsAsync(Stop));
    }

    [Fact]
    public async Task Entries_are_numbered_from_one_and_chained()
    {
        var journal = await NewAsync();
        var first = await journal.AppendAsync([Samples.Note("a"), Samples.Note("b")], Stop);
        var second = await journal.AppendAsync([Samples.Note("c")], Stop);
        Entry[] all = [.. first, .. second];
        Assert.Equal([1L, 2L, 3L], all.Select(entry => entry.Envelope.Sequence));
        Assert.All(all, entry => Assert.Equal(journal.Replica, entry.Envelope.Replica));
        Assert.Null(all[0].Envelope.Previous);
        Assert.Equal(all[0].Digest, all[1].Envelope.Previous);
        Assert.Equal(all[1].Digest, all[2].Envelope.Previous);
        Assert.Equal(Samples.Shape(all), Samples.Shape(await journal.ReadAllAsync(Stop)));
    }

    [Fact]
    public async Task No_random_bytes_are_used_twice()
    {
        var journal = await NewAsync();
        var written = await journal.AppendAsync(
            [.. Enumerable.Range(0, 50).Select(_ => Samples.Note("same"))],
            Stop
        );
        var salts = written.Select(entry =>
            Convert.ToHexString(entry.Bytes.SaltedBody.Span[..EntryBytes.SaltLength])
        );
        Assert.Equal(50, salts.Distinct().Count());
    }

    [Fact]
    public async Task An_impossible_fact_writes_nothing_of_its_batch()
    {
        var journal = await NewAsync();
        await journal.AppendAsync([Samples.Note("before")], Stop);
        var impossible = Samples.Note("x") with
        {
            Fact = new Domain.Readings.ReadingTaken(TypedNumber.Of(-5, "L")),
        };
        await Assert.ThrowsAsync<ArgumentException>(async () =>
            await journal.AppendAsync([Samples.Note("with it"), impossible], Stop)
        );
        var after = await journal.AppendAsync([Samples.Note("after")], Stop);
        Assert.Equal(2, after[0].Envelope.Sequence);
        Assert.Equal(2, (await journal.ReadAllAsync(Stop)).Count);
    }

    [Fact]
    public async Task Appends_at_once_take_turns()
    {
        var journal = await NewAsync();
        await Task.WhenAll(
            Enumerable
                .Range(0, 8)
                .Select(writer =>
                    Task.Run(
                        async () =>
                        {
                            for (var i = 0; i < 10; i++)
                            {
                                await journal.AppendAsync([Samples.Note($"{writer}-{i}")], Stop);
                            }
                        },
                        Stop
                    )
                )
        );
        var all = await journal.ReadAllAsync(Stop);
        Assert.Equal(80, all.Count);
        Assert.Empty(Account.Of(all).Conflicts());
        Assert.Equal(
            Enumerable.Range(1, 80).Select(i => (long)i),
            all.Select(entry => entry.Envelope.Sequence).Order()
        );
    }

    [Fact]
    public async Task A_part_can_be_asked_for_and_what_arrived_since()
    {
        if (await NewAsync() is not ISharedJournal journal)
        {
            return;
        }

        var own = await journal.AppendAsync([Samples.Note("a"), Samples.Note("b"), Samples.Note("c")], Stop);
        var before = await journal.ArrivedSinceAsync(0, Stop);
        Assert.Equal(own.Select(entry => entry.Digest), before.Select(arrival => arrival.Digest));
        var other = Samples.NewReplica();
        var first = Samples.Seal(Samples.Note("d"), other, 1, null);
        var rival = Samples.Seal(Samples.Note("e"), other, 1, null);
        var later = Samples.Seal(Samples.Note("f"), other, 4, first.Digest);
        await journal.TakeAsync([later, first, rival], Stop);
        var since = await journal.ArrivedSinceAsync(before[^1].Place, Stop);
        Assert.Equal([later.Id, first.Id, rival.Id], since.Select(arrival => arrival.Id));
        Assert.All(since, arrival => Assert.Equal(other, arrival.Replica));
        Assert.Empty(await journal.ArrivedSinceAsync(since[^1].Place, Stop));

        Assert.Equal(
            own.Skip(1).Select(e => e.Digest),
            Digests(await journal.ReadAfterAsync(journal.Replica, 1, 9, Stop))
        );
        // Rivals under the last number come together, whatever the limit.
        Assert.Equal(
            new[] { first.Digest, rival.Digest }.Order(),
            Digests(await journal.ReadAfterAsync(other, 0, 1, Stop))
        );
        Assert.Equal([later.Digest], Digests(await journal.ReadAfterAsync(other, 1, 9, Stop)));
        Assert.Equal([journal.Replica], await journal.OwnReplicasAsync(Stop));
    }

    private static IEnumerable<Digest> Digests(IReadOnlyList<Entry> entries) =>
        entries.Select(entry => entry.Digest);

    [Fact]
    public async Task Entries_of_others_are_taken_once()
    {
        var journal = await NewAsync();
        var other = Samples.NewReplica();
        var first = Samples.Seal(Samples.Note("a"), other, 1, null);
        var second = Samples.Seal(Samples.Note("b"), other, 2, first.Digest);
        var taken = await journal.TakeAsync([second, first], Stop);
        Assert.Equal((2, 0, 0), (taken.New, taken.Known, taken.Conflicts.Count));
        var again = await journal.TakeAsync([first, second, first], Stop);
        Assert.Equal((0, 3, 0), (again.New, again.Known, again.Conflicts.Count));
        Assert.Equal(Samples.Shape([first, second]), Samples.Shape(await journal.ReadAllAsync(Stop)));
    }

    [Fact]
    public async Task Two_entries_with_one_number_are_both_kept_and_told()
    {
        var journal = await NewAsync();
        var other = Samples.NewReplica();
        var first = Samples.Seal(Samples.Note("a"), other, 1, null);
        var twin = Samples.Seal(Samples.Note("b"), other, 1, null);
        await journal.TakeAsync([first], Stop);
        var taken = await journal.TakeAsync([twin], Stop);
        Assert.Equal(1, taken.New);
        Assert.Equal("number-twice", Assert.Single(taken.Conflicts).Code);
        Assert.Equal(2, (await journal.ReadAllAsync(Stop)).Count);
    }

    [Fact]
    public async Task A_chain_that_does_not_hold_is_told_and_kept()
    {
        var journal = await NewAsync();
        var other = Samples.NewReplica();
        var first = Samples.Seal(Samples.Note("a"), other, 1, null);
        var stray = Samples.Seal(Samples.Note("b"), other, 2, Digest.Of("elsewhere"u8));
        var taken = await journal.TakeAsync([first, stray], Stop);
        Assert.Equal(2, taken.New);
        Assert.Equal("chain-broken", Assert.Single(taken.Conflicts).Code);
    }

    [Fact]
    public async Task Two_entries_with_one_identity_are_both_kept_and_told()
    {
        var journal = await NewAsync();
        var draft = Samples.Note("a");
        await journal.TakeAsync([Samples.Seal(draft, Samples.NewReplica(), 1, null)], Stop);
        var taken = await journal.TakeAsync([Samples.Seal(draft, Samples.NewReplica(), 1, null)], Stop);
        Assert.Equal("identity-twice", Assert.Single(taken.Conflicts).Code);
        Assert.Equal(2, (await journal.ReadAllAsync(Stop)).Count);
    }

    [Fact]
    public async Task Unknown_kinds_are_kept_as_bytes()
    {
        var journal = await NewAsync();
        var unknown = Samples.Unknown(Samples.NewReplica(), 1, null);
        await journal.TakeAsync([unknown], Stop);
        var kept = Assert.Single(await journal.ReadAllAsync(Stop));
        Assert.Equal(Samples.Shape([unknown]), Samples.Shape([kept]));
        Assert.IsType<UnknownFact>(kept.Fact);
    }

    [Fact]
    public async Task An_erasure_removes_the_facts_and_keeps_the_envelope()
    {
        var journal = await NewAsync();
        var secret = (await journal.AppendAsync([Samples.Note("secret")], Stop))[0];
        await journal.AppendAsync([Samples.Note("next"), Samples.Erasure(secret.Id)], Stop);
        var all = await journal.ReadAllAsync(Stop);
        var held = all.Single(entry => entry.Id == secret.Id);
        Assert.False(held.HasBody);
        Assert.Equal(secret.Digest, held.Digest);
        Assert.Equal(3, all.Count);
        Assert.Empty(Account.Of(all).Conflicts());
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task An_erasure_that_comes_before_its_entry_holds(bool atOnce)
    {
        var journal = await NewAsync();
        var other = Samples.NewReplica();
        var secret = Samples.Seal(Samples.Note("secret"), other, 1, null);
        var erasure = Samples.Seal(Samples.Erasure(secret.Id), other, 2, secret.Digest);
        if (atOnce)
        {
            await journal.TakeAsync([secret, erasure], Stop);
        }
        else
        {
            await journal.TakeAsync([erasure], Stop);
            await journal.TakeAsync([secret], Stop);
        }

        await journal.TakeAsync([secret], Stop);
        var all = await journal.ReadAllAsync(Stop);
        Assert.Equal(Samples.Shape([secret.Erased(), erasure]), Samples.Shape(all));
    }

    [Fact]
    public async Task Facts_that_come_after_their_envelope_are_filled_in()
    {
        var journal = await NewAsync();
        var entry = Samples.Seal(Samples.Note("late"), Samples.NewReplica(), 1, null);
        await journal.TakeAsync([entry.Erased()], Stop);
        await journal.TakeAsync([entry], Stop);
        Assert.True(Assert.Single(await journal.ReadAllAsync(Stop)).HasBody);
    }

    [Fact]
    public async Task A_store_that_was_put_back_writes_as_a_new_replica()
    {
        var journal = await NewAsync();
        var before = journal.Replica;
        var written = (await journal.AppendAsync([Samples.Note("a")], Stop))[0];
        // Others hold a second entry of this replica, which this store lost.
        var lost = Samples.Seal(Samples.Note("b"), before, 2, written.Digest);
        var taken = await journal.TakeAsync([lost], Stop);
        Assert.Contains(taken.Conflicts, remark => remark.Code == "store-was-put-back");
        Assert.NotEqual(before, journal.Replica);
        var next = (await journal.AppendAsync([Samples.Note("c")], Stop))[0];
        Assert.Equal((journal.Replica, 1L), (next.Envelope.Replica, next.Envelope.Sequence));
        Assert.Empty(Account.Of(await journal.ReadAllAsync(Stop)).Conflicts());
    }

    [Fact]
    public async Task Checkpoints_are_kept_by_fold_and_thrown_away()
    {
        var journal = await NewAsync();
        var old = new Checkpoint("ledger", 1, 4096, new(1, ulong.MaxValue), new byte[] { 1 });
        var other = new Checkpoint("index", 1, 4096, new(3, 4), new byte[] { 2 });
        var newer = new Checkpoint("ledger", 2, 8192, new(5, 6), new byte[] { 3 });
        await journal.KeepAsync([old, other], Stop);
        await journal.KeepAsync([newer], Stop);
        var kept = await journal.CheckpointsAsync(Stop);
        Assert.Equal([("index", 4096), ("ledger", 8192)], kept.Select(c => (c.Fold, c.Position)));
        Assert.Equal(newer.Mark, kept[1].Mark);
        Assert.Equal(newer.State.ToArray(), kept[1].State.ToArray());
        await journal.ForgetCheckpointsAsync(Stop);
        Assert.Empty(await journal.CheckpointsAsync(Stop));
    }

    [Fact]
    public async Task Erased_facts_are_never_sent_out_again()
    {
        var journal = await NewAsync();
        var written = await journal.AppendAsync([Samples.Note("secret")], Stop);
        await journal.AppendAsync([Samples.Erasure(written[0].Id)], Stop);
        var facts = (await journal.ReadAllAsync(Stop)).Select(entry => entry.Fact).ToList();
        Assert.Single(facts.OfType<ErasedFact>());
        Assert.Single(facts.OfType<EntryTakenBack>());
    }

    private async Task<IJournal> NewAsync()
    {
        var journal = await MakeAsync();
        _opened.Add(journal);
        return journal;
    }
}
