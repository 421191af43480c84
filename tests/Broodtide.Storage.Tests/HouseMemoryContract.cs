using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Storage.Tests;

/// <summary>What everything that remembers for a house must do; run by each of them.</summary>
public abstract class HouseMemoryContract
{
    private static readonly PersonId Ada = new(Guid.CreateVersion7());
    private static readonly PersonId Ben = new(Guid.CreateVersion7());
    private static readonly Instant Now = Instant.FromUtc(2026, 3, 1, 21, 5);

    private protected abstract IHouseMemory Memory { get; }

    /// <summary>As after the program was ended and started again.</summary>
    private protected abstract IHouseMemory Again();

    [Fact]
    public void A_store_stays_bound_to_the_person_it_was_bound_to_first()
    {
        var (one, two) = (Samples.NewReplica(), Samples.NewReplica());
        Memory.Bind([one], Ada);
        Memory.Bind([one, two], Ben);
        Assert.Equal(
            new Dictionary<ReplicaId, PersonId> { [one] = Ada, [two] = Ben },
            Again().Bindings().ToDictionary()
        );
    }

    [Fact]
    public void The_first_time_of_revoking_counts_and_own_stores_are_remembered()
    {
        var (one, two) = (Samples.NewReplica(), Samples.NewReplica());
        Memory.Revoke([one], Now);
        Memory.Revoke([one], Now + Duration.FromHours(1));
        Memory.AddOwn([one, two]);
        Memory.AddOwn([two]);
        Assert.Equal(Now, Again().Revoked()[one]);
        Assert.Equal(new HashSet<ReplicaId> { one, two }, Again().OwnReplicas());
    }

    [Fact]
    public void A_refill_is_opened_moved_and_closed()
    {
        Assert.Null(Memory.RefillUntil());
        Memory.SetRefill(Now);
        Memory.SetRefill(Now + Duration.FromDays(1));
        Assert.Equal(Now + Duration.FromDays(1), Again().RefillUntil());
        Memory.SetRefill(null);
        Assert.Null(Again().RefillUntil());
    }

    [Fact]
    public void A_store_is_known_by_what_it_said_last()
    {
        var one = Samples.NewReplica();
        Memory.Report([new Reported(one, Ada, 7, Now, 0)]);
        var last = new Reported(one, Ben, 2, Now + Duration.FromHours(1), -3);
        Memory.Report([last]);
        Assert.Equal(last, Assert.Single(Again().Reports()));
    }

    [Fact]
    public void What_is_held_back_keeps_its_bytes_until_the_owner_has_decided()
    {
        var replica = Samples.NewReplica();
        var first = Samples.Seal(Samples.Note("a"), replica, 1, null);
        var second = Samples.Seal(Samples.Note("b"), replica, 2, first.Digest).Erased();
        Memory.HoldBack([Held(first, "one"), Held(second, "two")]);
        Memory.HoldBack([Held(first, "other")]);
        Memory.Decide([second.Digest], Decision.Discarded);
        var held = Again().HeldBack();
        Assert.Equal(["one", "two"], held.Select(one => one.Reason));
        Assert.Equal(first.Digest, Entry.Read(held[0].Bytes).Value.Digest);
        Assert.True(Entry.Read(held[0].Bytes).Value.HasBody);
        Assert.Equal(Decision.None, held[0].Decision);
        Assert.Equal((Decision.Discarded, true), (held[1].Decision, held[1].Bytes.Envelope.IsEmpty));
        Assert.Equal((replica, 2L, Ada), (held[1].Replica, held[1].Sequence, held[1].Person));
    }

    [Fact]
    public void One_remark_of_a_sort_is_kept_for_an_entry()
    {
        var entry = Samples.Seal(Samples.Note("a"), Samples.NewReplica(), 1, null);
        var brought = new EntryMark(entry.Digest, entry.Envelope.Replica, MarkSort.Brought, Ada, Now, 0);
        var clock = brought with { Sort = MarkSort.ClockFarOff, Seconds = 90_000 };
        Memory.Mark([brought]);
        Memory.Mark([brought with { Person = Ben }, clock]);
        Assert.Equal([brought, clock], Again().Marks());
    }

    [Fact]
    public void Refusals_are_kept_in_order_and_old_ones_make_room()
    {
        for (var number = 0; number < Refusal.MostKept + 2; number++)
        {
            Memory.Log(new Refusal(Now, Ada, "Ada", "sync-not-json", $"{number}"));
        }

        var kept = Again().Refusals();
        Assert.Equal(Refusal.MostKept, kept.Count);
        Assert.Equal("2", kept[0].Details);
        Assert.Equal($"{Refusal.MostKept + 1}", kept[^1].Details);
    }

    private static HeldBack Held(Entry entry, string reason) =>
        new(
            entry.Digest,
            entry.Id,
            entry.Envelope.Replica,
            entry.Envelope.Sequence,
            Ada,
            Now,
            reason,
            entry.Bytes,
            Decision.None
        );
}
