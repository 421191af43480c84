using Broodtide.Doors.Tests.Kit;
using Broodtide.Workbench.Photos;

namespace Broodtide.Doors.Tests;

public sealed class PhotoTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_photo_is_brought_in_without_its_place_listed_and_written_out()
    {
        using var kitchen = await WithPhotoAsync();
        await kitchen.DoAsync("write", "note", "she carries eggs");
        await kitchen.DoAsync(
            "photo",
            "add",
            kitchen.At("eggs.jpg"),
            "--for",
            "last",
            "--caption",
            "eyed eggs"
        );
        var photo = Assert.Single(
            (await kitchen.DoAsync("photo", "list", "--json")).Json.GetProperty("photos").EnumerateArray()
        );
        Assert.True(photo.GetProperty("here").GetBoolean());
        Assert.Equal(40, photo.GetProperty("acrossPixels").GetInt32());
        Assert.False(photo.GetProperty("placeKept").GetBoolean());
        Assert.True(photo.TryGetProperty("goesWith", out _));
        await kitchen.DoAsync("photo", "save", "last", kitchen.At("kept.jpg"));
        var kept = await File.ReadAllBytesAsync(kitchen.At("kept.jpg"), Stop);
        Assert.Equal(photo.GetProperty("sha256").GetString(), PhotoIntake.HashOf(kept));
        Assert.False(PhotoIntake.Look(kept).Value.HoldsPlace);
        Assert.Equal(6, PhotoIntake.Look(kept).Value.Orientation);
        Assert.Equal(-1, kept.AsSpan().IndexOf("pond"u8));
    }

    [Fact]
    public async Task Who_keeps_the_place_keeps_every_byte()
    {
        using var kitchen = await WithPhotoAsync();
        await kitchen.DoAsync("photo", "add", kitchen.At("eggs.jpg"), "--keep-place");
        await kitchen.DoAsync("photo", "save", "last", kitchen.At("kept.jpg"));
        Assert.Equal(SmallPhoto.WithPlace(), await File.ReadAllBytesAsync(kitchen.At("kept.jpg"), Stop));
    }

    [Fact]
    public async Task An_erased_photo_takes_its_file_with_it_unless_another_entry_holds_it()
    {
        using var kitchen = await WithPhotoAsync();
        await kitchen.DoAsync("photo", "add", kitchen.At("eggs.jpg"));
        await kitchen.DoAsync("photo", "add", kitchen.At("eggs.jpg"), "--caption", "the same again");
        Assert.Single(Files(kitchen));
        await kitchen.DoAsync("erase", "last", "--yes");
        Assert.Single(Files(kitchen));
        var first = Assert.Single(
            (await kitchen.DoAsync("photo", "list", "--json")).Json.GetProperty("photos").EnumerateArray()
        );
        await kitchen.DoAsync("erase", first.GetProperty("shortId").GetString()!, "--yes");
        Assert.Empty(Files(kitchen));
    }

    [Theory]
    [InlineData("GIF89a", "GIF, which is not kept")]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg'/>", "SVG, which is not kept")]
    [InlineData("", "is empty")]
    public async Task What_is_no_photo_is_refused_and_nothing_is_written(string text, string said)
    {
        using var kitchen = await WithPhotoAsync();
        await File.WriteAllTextAsync(kitchen.At("eggs.jpg"), text, Stop);
        var outcome = await kitchen.RunAsync("photo", "add", kitchen.At("eggs.jpg"));
        Assert.Equal(2, outcome.Code);
        Assert.Contains(said, outcome.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(kitchen.Journal));
    }

    [Fact]
    public async Task An_entry_that_is_no_photo_and_a_file_that_is_not_here_are_named()
    {
        using var kitchen = await WithPhotoAsync();
        await kitchen.DoAsync("write", "note", "no photo");
        var outcome = await kitchen.RunAsync("photo", "save", "last", kitchen.At("kept.jpg"));
        Assert.Contains("is no photo", outcome.Error, StringComparison.Ordinal);
        await kitchen.DoAsync("photo", "add", kitchen.At("eggs.jpg"));
        File.Delete(Assert.Single(Files(kitchen)));
        outcome = await kitchen.RunAsync("photo", "save", "last", kitchen.At("kept.jpg"));
        Assert.Equal(1, outcome.Code);
        Assert.Contains("is not here", outcome.Error, StringComparison.Ordinal);
    }

    private static async Task<Kitchen> WithPhotoAsync()
    {
        var kitchen = new Kitchen();
        await File.WriteAllBytesAsync(kitchen.At("eggs.jpg"), SmallPhoto.WithPlace(), Stop);
        return kitchen;
    }

    private static string[] Files(Kitchen kitchen) =>
        Directory.GetFiles(
            Path.ChangeExtension(kitchen.Journal, ".photos"),
            "*",
            SearchOption.AllDirectories
        );
}
