using System.Text;
using Broodtide.Domain.Larvae;
using Broodtide.Workbench.Looking;
using Broodtide.Workbench.Photos;

namespace Broodtide.Photos.Tests;

/// <summary>What goes into a set that is given away, and what does not.</summary>
public sealed class LabelledSetTests
{
    public LabelledSetTests() => Painted.Required();

    // The file was kept with its place, on purpose; given away it goes without.
    [Fact]
    public void No_place_no_time_and_no_words_of_the_keeper_go_along()
    {
        var photo = Planted.InJpeg(Painted.Jpeg(), Planted.Exif());
        Assert.True(PhotoIntake.Look(photo).Value.HoldsPlace);
        var (files, counts) = LabelledSet.Of([new(Seen(photo, PersonLooked.WithMarks), [photo])]);

        Assert.Equal(1, counts);
        var picture = Assert.Single(
            files,
            file => file.Name.StartsWith("pictures/", StringComparison.Ordinal)
        );
        Assert.False(PhotoIntake.Look(picture.Bytes).Value.HoldsPlace);
        Assert.Null(PhotoIntake.Look(picture.Bytes).Value.Taken);
        Assert.Equal(Painted.Pixels(photo), Painted.Pixels(picture.Bytes));
        var hash = PhotoIntake.HashOf(picture.Bytes);
        Assert.Equal($"pictures/{hash}.jpg", picture.Name);
        Assert.Equal(
            $"sha256,x_px,y_px,by,removed\n{hash},1.5,2,program,0\n{hash},3,4,program,1\n{hash},5,6,person,0\n",
            Text(files, "labels.csv")
        );
        Assert.Contains(
            $"1,1,{hash},{picture.Name},48,64,0,1,1\n",
            Text(files, "pictures.csv"),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "1,with-marks,,phone,640,2,1,2,3\n",
            Text(files, "counts.csv"),
            StringComparison.Ordinal
        );
        Assert.DoesNotContain(
            files,
            file => Encoding.UTF8.GetString(file.Bytes).Contains("cellar", StringComparison.Ordinal)
        );
        Assert.Contains("CC0 1.0", Text(files, "README.md"), StringComparison.Ordinal);
    }

    [Fact]
    public void What_nobody_looked_over_and_what_is_not_here_stays_out()
    {
        var photo = Painted.Jpeg();
        var (files, counts) = LabelledSet.Of([
            new(Seen(photo, PersonLooked.No), [photo]),
            new(Seen(photo, PersonLooked.WithMarks), [null]),
            new(Seen(photo, PersonLooked.WithMarks), ["no picture"u8.ToArray()]),
        ]);
        Assert.Equal(0, counts);
        Assert.Equal(
            ["README.md", "counts.csv", "labels.csv", "pictures.csv"],
            files.Select(file => file.Name).Order(StringComparer.Ordinal)
        );
    }

    private static string Text(IReadOnlyList<SetFile> files, string name) =>
        Encoding.UTF8.GetString(files.Single(file => file.Name == name).Bytes);

    private static PicturesSeen Seen(byte[] photo, PersonLooked person) =>
        new(
            [new(PhotoIntake.HashOf(photo), 48, 64)],
            0,
            [new(CountedAt.Phone, 640, 2, 1, 2, 3)],
            [new(1.5, 2), new(3, 4, Removed: true), new(5, 6, MarkedBy.Person)],
            person,
            "in the cellar"
        );
}
