using Broodtide.Phone.Counting;
using Broodtide.Phone.Pictures;
using Broodtide.Workbench.Species;
using Bunit;

namespace Broodtide.Phone.Tests.Counting;

public sealed class StageTapperTests : PhoneContext
{
    private StageDraft _draft = new();

    private IRenderedComponent<StageTapper> Shown() =>
        Render<StageTapper>(parameters =>
            parameters
                .Add(tapper => tapper.Key, StageKey.Of(SpeciesProfiles.Reference.Stages))
                .Add(tapper => tapper.Draft, _draft)
                .Add(tapper => tapper.DraftChanged, draft => _draft = draft)
                .Add(tapper => tapper.OnFinish, () => { })
        );

    private void Press(IRenderedComponent<StageTapper> tapper, string selector, int at)
    {
        tapper.FindAll(selector)[at].Click();
        tapper.Render(parameters => parameters.Add(it => it.Draft, _draft));
    }

    [Fact]
    public void Every_stage_is_a_key_with_its_drawing_its_letter_and_what_to_look_for()
    {
        var tapper = Shown();
        var keys = tapper.FindAll(".stage-key:not(.doubt)");

        Assert.Equal(
            ["Z1", "Z2", "Z3", "Z4", "Z5", "Z6", "Z7", "Z8", "Z9", "PL"],
            keys.Select(key => key.QuerySelector(".letter b")!.TextContent)
        );
        Assert.All(keys, key => Assert.NotNull(key.QuerySelector("svg.larva path")));
        Assert.All(keys, key => Assert.NotEqual("", key.QuerySelector(".signs")!.TextContent.Trim()));
        Assert.DoesNotContain("sign.", tapper.Markup, StringComparison.Ordinal);
        Assert.DoesNotContain("style=", tapper.Markup, StringComparison.Ordinal);
        Assert.Contains("no sign of its own is known", keys[5].TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_a_relatives_is_marked_as_borrowed_and_what_keepers_report_as_practice()
    {
        var keys = Shown().FindAll(".stage-key:not(.doubt)");

        Assert.NotNull(keys[0].QuerySelector(".ft.cust"));
        Assert.Null(keys[0].QuerySelector(".ft.borr"));
        Assert.NotNull(keys[3].QuerySelector(".ft.borr"));
        Assert.Contains("in a relative", keys[3].TextContent, StringComparison.Ordinal);
        Assert.Contains("Macrobrachium lar", Shown().Find(".told").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void A_tap_adds_one_to_its_stage_and_undo_names_what_it_takes_back()
    {
        var tapper = Shown();
        Press(tapper, ".stage-key", 3);
        Press(tapper, ".stage-key", 3);
        Press(tapper, ".stage-key", 4);
        Assert.Equal(["2", "1"], tapper.FindAll(".stage-key.some .tally").Select(tally => tally.TextContent));
        Assert.Equal("Undo Z5", tapper.FindAll(".hands button")[0].TextContent);
        Assert.Equal("Finish: 3 larvae", tapper.FindAll(".hands button")[1].TextContent.Trim());

        Press(tapper, ".hands button", 0);
        Assert.Equal("Undo Z4", tapper.FindAll(".hands button")[0].TextContent);
    }

    [Fact]
    public void A_larva_between_two_stages_is_left_out_and_the_key_says_so()
    {
        var tapper = Shown();
        Press(tapper, ".stage-key.doubt", 0);
        Assert.Contains(
            "left out of the sample",
            tapper.Find(".stage-key.doubt").TextContent,
            StringComparison.Ordinal
        );
        Assert.Equal("1", tapper.Find(".stage-key.doubt .tally").TextContent);
        Assert.True(tapper.FindAll(".hands button")[1].HasAttribute("disabled"));
        Assert.Equal("Undo left out", tapper.FindAll(".hands button")[0].TextContent);
    }
}
