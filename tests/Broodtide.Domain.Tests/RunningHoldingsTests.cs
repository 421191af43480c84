using Broodtide.Domain.Journal;
using Broodtide.Domain.Tests.Kit;
using CsCheck;

namespace Broodtide.Domain.Tests;

public class RunningHoldingsTests
{
    [Fact]
    public void Any_order_of_arrival_gives_the_same_holdings() =>
        Gen.Select(Scrawl.Journals(30), Gen.Int)
            .Sample(
                (entries, seed) =>
                {
                    var (straight, mixed) = (new RunningHoldings(), new RunningHoldings());
                    var random = new Random(seed);
                    foreach (var entry in entries)
                    {
                        straight.Add(entry);
                    }

                    foreach (var entry in entries.Concat(entries).OrderBy(_ => random.Next()))
                    {
                        mixed.Add(entry);
                    }

                    Assert.Equal(straight.Count, mixed.Count);
                    Assert.Equal(entries.Select(entry => entry.Digest).Distinct().Count(), mixed.Count);
                    Assert.Equal(
                        straight.Current.Replicas.OrderBy(one => one.Key.Value),
                        mixed.Current.Replicas.OrderBy(one => one.Key.Value)
                    );
                    Assert.All(entries, entry => Assert.True(mixed.Holds(entry)));
                }
            );

    [Fact]
    public void What_is_lacked_is_counted_and_behind_a_gap_that_both_have_nothing_is_lacked()
    {
        var pen = new Pen(0);
        Entry[] journal = [.. Enumerable.Range(0, 9).Select(i => pen.Note($"note {i}", i))];
        var ours = Running([.. journal[..3], .. journal[5..]]);
        Assert.Empty(ours.LackedBy(Running([.. journal[..3], .. journal[5..]]).Current));
        var lacked = Assert.Single(ours.LackedBy(Running(journal[..2]).Current));
        Assert.Equal((2L, 5L), (lacked.After, lacked.Count));
        lacked = Assert.Single(Running(journal).LackedBy(ours.Current));
        Assert.Equal((3L, 6L), (lacked.After, lacked.Count));
        Assert.Equal([6L, 7L, 8L, 9L], ours.NumbersAfter(journal[0].Envelope.Replica, 3));
    }

    [Fact]
    public void What_the_other_side_holds_for_certain_is_known_by_its_mark()
    {
        var pen = new Pen(0);
        Entry[] journal = [.. Enumerable.Range(0, 5).Select(i => pen.Note($"note {i}", i))];
        var replica = journal[0].Envelope.Replica;
        var theirs = Running(journal[..3]).Current;
        var ours = Running(journal);
        Assert.True(ours.IsKnownThere(theirs, replica, 3));
        Assert.False(ours.IsKnownThere(theirs, replica, 4));
        var other = new Pen(0);
        Entry[] rival = [.. Enumerable.Range(0, 3).Select(i => other.Note($"other {i}", i))];
        Assert.Equal(replica, rival[0].Envelope.Replica);
        Assert.False(ours.IsKnownThere(Running(rival).Current, replica, 2));
    }

    private static RunningHoldings Running(IEnumerable<Entry> entries)
    {
        var running = new RunningHoldings();
        foreach (var entry in entries)
        {
            running.Add(entry);
        }

        return running;
    }
}
