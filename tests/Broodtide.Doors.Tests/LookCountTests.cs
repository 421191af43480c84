using Broodtide.Doors.Tests.Kit;
using Broodtide.Photos;

namespace Broodtide.Doors.Tests;

public sealed class LookCountTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_folder_of_frames_is_a_burst_whose_number_holds_what_moves()
    {
        using var kitchen = new Kitchen();
        var folder = await InventedPictures.BurstAsync(kitchen, dots: 30);
        await File.WriteAllTextAsync(Path.Combine(folder, "truth.csv"), "not a picture", Stop);
        var answer = (await kitchen.RunAsync("look", "count", folder, "--json")).Json;
        Assert.True(answer.GetProperty("burst").GetBoolean());
        Assert.Equal(5, answer.GetProperty("pictures").GetArrayLength());
        var larvae = answer.GetProperty("larvae");
        Assert.InRange(30, larvae.GetProperty("low").GetDouble(), larvae.GetProperty("high").GetDouble());
        // The dirt that lies still would make it 34.
        Assert.InRange(larvae.GetProperty("middle").GetDouble(), 27, 32);
    }

    [Fact]
    public async Task The_marked_picture_is_the_picture_with_more_in_it_and_nothing_half_written_lies_beside_it()
    {
        using var kitchen = new Kitchen();
        var folder = await InventedPictures.BurstAsync(kitchen);
        var outcome = await kitchen.RunAsync("look", "count", folder, "--marked", kitchen.At("marked.png"));
        Assert.Equal(0, outcome.Code);
        Assert.Contains("Counting.", outcome.Error, StringComparison.Ordinal);
        var marked = PictureFile.Decode(await File.ReadAllBytesAsync(kitchen.At("marked.png"), Stop)).Value;
        Assert.Equal(
            (InventedPictures.Across, InventedPictures.Down),
            (marked.Shape.Across, marked.Shape.Down)
        );
        // The pictures are grey; the marks are not.
        Assert.True(
            marked.ToGrey().Zip(marked.ToSmallest()).Count(pixel => pixel.First - pixel.Second > 30) > 300
        );
        Assert.Equal(["marked.png"], Directory.GetFiles(kitchen.Folder).Select(Path.GetFileName));
    }

    [Fact]
    public async Task Two_pictures_are_neither_a_photo_nor_a_burst()
    {
        using var kitchen = new Kitchen();
        var folder = await InventedPictures.BurstAsync(kitchen, frames: 2);
        var outcome = await kitchen.RunAsync("look", "count", folder);
        Assert.Equal(1, outcome.Code);
        Assert.Contains("Two pictures are no burst", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_not_there_and_what_is_no_picture_is_told_by_name()
    {
        using var kitchen = new Kitchen();
        Directory.CreateDirectory(kitchen.At("empty"));
        await File.WriteAllTextAsync(kitchen.At("text.png"), "only text", Stop);
        var outcome = await kitchen.RunAsync("look", "count", kitchen.At("text.png"));
        Assert.Equal(2, outcome.Code);
        Assert.Contains("FOLDER/text.png cannot be looked at", outcome.Error, StringComparison.Ordinal);
        Assert.Contains("JPEG, PNG, WebP", outcome.Error, StringComparison.Ordinal);
        outcome = await kitchen.RunAsync("look", "count", kitchen.At("gone.png"), kitchen.At("empty"));
        Assert.Equal(2, outcome.Code);
        Assert.Contains("There is no file FOLDER/gone.png", outcome.Error, StringComparison.Ordinal);
        Assert.Contains("no picture in the folder FOLDER/empty", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_frames_of_a_folder_go_by_the_numbers_in_their_names()
    {
        using var kitchen = new Kitchen();
        var folder = await InventedPictures.BurstAsync(kitchen, frames: 10);
        var outcome = await kitchen.RunAsync("look", "count", folder, "--json");
        Assert.True(outcome.Code == 0, outcome.Out);
        var answer = outcome.Json;
        Assert.Equal(
            Enumerable.Range(1, 10).Select(frame => $"f{frame}.png"),
            answer
                .GetProperty("pictures")
                .EnumerateArray()
                .Select(it => Path.GetFileName(it.GetProperty("file").GetString()))
        );
    }
}
