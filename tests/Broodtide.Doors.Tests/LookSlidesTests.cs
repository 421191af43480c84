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
}
