using Broodtide.Phone.Pictures;
using Broodtide.Workbench.TideLine;
using Bunit;
using Microsoft.AspNetCore.Components.Web;

namespace Broodtide.Phone.Tests.Pictures;

public sealed class TideLineComponentTests : PhoneContext
{
    private IRenderedComponent<TideLine> Drawn(TideLineRecord record) =>
        Render<TideLine>(parameters =>
            parameters
                .Add(line => line.Record, record)
                .Add(line => line.Width, 390)
                .Add(line => line.IdPrefix, "t")
                .Add(line => line.LinkOf, id => $"/journal/{id}")
        );

    [Fact]
    public void The_picture_is_one_image_told_by_its_summary()
    {
        var line = Drawn(RunCases.ThreeCrossings());
        var svg = line.Find("svg.pic");
        Assert.Equal("img", svg.GetAttribute("role"));
        Assert.Equal("t-said", svg.GetAttribute("aria-labelledby"));
        Assert.Contains("about 118 alive", line.Find("#t-said").TextContent, StringComparison.Ordinal);
        Assert.Equal("true", line.Find("svg.pic > g").GetAttribute("aria-hidden"));
    }

    [Fact]
    public void The_cross_hair_is_a_slider_that_moves_by_a_day()
    {
        var line = Drawn(RunCases.ThreeCrossings());
        var slider = line.Find("[role=slider]");
        Assert.StartsWith(
            "20 May: 33.0 ppt, about 118 alive",
            slider.GetAttribute("aria-valuetext"),
            StringComparison.Ordinal
        );
        slider.KeyDown(new KeyboardEventArgs { Key = "ArrowLeft" });
        Assert.StartsWith(
            "19 May:",
            line.Find("[role=slider]").GetAttribute("aria-valuetext"),
            StringComparison.Ordinal
        );
        Assert.NotNull(line.Find(".pic-cross"));
        line.Find("[role=slider]").KeyDown(new KeyboardEventArgs { Key = "End" });
        Assert.StartsWith(
            "expected 30 Jun:",
            line.Find("[role=slider]").GetAttribute("aria-valuetext"),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Three_keys_choose_how_near_it_stands_and_the_page_says_which()
    {
        var line = Drawn(RunCases.ThreeCrossings());
        Assert.Equal("true", line.FindAll(".tide-zoom button")[0].GetAttribute("aria-pressed"));
        line.FindAll(".tide-zoom button")[1].Click();
        Assert.Equal("true", line.FindAll(".tide-zoom button")[1].GetAttribute("aria-pressed"));
        Assert.NotEmpty(line.FindAll(".pic-glyph-line"));
        line.Find("[role=slider]").KeyDown(new KeyboardEventArgs { Key = "+" });
        Assert.Equal("true", line.FindAll(".tide-zoom button")[2].GetAttribute("aria-pressed"));
        line.FindAll(".tide-move button")[0].Click();
        line.FindAll(".tide-move button")[0].Click();
        Assert.Empty(line.FindAll(".pic-flag-word"));
        line.FindAll(".tide-move button")[1].Click();
        Assert.NotEmpty(line.FindAll(".pic-flag-word"));
    }

    [Fact]
    public void A_tap_on_a_count_opens_a_sheet_with_its_words_below_the_picture()
    {
        var record = RunCases.ThreeCrossings();
        var target = TideLineLayout
            .Lay(Spoken.Pictures, record, new(390))
            .Targets.First(one => one.Title == Spoken.Pictures.Count);
        var line = Drawn(record);
        var at = new PointerEventArgs { OffsetX = target.X + 3, OffsetY = target.Y - 3 };
        line.Find("[role=slider]").PointerDown(at);
        line.Find("[role=slider]").PointerUp(at);
        Assert.Contains(
            "counted, 181 (150–217)",
            line.Find(".tide-sheet").TextContent,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Dragging_moves_a_nearer_view_and_is_no_tap()
    {
        var line = Drawn(RunCases.ThreeCrossings());
        line.FindAll(".tide-zoom button")[1].Click();
        var before = line.Find("svg.pic").InnerHtml;
        line.Find("[role=slider]").PointerDown(new PointerEventArgs { OffsetX = 100, OffsetY = 100 });
        line.Find("[role=slider]").PointerMove(new PointerEventArgs { OffsetX = 200, OffsetY = 100 });
        line.Find("[role=slider]").PointerUp(new PointerEventArgs { OffsetX = 200, OffsetY = 100 });
        Assert.NotEqual(before, line.Find("svg.pic").InnerHtml);
        Assert.Empty(line.FindAll(".tide-sheet"));
    }

    [Fact]
    public void The_lines_are_links_to_their_entries_and_the_table_has_its_weeks()
    {
        var line = Drawn(RunCases.ThreeCrossings());
        var links = line.FindAll(".tide-words li a").Select(link => link.GetAttribute("href")).ToList();
        Assert.Contains($"/journal/{RunBuilder.Id(801)}", links);
        Assert.True(line.FindAll(".tide-words tbody tr").Count > 5);
    }

    [Fact]
    public void A_redraw_is_announced_with_the_number_before()
    {
        var record = RunCases.ThreeCrossings();
        var line = Drawn(record);
        var alive = record
            .Alive.Select(row =>
                row.At == record.Now ? row with { Value = RunBuilder.About(80, 121, 170) } : row
            )
            .ToList();
        line.Render(parameters => parameters.Add(one => one.Record, record with { Alive = alive }));
        Assert.Equal("Redrawn: 121 alive, was 118", line.Find("[role=status]").TextContent);
    }

    [Fact]
    public void The_small_form_is_one_image_with_its_words()
    {
        var line = Render<TideLine>(parameters =>
            parameters
                .Add(one => one.Record, RunCases.BerriedYesterday())
                .Add(one => one.Width, 350)
                .Add(one => one.Small, true)
        );
        Assert.StartsWith(
            "Tide line of Brood 3. Now carried",
            line.Find("svg").GetAttribute("aria-label"),
            StringComparison.Ordinal
        );
        Assert.Empty(line.FindAll("text"));
    }

    [Fact]
    public void The_other_pictures_say_what_they_show()
    {
        var nights = Render<HatchNights>(parameters =>
            parameters.Add(one => one.Record, SmallPictureCases.Nights(11)).Add(one => one.Width, 350)
        );
        var ledger = Render<LedgerChart>(parameters =>
            parameters.Add(one => one.Record, SmallPictureCases.Ledger()).Add(one => one.Width, 390)
        );
        var stair = Render<CrossingStair>(parameters =>
            parameters.Add(one => one.Record, SmallPictureCases.Stair(3.3)).Add(one => one.Width, 390)
        );
        Assert.StartsWith(
            "Chance of hatching",
            nights.Find("svg").GetAttribute("aria-label"),
            StringComparison.Ordinal
        );
        Assert.StartsWith(
            "Salinity of Jar A",
            ledger.Find("svg").GetAttribute("aria-label"),
            StringComparison.Ordinal
        );
        Assert.StartsWith(
            "Stair of the crossing",
            stair.Find("svg").GetAttribute("aria-label"),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Without_a_fixed_width_the_place_is_measured()
    {
        JSInterop.Mode = JSRuntimeMode.Loose;
        JSInterop.SetupModule("./js/pictures.js");
        var line = Render<TideLine>(parameters =>
            parameters.Add(one => one.Record, RunCases.ThreeCrossings())
        );
        Assert.Equal("390", line.Find("svg.pic").GetAttribute("width"));
        var measured = line.FindComponent<Measured>();
        await measured.InvokeAsync(() => measured.Instance.Resized(512));
        Assert.Equal("512", line.Find("svg.pic").GetAttribute("width"));
    }

    [Theory]
    [InlineData("three-crossings")]
    [InlineData("berried-yesterday")]
    public void The_drawing_stays_as_it_was_agreed(string name)
    {
        var record = RunCases.All.Single(one => one.Name == name).Record;
        var drawn = Render<PictureView>(parameters =>
            parameters
                .Add(view => view.Picture, TideLineLayout.Lay(Spoken.Pictures, record, new(390)))
                .Add(view => view.IdPrefix, name)
                .Add(view => view.Label, name)
        )
            .Markup.Replace("><", ">\n<", StringComparison.Ordinal);
        var golden = Path.Combine(Repository.Root(), "tests/Broodtide.Phone.Tests/Golden", $"{name}.svg");
        if (Environment.GetEnvironmentVariable("BROODTIDE_WRITE_GOLDEN") == "1")
        {
            File.WriteAllText(golden, drawn + "\n");
        }

        Assert.Equal(File.ReadAllText(golden).TrimEnd(), drawn.TrimEnd());
    }
}
