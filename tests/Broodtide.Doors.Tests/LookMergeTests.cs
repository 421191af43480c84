using Broodtide.Doors.Tests.Kit;
using Broodtide.Photos;

namespace Broodtide.Doors.Tests;

public sealed class LookMergeTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_folder_of_planes_becomes_one_picture_sharper_than_any_of_them()
    {
        using var kitchen = new Kitchen();
        var folder = await InventedPlanes.WriteAsync(kitchen);
        var outcome = await kitchen.RunAsync(
            "look",
            "merge",
            folder,
            "--to",
            kitchen.At("sharp.png"),
            "--json"
        );
        Assert.True(outcome.Code == 0, outcome.Error + outcome.Out);
        Assert.True(outcome.Json.GetProperty("merged").GetBoolean());
        var frames = outcome.Json.GetProperty("frames").EnumerateArray().ToList();
        Assert.Equal(3, frames.Count);
        Assert.All(
            frames,
            frame =>
            {
                Assert.True(frame.GetProperty("used").GetBoolean());
                Assert.True(
                    frame.GetProperty("sharpness").GetDouble()
                        < outcome.Json.GetProperty("sharpness").GetDouble()
                );
            }
        );
        Assert.Contains("Laying frame 1 of 3.", outcome.Error, StringComparison.Ordinal);
        var picture = PictureFile.Decode(await File.ReadAllBytesAsync(kitchen.At("sharp.png"), Stop)).Value;
        Assert.Equal(
            (InventedPlanes.Across, InventedPlanes.Down),
            (picture.Shape.Across, picture.Shape.Down)
        );
        Assert.Equal(["sharp.png"], Directory.GetFiles(kitchen.Folder).Select(Path.GetFileName));
    }

    [Fact]
    public async Task A_file_that_is_there_stays_unless_it_is_to_be_replaced()
    {
        using var kitchen = new Kitchen();
        var folder = await InventedPlanes.WriteAsync(kitchen);
        await File.WriteAllTextAsync(kitchen.At("sharp.png"), "mine", Stop);
        var outcome = await kitchen.RunAsync("look", "merge", folder, "--to", kitchen.At("sharp.png"));
        Assert.Equal(2, outcome.Code);
        Assert.Contains("is there already", outcome.Error, StringComparison.Ordinal);
        Assert.Equal("mine", await File.ReadAllTextAsync(kitchen.At("sharp.png"), Stop));
        outcome = await kitchen.RunAsync(
            "look",
            "merge",
            folder,
            "--to",
            kitchen.At("sharp.png"),
            "--replace"
        );
        Assert.True(outcome.Code == 0, outcome.Error + outcome.Out);
        Assert.True(
            PictureFile.Decode(await File.ReadAllBytesAsync(kitchen.At("sharp.png"), Stop)).Succeeded
        );
    }

    [Fact]
    public async Task What_cannot_be_merged_is_refused_and_nothing_is_written()
    {
        using var kitchen = new Kitchen();
        await File.WriteAllBytesAsync(kitchen.At("a.png"), InventedPlanes.Frame(0, 2), Stop);
        await File.WriteAllBytesAsync(kitchen.At("wide.png"), InventedPlanes.Frame(1, 2, across: 170), Stop);
        await File.WriteAllBytesAsync(kitchen.At("other.png"), InventedPlanes.Frame(1, 2, seed: 9), Stop);
        await RefusedAsync(1, "takes 2 frames or more", "a.png");
        await RefusedAsync(1, "another size", "a.png", "wide.png");
        await RefusedAsync(1, "nothing can be merged", "a.png", "other.png");
        var outcome = await kitchen.RunAsync("look", "merge", kitchen.At("a.png"));
        Assert.Equal(2, outcome.Code);
        Assert.Contains("--to FILE.png", outcome.Error, StringComparison.Ordinal);

        async Task RefusedAsync(int code, string why, params string[] files)
        {
            var refused = await kitchen.RunAsync([
                "look",
                "merge",
                .. files.Select(kitchen.At),
                "--to",
                kitchen.At("out.png"),
            ]);
            Assert.Equal(code, refused.Code);
            Assert.Contains(why, refused.Error, StringComparison.Ordinal);
            Assert.False(File.Exists(kitchen.At("out.png")));
        }
    }
}
