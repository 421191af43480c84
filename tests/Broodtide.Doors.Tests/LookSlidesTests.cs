using Broodtide.Doors.Tests.Kit;
using Broodtide.Photos;

namespace Broodtide.Doors.Tests;

public sealed class LookSlidesTests
{
    [Fact]
    public async Task Cells_of_a_chamber_are_counted_marked_and_written()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        await InventedSlides.ChamberAsync(kitchen);
        string[] call =
        [
            "look",
            "cells",
            kitchen.At("chamber.png"),
            "--chamber",
            "neubauer",
            "--dilution",
            "2",
        ];
        var answer = (await kitchen.RunAsync([.. call, "--json"])).Json;
        var density = answer.GetProperty("cellsPerMillilitre");
        Assert.InRange(4e5, density.GetProperty("low").GetDouble(), density.GetProperty("high").GetDouble());
        Assert.Equal(0.1, answer.GetProperty("squareMicrolitres").GetDouble(), 1e-9);

        var outcome = await kitchen.RunAsync([
            .. call,
            "--marked",
            kitchen.At("marked.png"),
            "--vessel",
            "Green jar",
            "--write",
            "--yes",
        ]);
        Assert.True(outcome.Code == 0, outcome.Error + outcome.Out);
        var marked = PictureFile
            .Decode(
                await File.ReadAllBytesAsync(kitchen.At("marked.png"), TestContext.Current.CancellationToken)
            )
            .Value;
        Assert.True(marked.ToGrey().Zip(marked.ToSmallest()).Count(it => it.First - it.Second > 30) > 300);
        var squares = answer.GetProperty("squares").EnumerateArray().Select(it => it.GetRawText());
        var last = await kitchen.DoAsync("journal", "--last", "1");
        Assert.Contains("cells of Green jar counted in", last.Out, StringComparison.Ordinal);
        Assert.Contains(
            $"{string.Join(" + ", squares)}, diluted 2 times",
            last.Out,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_chamber_that_is_not_known_and_a_picture_without_lines_are_refused()
    {
        using var kitchen = new Kitchen();
        await InventedSlides.LarvaAsync(kitchen);
        var outcome = await kitchen.RunAsync("look", "cells", kitchen.At("larva.png"), "--chamber", "bucket");
        Assert.Equal(2, outcome.Code);
        Assert.Contains("sedgewick-rafter", outcome.Error, StringComparison.Ordinal);
        outcome = await kitchen.RunAsync("look", "cells", kitchen.At("larva.png"), "--chamber", "neubauer");
        Assert.Equal(1, outcome.Code);
        Assert.Contains("No ruled lines", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_ruler_gives_the_scale_and_a_larva_its_length()
    {
        using var kitchen = new Kitchen();
        await InventedSlides.RulerAsync(kitchen);
        await InventedSlides.LarvaAsync(kitchen);
        var scale = (
            await kitchen.RunAsync("look", "scale", kitchen.At("ruler.png"), "--ticks-um", "10", "--json")
        ).Json.GetProperty("micrometresPerPixel");
        Assert.Equal(1.25, scale.GetProperty("middle").GetDouble(), 0.006);

        string[] call = ["look", "length", kitchen.At("larva.png")];
        var length = (
            await kitchen.RunAsync([
                .. call,
                "--scale-from",
                kitchen.At("ruler.png"),
                "--ticks-um",
                "10",
                "--json",
            ])
        ).Json.GetProperty("lengthMicrometres");
        Assert.Equal(187.5, length.GetProperty("middle").GetDouble(), 4.0);
        Assert.True(length.GetProperty("low").GetDouble() < length.GetProperty("high").GetDouble());

        var outcome = await kitchen.RunAsync([
            .. call,
            "--um-per-px",
            "10",
            "--along",
            "0,0;30,40;90,40",
            "--json",
        ]);
        Assert.Equal(
            1100,
            outcome.Json.GetProperty("lengthMicrometres").GetProperty("middle").GetDouble(),
            1e-6
        );
        outcome = await kitchen.RunAsync(call);
        Assert.Equal(2, outcome.Code);
        Assert.Contains("needs a scale", outcome.Error, StringComparison.Ordinal);
        outcome = await kitchen.RunAsync([.. call, "--um-per-px", "10", "--at", "here"]);
        Assert.Equal(2, outcome.Code);
        outcome = await kitchen.RunAsync("look", "scale", kitchen.At("larva.png"), "--ticks-um", "10");
        Assert.Equal(1, outcome.Code);
        Assert.Contains("No ticks", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Lengths_that_are_written_make_a_growth_curve_and_say_no_more_than_they_know()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        await InventedSlides.LarvaAsync(kitchen);
        var outcome = await kitchen.RunAsync(
            "look",
            "length",
            kitchen.At("larva.png"),
            "--um-per-px",
            "12",
            "--vessel",
            "Jar A",
            "--write",
            "--yes"
        );
        Assert.True(outcome.Code == 0, outcome.Error + outcome.Out);
        Assert.Contains("mm", outcome.Out, StringComparison.Ordinal);
        var last = await kitchen.DoAsync("journal", "--last", "1");
        Assert.Contains("larvae of Jar A measured", last.Out, StringComparison.Ordinal);

        var run = (await kitchen.RunAsync("look", "lengths", "--run", "Brood 2", "--json")).Json;
        var look = Assert.Single(run.GetProperty("looks").EnumerateArray());
        Assert.Equal("Jar A", look.GetProperty("vessel").GetString());
        Assert.Equal(1_800, look.GetProperty("lengthsMicrometres")[0].GetDouble(), 60.0);
        Assert.False(run.TryGetProperty("growth", out _));
        Assert.Equal("growth-needs-looks", run.GetProperty("remarks")[0].GetProperty("code").GetString());

        foreach (var (ago, um) in new[] { ("8", "1500 1560"), ("4", "1650 1700 1640") })
        {
            var when = Kitchen.Now.Minus(
                NodaTime.Duration.FromDays(int.Parse(ago, System.Globalization.CultureInfo.InvariantCulture))
            );
            outcome = await kitchen.RunAsync(
                "write",
                "measured",
                "Jar A",
                "--um",
                um,
                "--when",
                when.ToString(),
                "--yes"
            );
            Assert.True(outcome.Code == 0, outcome.Error + outcome.Out);
        }

        run = (await kitchen.RunAsync("look", "lengths", "--run", "Brood 2", "--json")).Json;
        Assert.Equal(3, run.GetProperty("looks").GetArrayLength());
        Assert.InRange(
            run.GetProperty("growth").GetProperty("micrometresPerDay").GetProperty("middle").GetDouble(),
            20,
            50
        );
        outcome = await kitchen.DoAsync("look", "lengths", "--run", "Brood 2");
        Assert.Contains("um a day", outcome.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_no_length_and_no_single_picture_is_said()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        await InventedSlides.LarvaAsync(kitchen);
        var outcome = await kitchen.RunAsync("write", "measured", "Jar A", "--um", "long", "--yes");
        Assert.Equal(2, outcome.Code);
        Assert.Contains("long", outcome.Error, StringComparison.Ordinal);
        outcome = await kitchen.RunAsync("write", "measured", "Jar A", "--yes");
        Assert.NotEqual(0, outcome.Code);
        Assert.Contains("Nothing was measured", outcome.Error, StringComparison.Ordinal);
        Directory.CreateDirectory(kitchen.At("two"));
        File.Copy(kitchen.At("larva.png"), kitchen.At("two/a.png"));
        File.Copy(kitchen.At("larva.png"), kitchen.At("two/b.png"));
        outcome = await kitchen.RunAsync("look", "length", kitchen.At("two"), "--um-per-px", "12");
        Assert.Equal(2, outcome.Code);
        Assert.Contains("one picture is wanted, not 2", outcome.Error, StringComparison.Ordinal);
        outcome = await kitchen.RunAsync("look", "lengths");
        Assert.Equal(2, outcome.Code);
        outcome = await kitchen.RunAsync(
            "look",
            "cells",
            kitchen.At("larva.png"),
            "--chamber",
            "improved-neubauer"
        );
        Assert.Contains("No ruled lines", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_beating_spot_has_a_pulse_that_is_written_and_a_still_one_has_none()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        await InventedSlides.BeatAsync(kitchen, "clip", perMinute: 150, framesPerSecond: 12, seconds: 12);
        string[] call = ["look", "pulse", kitchen.At("clip"), "--fps", "12"];
        var beat = (await kitchen.RunAsync([.. call, "--at", "20,20", "--json"])).Json.GetProperty(
            "beatsPerMinute"
        );
        Assert.InRange(150, beat.GetProperty("low").GetDouble(), beat.GetProperty("high").GetDouble());

        var outcome = await kitchen.RunAsync([
            .. call,
            "--at",
            "20,20",
            "--vessel",
            "Jar A",
            "--write",
            "--yes",
        ]);
        Assert.True(outcome.Code == 0, outcome.Error + outcome.Out);
        var last = await kitchen.DoAsync("journal", "--last", "1");
        Assert.Contains("beats", last.Out, StringComparison.Ordinal);

        outcome = await kitchen.RunAsync([.. call, "--at", "50,50"]);
        Assert.Equal(1, outcome.Code);
        Assert.Contains("No pulse", outcome.Error, StringComparison.Ordinal);
        outcome = await kitchen.RunAsync([.. call, "--at", "900,20"]);
        Assert.Equal(2, outcome.Code);
        Assert.Contains("outside the picture", outcome.Error, StringComparison.Ordinal);
        Assert.Equal(2, (await kitchen.RunAsync([.. call[..3], "--at", "20,20"])).Code);
    }

    [Fact]
    public async Task Of_those_seen_the_share_that_moved_is_told_and_written()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        await InventedSlides.SwarmAsync(kitchen, "swarm");
        string[] call = ["look", "swim", kitchen.At("swarm"), "--seen"];
        var answer = (await kitchen.RunAsync([.. call, "20", "--json"])).Json;
        var share = answer.GetProperty("movedPercent");
        Assert.InRange(answer.GetProperty("moved").GetInt32(), 10, 14);
        Assert.InRange(60, share.GetProperty("low").GetDouble(), share.GetProperty("high").GetDouble());
        var outcome = await kitchen.RunAsync([.. call, "20", "--vessel", "Jar A", "--write", "--yes"]);
        Assert.True(outcome.Code == 0, outcome.Error + outcome.Out);
        Assert.Contains(
            "moved",
            (await kitchen.DoAsync("journal", "--last", "1")).Out,
            StringComparison.Ordinal
        );
        outcome = await kitchen.RunAsync([.. call, "3"]);
        Assert.Equal(1, outcome.Code);
        Assert.Contains("only 3", outcome.Error, StringComparison.Ordinal);
        Assert.Equal(2, (await kitchen.RunAsync(call[..3])).Code);
    }
}
