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
        var answer = (await kitchen.RunAsync("look", "count", folder, "--json")).Json.GetProperty("counts")[
            0
        ];
        Assert.True(answer.GetProperty("burst").GetBoolean());
        Assert.Equal(5, answer.GetProperty("pictures").GetArrayLength());
        var larvae = answer.GetProperty("larvae");
        Assert.InRange(30, larvae.GetProperty("low").GetDouble(), larvae.GetProperty("high").GetDouble());
        // The dirt that lies still would make it 34.
        Assert.InRange(larvae.GetProperty("middle").GetDouble(), 27, 34);
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
        var answer = outcome.Json.GetProperty("counts")[0];
        Assert.Equal(
            Enumerable.Range(1, 10).Select(frame => $"f{frame}.png"),
            answer
                .GetProperty("pictures")
                .EnumerateArray()
                .Select(it => Path.GetFileName(it.GetProperty("file").GetString()))
        );
    }

    [Fact]
    public async Task A_count_is_written_with_its_pictures_its_marks_and_its_setup()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var folder = await InventedPictures.BurstAsync(kitchen);
        string[] call =
        [
            "look",
            "count",
            folder,
            "--vessel",
            "Jar A",
            "--setup",
            "dish",
            "--known",
            "30",
            "--write",
        ];
        var outcome = await kitchen.RunAsync([.. call, "--yes"]);
        Assert.True(outcome.Code == 0, outcome.Error + outcome.Out);
        Assert.Contains(
            "larvae seen in Jar A, by photo, in a burst of 5",
            outcome.Out,
            StringComparison.Ordinal
        );
        Assert.Contains("30 were known to be there", outcome.Out, StringComparison.Ordinal);
        Assert.EndsWith("dish", outcome.Out.Split(" (2026")[0], StringComparison.Ordinal);

        // What a form does not ask for stays when the number is corrected.
        await kitchen.DoAsync("correct", "count", "last", "Jar A", "29", "--method", "photo");
        outcome = await kitchen.DoAsync("journal", "--last", "1");
        Assert.Contains(
            "29 larvae seen in Jar A, by photo, in a burst of 5",
            outcome.Out,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_count_is_not_written_without_a_vessel_and_not_for_each_of_many()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var folder = await InventedPictures.BurstAsync(kitchen, frames: 3);
        var outcome = await kitchen.RunAsync("look", "count", folder, "--write");
        Assert.Equal(2, outcome.Code);
        Assert.Contains("--vessel NAME", outcome.Error, StringComparison.Ordinal);
        outcome = await kitchen.RunAsync("look", "count", folder, "--single", "--vessel", "Jar A", "--write");
        Assert.Equal(2, outcome.Code);
        Assert.Contains("Each of 3 pictures", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Each_picture_by_itself_has_a_count_of_its_own()
    {
        using var kitchen = new Kitchen();
        var folder = await InventedPictures.BurstAsync(kitchen, frames: 2);
        var counts = (await kitchen.RunAsync("look", "count", folder, "--single", "--json")).Json.GetProperty(
            "counts"
        );
        Assert.Equal(2, counts.GetArrayLength());
        Assert.All(counts.EnumerateArray(), count => Assert.False(count.GetProperty("burst").GetBoolean()));
    }

    [Fact]
    public async Task Known_numbers_of_a_setup_calibrate_its_counts_from_the_eighth_on()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        for (var at = 0; at < 8; at++)
        {
            var folder = await InventedPictures.BurstAsync(
                kitchen,
                dots: 10 + (5 * at),
                frames: 3,
                $"known{at}"
            );
            string[] known = ["--known", $"{20 + (10 * at)}", "--write", "--yes"];
            var written = await kitchen.RunAsync([
                "look",
                "count",
                folder,
                "--vessel",
                "Jar A",
                "--setup",
                "dish",
                .. known,
            ]);
            Assert.True(written.Code == 0, written.Error);
        }

        var setup = (await kitchen.DoAsync("look", "setups", "--json")).Json.GetProperty("setups")[0];
        Assert.True(setup.GetProperty("calibrated").GetBoolean());
        Assert.Equal(90, setup.GetProperty("largestKnownLarvae").GetDouble());
        Assert.InRange(setup.GetProperty("countedOfTwenty").GetDouble(), 0.35, 0.65);
        var listed = await kitchen.DoAsync("look", "setups", "DISH");
        Assert.Contains("one by one", listed.Out, StringComparison.Ordinal);

        // Half of them are counted, so thirty that are seen are about sixty.
        var burst = await InventedPictures.BurstAsync(kitchen, dots: 30);
        var count = (
            await kitchen.RunAsync("look", "count", burst, "--setup", "dish", "--json")
        ).Json.GetProperty("counts")[0];
        Assert.InRange(count.GetProperty("calibratedLarvae").GetProperty("middle").GetDouble(), 50, 70);
        Assert.InRange(count.GetProperty("larvae").GetProperty("middle").GetDouble(), 27, 34);
    }

    [Fact]
    public async Task Pictures_that_were_kept_with_their_count_go_into_the_open_set()
    {
        using var kitchen = await Kitchen.WithDemoAsync();
        var folder = await InventedPictures.BurstAsync(kitchen, frames: 3);
        string[] call =
        [
            "look",
            "count",
            folder,
            "--vessel",
            "Jar A",
            "--setup",
            "at my aunt's",
            "--known",
            "30",
        ];
        await kitchen.RunAsync([.. call, "--write", "--keep", "--yes"]);
        var photos = (await kitchen.DoAsync("photo", "list", "--json")).Json.GetProperty("photos");
        Assert.Equal(3, photos.GetArrayLength());
        Assert.All(photos.EnumerateArray(), photo => Assert.True(photo.TryGetProperty("goesWith", out _)));

        var refused = await kitchen.RunAsync("look", "labelled", kitchen.At("set"));
        Assert.Equal(1, refused.Code);
        Assert.False(Directory.Exists(kitchen.At("set")));
        var answer = (await kitchen.DoAsync("look", "labelled", kitchen.At("set"), "--cc0", "--json")).Json;
        Assert.Equal(1, answer.GetProperty("counts").GetInt32());
        Assert.Equal(3, Directory.GetFiles(kitchen.At("set/pictures")).Length);
        foreach (var file in Directory.GetFiles(kitchen.At("set")))
        {
            var text = await File.ReadAllTextAsync(file, Stop);
            Assert.DoesNotContain("aunt", text, StringComparison.Ordinal);
            Assert.DoesNotContain("Jar A", text, StringComparison.Ordinal);
            Assert.DoesNotContain("2026", text, StringComparison.Ordinal);
        }

        refused = await kitchen.RunAsync("look", "labelled", kitchen.At("set"), "--cc0");
        Assert.Equal(1, refused.Code);
    }

    [Fact]
    public async Task The_ending_of_a_name_is_not_believed()
    {
        using var kitchen = new Kitchen();
        await File.WriteAllBytesAsync(kitchen.At("beam.jpg"), InventedPictures.Frame(20, 1), Stop);
        var outcome = await kitchen.RunAsync("look", "count", kitchen.At("beam.jpg"), "--json");
        Assert.True(outcome.Code == 0, outcome.Out);
        Assert.InRange(
            outcome.Json.GetProperty("counts")[0].GetProperty("larvae").GetProperty("middle").GetDouble(),
            15,
            30
        );
    }

    [Fact]
    public async Task One_bad_frame_is_named_and_nothing_is_counted_or_drawn()
    {
        using var kitchen = new Kitchen();
        var folder = await InventedPictures.BurstAsync(kitchen);
        var whole = await File.ReadAllBytesAsync(Path.Combine(folder, "f3.png"), Stop);
        await File.WriteAllBytesAsync(Path.Combine(folder, "f3.png"), whole[..(whole.Length / 2)], Stop);
        var outcome = await kitchen.RunAsync("look", "count", folder, "--marked", kitchen.At("marked.png"));
        Assert.Equal(2, outcome.Code);
        Assert.Contains("FOLDER/frames/f3.png cannot be looked at", outcome.Error, StringComparison.Ordinal);
        Assert.Contains("breaks off", outcome.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(kitchen.At("marked.png")));
    }

    [Fact]
    public async Task A_call_that_is_broken_off_leaves_nothing_half_written()
    {
        using var kitchen = new Kitchen();
        using var broken = new CancellationTokenSource();
        await broken.CancelAsync();
        var to = kitchen.At("marked.png");
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() =>
            Cli.Looking.WholeFile.WriteAsync(to, new byte[10], broken.Token)
        );
        Assert.Empty(Directory.GetFiles(kitchen.Folder));
    }
}
