using Broodtide.Domain.Journal;
using Broodtide.Domain.Tests.Kit;
using CsCheck;

namespace Broodtide.Domain.Tests;

public class HoldingsTests
{
    [Fact]
    public void Two_sides_that_each_hold_beginnings_are_equal_after_one_exchange() =>
        Gen.Select(Gen.Int[0, 9].Array[3], Gen.Int[0, 9].Array[3])
            .Sample(
                (left, right) =>
                {
                    var journals = Enumerable.Range(0, 3).Select(Notes).ToArray();
                    var ours = Sides(journals, left);
                    var theirs = Sides(journals, right);
                    var most = left.Zip(right, Math.Max).Sum();
                    Exchange(ours, theirs);
                    Assert.Equal(most, ours.Count);
                    Assert.True(ours.SetEquals(theirs));
                }
            );

    [Fact]
    public void Nothing_is_sent_that_the_other_side_holds()
    {
        var journal = Notes(0);
        Assert.Empty(Holdings.Of(journal).LackedOf(journal));
        // Also where the other side holds more.
        Assert.Empty(Holdings.Of(journal).LackedOf(journal[..4]));
        Assert.Equal(journal[4..], Holdings.Of(journal[..4]).LackedOf(journal));
    }

    [Fact]
    public void A_gap_is_filled_though_what_lies_behind_it_is_held()
    {
        var journal = Notes(0);
        Entry[] gap = [.. journal[..3], .. journal[5..]];
        Assert.Equal(3, Holdings.Of(gap).Replicas[journal[0].Envelope.Replica].Highest);
        Assert.Superset(journal[3..5].ToHashSet(), Holdings.Of(gap).LackedOf(journal).ToHashSet());
    }

    [Fact]
    public void Any_two_sides_are_equal_after_a_few_exchanges_also_with_numbers_given_twice() =>
        Gen.Select(Scrawl.Journals(40), Gen.Int)
            .Sample(
                (entries, seed) =>
                {
                    var random = new Random(seed);
                    var ours = Some(entries, random);
                    var theirs = Some(entries, random);
                    var all = ours.Union(theirs).ToHashSet();
                    for (var round = 0; round < 3; round++)
                    {
                        Exchange(ours, theirs);
                    }

                    Assert.True(ours.SetEquals(all) && theirs.SetEquals(all));
                }
            );

    private static void Exchange(HashSet<Entry> ours, HashSet<Entry> theirs)
    {
        var toThem = Holdings.Of(theirs).LackedOf(ours).ToList();
        var toUs = Holdings.Of(ours).LackedOf(theirs).ToList();
        theirs.UnionWith(toThem);
        ours.UnionWith(toUs);
    }

    private static HashSet<Entry> Some(Entry[] entries, Random random) =>
        [.. entries.Where(_ => random.Next(2) == 0)];

    private static HashSet<Entry> Sides(Entry[][] journals, int[] lengths) =>
        [.. journals.Zip(lengths).SelectMany(side => side.First.Take(side.Second))];

    private static Entry[] Notes(int replica)
    {
        var pen = new Pen(replica);
        return [.. Enumerable.Range(0, 9).Select(i => pen.Note($"note {i}", i))];
    }
}
