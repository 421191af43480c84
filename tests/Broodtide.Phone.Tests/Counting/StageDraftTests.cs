using Broodtide.Domain.Larvae;
using Broodtide.Phone.Counting;
using NodaTime;

namespace Broodtide.Phone.Tests.Counting;

public sealed class StageDraftTests
{
    private static readonly Instant Now = Instant.FromUtc(2026, 5, 20, 18, 0);
    private static readonly string[] Stages = ["Z4", "Z5", "Z6"];
    private static readonly Guid Jar = Guid.Parse("00000000-0000-7000-8000-000000000001");

    private static StageDraft Tapped(params ReadOnlySpan<string> stages)
    {
        var draft = new StageDraft { Vessel = Jar };
        foreach (var stage in stages)
        {
            draft = draft.Tapped(stage, Now);
        }

        return draft;
    }

    [Fact]
    public void A_sample_says_how_many_stood_in_each_stage_in_the_order_of_the_key() =>
        Assert.Equal(
            [new StageTally("Z4", 2), new StageTally("Z6", 1)],
            Tapped("Z6", "Z4", "Z4").ToFact(Stages)!.Stages
        );

    [Fact]
    public void A_larva_of_which_nobody_is_sure_is_counted_and_left_out_of_the_sample()
    {
        var draft = Tapped("Z4", StageDraft.LeftOut, StageDraft.LeftOut);

        Assert.Equal(1, draft.Staged);
        Assert.Equal(2, draft.Of(StageDraft.LeftOut));
        Assert.Equal([new StageTally("Z4", 1)], draft.ToFact(Stages)!.Stages);
        Assert.Null(Tapped(StageDraft.LeftOut).ToFact(Stages));
    }

    [Fact]
    public void Undo_takes_back_the_latest_tap_whatever_it_was()
    {
        var draft = Tapped("Z4", "Z5", StageDraft.LeftOut);

        Assert.Equal(["Z4", "Z5"], draft.Undone().Taps);
        Assert.Equal(["Z4"], draft.Undone().Undone().Taps);
        Assert.Empty(draft.Undone().Undone().Undone().Undone().Taps);
    }
}
