using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Storage.Sqlite;
using Broodtide.Workbench;
using Broodtide.Workbench.Recording;
using CsCheck;

namespace Broodtide.Storage.Tests;

public sealed class ExchangeTests
{
    private const int Stores = 4;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task One_exchange_makes_two_stores_equal_and_a_second_moves_nothing()
    {
        using var folder = new Folder();
        await using var house = await SqliteJournal.OpenAsync(folder["house.db"], "server", Stop);
        await using var phone = await SqliteJournal.OpenAsync(folder["phone.db"], "phone", Stop);
        await house.AppendAsync([Samples.Note("a"), Samples.Note("b")], Stop);
        await phone.AppendAsync([.. Enumerable.Range(0, 1200).Select(i => Samples.Note($"{i}"))], Stop);
        var moved = await Exchange.RunAsync(phone, house, Stop);
        Assert.Equal((2, 1200), (moved.Fetched.New, moved.Given.New));
        Assert.Equal((0, 0), (moved.Fetched.Known, moved.Given.Known));
        Assert.Equal(
            Samples.Shape(await phone.ReadAllAsync(Stop)),
            Samples.Shape(await house.ReadAllAsync(Stop))
        );
        var again = await Exchange.RunAsync(phone, house, Stop);
        Assert.Equal(
            (0, 0, 0, 0),
            (again.Fetched.New, again.Fetched.Known, again.Given.New, again.Given.Known)
        );
    }

    [Fact]
    public async Task One_new_entry_moves_one_entry()
    {
        var (here, there) = (New(), New());
        await here.AppendAsync([.. Enumerable.Range(0, 300).Select(i => Samples.Note($"{i}"))], Stop);
        await Exchange.RunAsync(here, there, Stop);
        await here.AppendAsync([Samples.Note("new")], Stop);
        var moved = await Exchange.RunAsync(there, here, Stop);
        Assert.Equal((1, 0), (moved.Fetched.New, moved.Fetched.Known));
        Assert.Equal((0, 0), (moved.Given.New, moved.Given.Known));
    }

    [Fact]
    public async Task Two_entries_with_one_number_reach_everybody()
    {
        var (here, there) = (New(), New());
        var other = Samples.NewReplica();
        var first = Samples.Seal(Samples.Note("a"), other, 1, null);
        var second = Samples.Seal(Samples.Note("b"), other, 2, first.Digest);
        await here.TakeAsync([first, second], Stop);
        await there.TakeAsync([Samples.Seal(Samples.Note("twin"), other, 1, null)], Stop);
        var moved = await Exchange.RunAsync(here, there, Stop);
        Assert.Contains(moved.Given.Conflicts, remark => remark.Code == "number-twice");
        Assert.Equal(3, (await here.ReadAllAsync(Stop)).Count);
        Assert.Equal(3, (await there.ReadAllAsync(Stop)).Count);
    }

    [Fact]
    public async Task An_answer_that_is_lost_on_the_way_does_no_harm()
    {
        var (here, there) = (New(), New());
        await here.AppendAsync([.. Enumerable.Range(0, 1700).Select(i => Samples.Note($"{i}"))], Stop);
        var broken = new BrokenLink(there) { TakesLeft = 2 };
        await Assert.ThrowsAsync<IOException>(async () => await Exchange.RunAsync(here, broken, Stop));
        // The second batch had gone in; only its answer was lost.
        Assert.Equal(2 * Exchange.BatchEntries, (await there.ReadAllAsync(Stop)).Count);
        var moved = await Exchange.RunAsync(here, there, Stop);
        Assert.Equal((700, 0), (moved.Given.New, moved.Given.Known));
    }

    // Stores write, correct, erase, exchange in any order over links that break; at the end, once each has met
    // each in both directions, all hold the same bytes and tell the same story.
    [Fact]
    public void All_stores_end_equal_whatever_the_order_of_meeting() =>
        Step()
            .Array[5, 60]
            .Sample(
                steps =>
                {
                    var stores = Enumerable.Range(0, Stores).Select(_ => New()).ToArray();
                    var forged = Samples.NewReplica();
                    var forgedNumber = 1L;
                    var ids = new List<EntryId>();
                    foreach (var step in steps)
                    {
                        var store = stores[step.Store];
                        Play(step, store, stores, ids, forged, ref forgedNumber);
                    }

                    for (var round = 0; round < 2; round++)
                    {
                        for (var i = 1; i < Stores; i++)
                        {
                            Now(Exchange.RunAsync(stores[i], stores[0]));
                        }
                    }

                    var shapes = stores.Select(store => Samples.Shape(Now(store.ReadAllAsync()))).ToList();
                    var first = Account.Of(Now(stores[0].ReadAllAsync()));
                    return shapes.TrueForAll(shape => shape.SequenceEqual(shapes[0]))
                        && stores.All(store =>
                            Account
                                .Of(Now(store.ReadAllAsync()))
                                .Occurrences.Select(o => (o.Id, o.Told.Digest, o.Fact.GetType()))
                                .SequenceEqual(
                                    first.Occurrences.Select(o => (o.Id, o.Told.Digest, o.Fact.GetType()))
                                )
                        );
                },
                iter: 300
            );

    private static Gen<(int Action, int Store, int Other, int Pick)> Step() =>
        Gen.Select(Gen.Int[0, 9], Gen.Int[0, Stores - 1], Gen.Int[0, Stores - 1], Gen.Int[0, 1000]);

    private static void Play(
        (int Action, int Store, int Other, int Pick) step,
        MemoryJournal store,
        MemoryJournal[] stores,
        List<EntryId> ids,
        ReplicaId forged,
        ref long forgedNumber
    )
    {
        EntryId? known = ids.Count == 0 ? null : ids[step.Pick % ids.Count];
        switch (step.Action)
        {
            case 0 or 1 or 2:
                ids.AddRange(
                    Now(store.AppendAsync([Samples.Note("n", step.Pick), Samples.Note("m", step.Pick)]))
                        .Select(entry => entry.Id)
                );
                break;
            case 3 when known is { } target:
                var draft =
                    step.Pick % 2 == 0
                        ? Samples.Note("better", step.Pick, new(CorrectionKind.Replaces, target))
                        : Samples.TakenBack(CorrectionKind.Retracts, target, step.Pick);
                ids.Add(Now(store.AppendAsync([draft]))[0].Id);
                break;
            case 4 when known is { } target:
                ids.Add(Now(store.AppendAsync([Samples.Erasure(target, step.Pick)]))[0].Id);
                break;
            case 5:
                // Two devices that were copied before anybody noticed write one number with different bytes.
                Now(store.TakeAsync([Samples.Unknown(forged, forgedNumber, Previous(forgedNumber))]));
                Now(
                    stores[step.Other]
                        .TakeAsync([Samples.Unknown(forged, forgedNumber, Previous(forgedNumber))])
                );
                forgedNumber += 1 + (step.Pick % 2);
                break;
            case 6:
                try
                {
                    Now(
                        Exchange.RunAsync(
                            store,
                            new BrokenLink(stores[step.Other]) { TakesLeft = step.Pick % 2 }
                        )
                    );
                }
                catch (IOException)
                {
                    // What has gone over stays.
                }

                break;
            default:
                Now(Exchange.RunAsync(store, stores[step.Other]));
                break;
        }
    }

    private static Digest? Previous(long number) => number == 1 ? null : Digest.Of("some"u8);

    private static MemoryJournal New() => new(Samples.NewReplica());

    // These stores never wait.
    private static T Now<T>(ValueTask<T> done)
    {
        Assert.True(done.IsCompleted);
#pragma warning disable xUnit1031, CA2012
        return done.GetAwaiter().GetResult();
#pragma warning restore xUnit1031, CA2012
    }

    /// <summary>A store over a link that breaks after some takes: the last one goes in, but no answer comes back.</summary>
    private sealed class BrokenLink(IJournal store) : IJournal
    {
        public int TakesLeft { get; set; }

        public ReplicaId Replica => store.Replica;

        public ValueTask<IReadOnlyList<Entry>> ReadAllAsync(CancellationToken cancellation = default) =>
            store.ReadAllAsync(cancellation);

        public ValueTask<IReadOnlyList<Entry>> AppendAsync(
            IReadOnlyList<Draft> drafts,
            CancellationToken cancellation = default
        ) => store.AppendAsync(drafts, cancellation);

        public async ValueTask<Intake> TakeAsync(
            IReadOnlyList<Entry> entries,
            CancellationToken cancellation = default
        )
        {
            var intake = await store.TakeAsync(entries, cancellation);
            return --TakesLeft > 0 ? intake : throw new IOException("The answer was lost.");
        }

        public ValueTask<IReadOnlyList<Checkpoint>> CheckpointsAsync(
            CancellationToken cancellation = default
        ) => store.CheckpointsAsync(cancellation);

        public ValueTask KeepAsync(
            IReadOnlyList<Checkpoint> checkpoints,
            CancellationToken cancellation = default
        ) => store.KeepAsync(checkpoints, cancellation);

        public ValueTask ForgetCheckpointsAsync(CancellationToken cancellation = default) =>
            store.ForgetCheckpointsAsync(cancellation);

        public ValueTask DisposeAsync() => store.DisposeAsync();
    }
}
