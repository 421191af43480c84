using Broodtide.Domain.Larvae;
using Broodtide.Phone.Counting;
using NodaTime;

namespace Broodtide.Phone.Tests.Counting;

public sealed class CountDraftTests
{
    private static readonly Instant Now = Instant.FromUtc(2026, 5, 20, 18, 0);
    private static readonly Guid Jar = Guid.Parse("00000000-0000-7000-8000-000000000001");

    private static CountDraft Begun => new CountDraft { Vessel = Jar }.Of("250", "mL");

    private static CountDraft Taps(CountDraft draft, int times)
    {
        for (var tap = 0; tap < times; tap++)
        {
            draft = draft.Tapped(Now);
        }

        return draft;
    }

    [Fact]
    public void Each_sample_keeps_its_own_number_and_volume()
    {
        var draft = Taps(Taps(Begun, 4).Next(), 2).Next();
        draft = Taps(draft.Of("0.5", "L"), 5);

        var fact = draft.ToFact()!;

        Assert.Equal([4, 2, 5], fact.Samples.Select(sample => sample.Seen));
        Assert.Equal(["250", "250", "0.5"], fact.Samples.Select(sample => sample.Volume!.Typed));
        Assert.Equal(["mL", "mL", "L"], fact.Samples.Select(sample => sample.Volume!.Unit));
        Assert.Equal(CountMethod.Aliquot, fact.Method);
        Assert.Null(fact.InDark);
    }

    [Fact]
    public void None_seen_is_said_and_never_assumed()
    {
        var draft = Taps(Begun, 3).Next();
        Assert.Equal([3], draft.ToFact()!.Samples.Select(sample => sample.Seen));

        Assert.Equal([3, 0], draft.NoneSeen(Now).ToFact()!.Samples.Select(sample => sample.Seen));
        Assert.Null(Begun.ToFact());
        Assert.Equal([0], Begun.NoneSeen(Now).ToFact()!.Samples.Select(sample => sample.Seen));
    }

    [Fact]
    public void A_finger_that_slips_twice_on_next_opens_one_sample()
    {
        var draft = Taps(Begun, 3).Next().Next();

        Assert.Equal(2, draft.Samples.Count);
        Assert.Equal([3], draft.ToFact()!.Samples.Select(sample => sample.Seen));
    }

    [Fact]
    public void Undo_takes_one_then_the_look_then_the_sample_and_stops_at_the_first()
    {
        var draft = Taps(Taps(Begun, 4).Next(), 2);
        List<(int Samples, int? Seen)> seen = [];
        while (draft.CanUndo)
        {
            draft = draft.Undone();
            seen.Add((draft.Samples.Count, draft.Current.Seen));
        }

        Assert.Equal([(2, 1), (2, null), (1, 4), (1, 3), (1, 2), (1, 1), (1, null)], seen);
        Assert.Equal(draft, draft.Undone());
    }

    [Fact]
    public void An_earlier_sample_can_be_gone_back_to_and_the_open_one_is_found_again()
    {
        var draft = Taps(Taps(Begun, 4).Next().GoTo(0), 1).Next();

        Assert.Equal(1, draft.At);
        Assert.Equal(2, draft.Samples.Count);
        Assert.Equal(5, draft.Samples[0].Seen);
    }

    [Fact]
    public void A_sample_without_a_volume_or_a_count_without_a_vessel_is_no_entry_yet()
    {
        Assert.Null(Taps(new CountDraft { Vessel = Jar }, 3).ToFact());
        Assert.Null(Taps(new CountDraft { Vessel = Jar }.Of("0", "mL"), 3).ToFact());
        Assert.Null(Taps(new CountDraft { Vessel = Jar }.Of("two", "mL"), 3).ToFact());
        Assert.Null(Taps(Begun with { Vessel = null }, 3).ToFact());
    }

    [Fact]
    public void Every_other_way_of_counting_has_one_number_and_no_volume()
    {
        var draft = Taps(Taps(Begun, 4).Next(), 2).By(CountMethod.Beam) with { InDark = true };

        var fact = draft.ToFact()!;

        Assert.Equal(new Aliquot(6), Assert.Single(fact.Samples));
        Assert.True(fact.InDark);
        Assert.False(fact.Again);
    }

    [Fact]
    public void Counted_once_more_it_is_the_same_way_with_nothing_seen_and_a_check()
    {
        var draft = Taps(Taps(Begun, 4).Next(), 2).OnceMore();

        Assert.False(draft.HasBegun);
        Assert.True(draft.Again);
        var sample = Assert.Single(draft.Samples);
        Assert.Null(sample.Seen);
        Assert.Equal("250", sample.Volume);
        Assert.True(Taps(draft, 1).ToFact()!.Again);
    }

    [Fact]
    public void A_sample_that_was_none_is_taken_out()
    {
        var draft = Taps(Taps(Begun, 4).Next(), 2).Without(0);

        Assert.Equal([2], draft.ToFact()!.Samples.Select(sample => sample.Seen));
        Assert.Equal(0, draft.At);
        Assert.Null(draft.Without(0).ToFact());
    }
}
