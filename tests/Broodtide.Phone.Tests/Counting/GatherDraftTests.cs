using Broodtide.Domain.Larvae;
using Broodtide.Phone.Counting;
using NodaTime;

namespace Broodtide.Phone.Tests.Counting;

public sealed class GatherDraftTests
{
    private static readonly Instant Evening = Instant.FromUtc(2026, 5, 20, 20, 0);

    [Fact]
    public void The_first_tap_tells_when_they_began_to_wait_and_the_last_one_when_it_ended()
    {
        var draft = new GatherDraft()
            .Tapped(1, Evening)
            .Tapped(10, Evening + Duration.FromMinutes(2))
            .Tapped(1, Evening + Duration.FromMinutes(5));
        Assert.Equal(12, draft.Taken);
        Assert.Equal(Evening, draft.FirstAt);
        Assert.Equal((Evening + Duration.FromMinutes(5)).ToUnixTimeMilliseconds(), draft.Last);
    }

    [Fact]
    public void Undo_takes_back_what_the_last_tap_added_and_the_very_first_takes_its_time_with_it()
    {
        var draft = new GatherDraft().Tapped(1, Evening).Tapped(10, Evening);
        Assert.Equal(1, draft.Undone().Taken);
        var empty = draft.Undone().Undone();
        Assert.Null(empty.Taken);
        Assert.False(empty.HasBegun);
        Assert.Same(empty, empty.Undone());
    }

    [Fact]
    public void One_by_one_is_a_full_count_and_ten_at_a_time_a_guess_unless_the_keeper_says_otherwise()
    {
        var ones = new GatherDraft().Tapped(1, Evening).Tapped(1, Evening);
        Assert.Equal(CountMethod.Full, ones.Counted);
        var tens = ones.Tapped(10, Evening);
        Assert.Equal(CountMethod.Glance, tens.Counted);
        Assert.Equal(CountMethod.Beam, (tens with { Method = CountMethod.Beam }).Counted);
    }

    [Fact]
    public void Taken_and_not_counted_is_no_number_but_has_its_time()
    {
        var draft = new GatherDraft().Uncounted(Evening);
        Assert.Null(draft.Taken);
        Assert.True(draft.HasBegun);
    }

    [Fact]
    public void A_draft_comes_back_as_it_was_and_a_broken_one_is_none()
    {
        var store = new Dictionary<string, string?>();
        var drafts = new Drafts(
            name => store.GetValueOrDefault(name),
            (name, text) =>
            {
                store[name] = text;
                return true;
            }
        );
        var draft = new GatherDraft { Brood = Guid.CreateVersion7(), Volume = "150" }
            .Tapped(10, Evening)
            .LookAgain(Evening);
        drafts.Gather.Keep(draft);
        var back = drafts.Gather.Recall()!;
        Assert.Equal(draft with { Taps = back.Taps }, back);
        Assert.Equal(draft.Taps, back.Taps);
        Assert.Equal(Evening + Duration.FromMinutes(10), back.AgainAt);

        foreach (
            var text in new[]
            {
                "{\"taken\":-1}",
                "{\"first\":5}",
                "{\"againMinutes\":0}",
                "[",
                "{\"taps\":null}",
            }
        )
        {
            store["draft.gather"] = text;
            Assert.Null(drafts.Gather.Recall());
        }
    }

    [Fact]
    public void Taps_for_undo_do_not_grow_without_end()
    {
        var draft = new GatherDraft();
        for (var tap = 0; tap < 400; tap++)
        {
            draft = draft.Tapped(1, Evening);
        }

        Assert.Equal(400, draft.Taken);
        Assert.Equal(50, draft.Taps.Count);
    }
}
