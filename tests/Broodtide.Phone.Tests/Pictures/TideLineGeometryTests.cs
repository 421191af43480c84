using Broodtide.Phone.Pictures;
using Broodtide.Workbench.TideLine;

namespace Broodtide.Phone.Tests.Pictures;

public sealed class TideLineGeometryTests
{
    public static TheoryData<string, double> CasesAndWidths()
    {
        var data = new TheoryData<string, double>();
        foreach (var (name, _) in RunCases.All)
        {
            foreach (var width in new[] { 320.0, 390, 768, 1280 })
            {
                data.Add(name, width);
            }
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(CasesAndWidths))]
    public void No_two_words_overlap_and_nothing_leaves_the_picture(string name, double width)
    {
        var record = RunCases.All.Single(one => one.Name == name).Record;
        foreach (var zoom in Enum.GetValues<TideZoom>())
        {
            var picture = TideLineLayout.Lay(Spoken.Pictures, record, new(width, zoom));
            Soundness.Check(picture, strict: zoom == TideZoom.WholeRun);
        }
    }

    [Theory]
    [MemberData(nameof(CasesAndWidths))]
    public void The_small_form_has_no_words_and_is_74_high(string name, double width)
    {
        var record = RunCases.All.Single(one => one.Name == name).Record;
        var picture = TideLineLayout.Lay(Spoken.Pictures, record, new(Math.Min(width, 350), Small: true));
        Assert.Equal(74, picture.Height);
        Assert.Empty(picture.Shapes.OfType<WordShape>());
        Soundness.Check(picture, strict: true);
    }

    [Fact]
    public void A_small_picture_is_never_less_than_320_by_360()
    {
        var picture = TideLineLayout.Lay(Spoken.Pictures, RunCases.BerriedYesterday(), new(200));
        Assert.Equal(320, picture.Width);
        Assert.True(picture.Height >= 360, $"{picture.Height}");
    }

    [Fact]
    public void Sixty_crossings_are_told_once()
    {
        var words = Words(RunCases.Braid(60, 14), 390);
        Assert.Contains("60 crossings", words);
        Assert.Single(words, word => word.EndsWith("crossings", StringComparison.Ordinal));
    }

    [Fact]
    public void Crossings_twenty_days_apart_are_told_twice() =>
        Assert.Equal(2, Words(RunCases.FarApart(), 390).Count(word => word == "crossing"));

    [Fact]
    public void The_likeliest_words_stand_in_the_run_of_three_crossings()
    {
        var words = Words(RunCases.ThreeCrossings(), 390);
        Assert.Contains("now, day 27", words);
        Assert.Contains("3 crossings", words);
        Assert.Contains("251 larvae", words);
        Assert.Contains("return", words);
        Assert.Contains("118 alive", words);
        Assert.Contains("berried", words);
        Assert.Contains("fresh", words);
        Assert.Contains("brackish", words);
        Assert.Contains("sea", words);
    }

    [Fact]
    public void A_crossing_of_today_has_its_words_at_left_and_a_keel_wide_enough_to_see()
    {
        var scene = new TideScene(Spoken.Pictures, RunCases.CrossingToday(), new(390));
        var picture = TideLineLayout.Lay(scene);
        var words = picture.Shapes.OfType<WordShape>().Single(word => word.Text == "crossing");
        Assert.True(words.Box.Right < scene.NowX);
        var keel = Soundness.Points(picture.Shapes.First(shape => shape.Class == "pic-keel-95"));
        Assert.True(keel.Max(point => point.X) - keel.Min(point => point.X) >= 2.9);
    }

    [Theory]
    [InlineData(320)]
    [InlineData(390)]
    [InlineData(768)]
    public void Three_crossings_in_three_days_have_one_label(double width) =>
        Assert.Single(
            Words(RunCases.ThreeCrossings(), width),
            word => word.Contains("crossing", StringComparison.Ordinal)
        );

    [Fact]
    public void A_whole_picture_of_some_six_hundred_entries_is_laid_out_in_time()
    {
        var record = RunCases.LongRun();
        TideLineLayout.Lay(Spoken.Pictures, record, new(390));
        var watch = System.Diagnostics.Stopwatch.StartNew();
        const int Times = 10;
        for (var i = 0; i < Times; i++)
        {
            TideLineLayout.Lay(Spoken.Pictures, record, new(390));
        }

        var each = watch.Elapsed.TotalMilliseconds / Times;
        TestContext.Current.TestOutputHelper?.WriteLine(
            $"{each} ms a picture, {record.Entries.Count} entries"
        );
        // A picture that took this long here could not be redrawn on a phone without being noticed.
        Assert.True(each < 200, $"{each} ms");
    }

    [Fact]
    public void A_joined_vessel_gives_its_larvae_and_the_line_a_ring()
    {
        var picture = TideLineLayout.Lay(Spoken.Pictures, RunCases.JoinAndSplit(), new(390));
        Assert.Equal(2, picture.Shapes.Count(shape => shape.Class == "pic-ring"));
        Assert.Single(picture.Shapes, shape => shape.Class == "pic-behind");
    }

    [Fact]
    public void A_rough_number_has_no_median_line_and_says_rough()
    {
        var picture = TideLineLayout.Lay(Spoken.Pictures, RunCases.Rough(), new(390));
        Assert.DoesNotContain(
            picture.Shapes,
            shape => shape.Class.StartsWith("pic-keel-50", StringComparison.Ordinal)
        );
        Assert.Contains(
            picture.Shapes.OfType<WordShape>(),
            word => word.Text.StartsWith("rough", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Without_an_estimate_there_is_no_keel()
    {
        var picture = TideLineLayout.Lay(Spoken.Pictures, RunCases.NoEstimates(), new(390));
        Assert.DoesNotContain(
            picture.Shapes,
            shape => shape.Class.StartsWith("pic-keel", StringComparison.Ordinal)
        );
        Assert.Contains("3 crossings", picture.Shapes.OfType<WordShape>().Select(word => word.Text));
    }

    [Fact]
    public void A_salinity_never_read_is_dotted_and_said()
    {
        var picture = TideLineLayout.Lay(Spoken.Pictures, RunCases.NeverMeasured(), new(390));
        Assert.Contains(
            picture.Shapes,
            shape => shape.Class.Contains("pic-unmeasured", StringComparison.Ordinal)
        );
        Assert.Contains("not measured", picture.Shapes.OfType<WordShape>().Select(word => word.Text));
    }

    [Fact]
    public void Nobody_emptied_the_vessel_so_there_is_no_end()
    {
        var picture = TideLineLayout.Lay(Spoken.Pictures, RunCases.VesselKept(), new(390));
        Assert.DoesNotContain(picture.Shapes, shape => shape.Class == "pic-end-thick");
        Assert.Contains(
            picture.Shapes.OfType<WordShape>(),
            word => word.Text.StartsWith("none seen since", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Some_home_and_some_lost_has_both_bars() =>
        Assert.Equal(
            2,
            TideLineLayout
                .Lay(Spoken.Pictures, RunCases.Home(some: true), new(390))
                .Shapes.Count(shape => shape.Class == "pic-end-thick")
        );

    [Theory]
    [InlineData(4, "2 larvae")]
    [InlineData(6000, "2000 larvae")]
    public void The_scale_bar_is_a_round_number(double larvae, string text) =>
        Assert.Contains(text, Words(RunCases.Size(larvae), 768));

    [Fact]
    public void A_vessel_of_like_salinity_is_drawn_four_pixels_lower()
    {
        var record = RunCases.TwoVessels(34.2);
        var scene = new TideScene(Spoken.Pictures, record, new(390));
        TideLineLayout.Lay(scene);
        var (from, to) = (RunBuilder.Day(2), RunBuilder.Day(20));
        var behind = TideLinePart.BehindY(scene, record.Vessels[1], from, to, RunBuilder.Day(10));
        Assert.Equal(4, behind - scene.Y(34), 0.01);
    }

    [Fact]
    public void Nothing_solid_stands_right_of_now()
    {
        var record = RunCases.ThreeCrossings();
        var scene = new TideScene(Spoken.Pictures, record, new(390));
        var picture = TideLineLayout.Lay(scene);
        string[] solid =
        [
            "pic-sure",
            "pic-line",
            "pic-keel-50",
            "pic-keel-95",
            "pic-fresh",
            "pic-shore",
            "pic-sea",
        ];
        foreach (var shape in picture.Shapes.Where(shape => solid.Contains(shape.Class)))
        {
            foreach (var (x, _) in Soundness.Points(shape))
            {
                Assert.True(x <= scene.NowX + 0.11, $"{shape} at {x}, now at {scene.NowX}");
            }
        }
    }

    [Fact]
    public void A_step_of_the_keel_keeps_both_its_values()
    {
        var scene = new TideScene(Spoken.Pictures, RunCases.ThreeCrossings(), new(1280));
        var picture = TideLineLayout.Lay(scene);
        var outer = picture.Shapes.First(shape => shape.Class == "pic-keel-95");
        var x = Math.Round(scene.X(RunBuilder.Day(1.3)), 1);
        Assert.True(Soundness.Points(outer).Count(point => Math.Abs(point.X - x) < 0.01) >= 3);
    }

    [Fact]
    public void A_silence_of_more_than_three_days_is_hatched()
    {
        var record = RunCases.OneCrossing();
        var quiet = record with
        {
            Entries =
            [
                .. record.Entries.Where(one => one.At < RunBuilder.Day(6) || one.At > RunBuilder.Day(12)),
            ],
        };
        Assert.Equal(1, Hatched(record));
        Assert.Equal(2, Hatched(quiet));
        static int Hatched(TideLineRecord run) =>
            TideLineLayout
                .Lay(Spoken.Pictures, run with { Counts = [] }, new(390))
                .Shapes.OfType<PathShape>()
                .Count(shape => shape.Fill == Hatch.Keel);
    }

    [Fact]
    public void Ninety_days_and_six_hundred_entries_keep_each_edge_under_four_hundred_points()
    {
        var run = RunCases.LongRun();
        var rows = Enumerable
            .Range(0, 3000)
            .Select(i => RunBuilder.Row(i * 0.02, 30 + (i % 7), 31 + (i % 7), 32 + (i % 7)))
            .ToList();
        var picture = TideLineLayout.Lay(
            Spoken.Pictures,
            run with
            {
                Vessels = [run.Vessels[0] with { Salinity = rows }],
            },
            new(390)
        );
        foreach (
            var path in picture
                .Shapes.OfType<PathShape>()
                .Where(path => path.Class.StartsWith("pic-line", StringComparison.Ordinal))
        )
        {
            Assert.True(Soundness.Points(path).Count <= 400);
        }
    }

    private static List<string> Words(TideLineRecord record, double width) =>
        [
            .. TideLineLayout
                .Lay(Spoken.Pictures, record, new(width))
                .Shapes.OfType<WordShape>()
                .Select(word => word.Text),
        ];
}
