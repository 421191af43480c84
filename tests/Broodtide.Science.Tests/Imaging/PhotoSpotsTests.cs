using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Spots;

namespace Broodtide.Science.Tests.Imaging;

public sealed class PhotoSpotsTests
{
    [Theory]
    [InlineData(4)]
    [InlineData(8)]
    [InlineData(15)]
    public void Discs_apart_are_all_counted_whatever_their_size(double radius)
    {
        var shape = new GridShape(320, 240);
        var scene = new Scenery(shape, 3);
        var places = Grid(scene, shape, Math.Max(24, 3.2 * radius));
        places.ForEach(at => scene.Add(at, 0, 0, radius, scene.Next(50, 120)));

        var count = PhotoSpots.Count(scene.Taken(), shape).Value;

        Assert.Equal(places.Count, count.Marks.Count);
        Assert.All(places, at => Assert.Contains(count.Marks, mark => Apart(mark, at) < 2));
        Assert.True(count.Number.Contains(places.Count));
    }

    [Fact]
    public void Two_that_touch_are_two()
    {
        var shape = new GridShape(320, 240);
        var scene = new Scenery(shape, 5);
        var places = Grid(scene, shape, 50);
        foreach (var (x, y) in places)
        {
            var angle = scene.Next(0, Math.PI);
            scene.Add((x + (8.5 * Math.Cos(angle)), y + (8.5 * Math.Sin(angle))), 0, 0, 9, 90);
            scene.Add((x - (8.5 * Math.Cos(angle)), y - (8.5 * Math.Sin(angle))), 0, 0, 9, 90);
        }

        Assert.Equal(2 * places.Count, PhotoSpots.Count(scene.Taken(), shape).Value.Marks.Count);
    }

    [Fact]
    public void Light_that_grows_to_one_side_does_not_matter()
    {
        var shape = new GridShape(320, 240);
        var scene = new Scenery(shape, 9);
        var places = Grid(scene, shape, 30);
        places.ForEach(at => scene.Add(at, 3, scene.Next(0, 3), 5, 60));
        var picture = scene.Taken();
        for (var i = 0; i < picture.Length; i++)
        {
            picture[i] += i % shape.Across / 4;
        }

        Assert.InRange(
            PhotoSpots.Count(picture, shape).Value.Marks.Count,
            0.93 * places.Count,
            1.07 * places.Count
        );
    }

    [Fact]
    public void A_picture_of_many_pixels_is_marked_in_its_own_pixels()
    {
        var shape = new GridShape(1_700, 200);
        var scene = new Scenery(shape, 1);
        var places = Grid(scene, shape, 100);
        places.ForEach(at => scene.Add(at, 0, 0, 20, 100));

        var count = PhotoSpots.Count(scene.Taken(), shape).Value;

        Assert.Equal(places.Count, count.Marks.Count);
        Assert.All(places, at => Assert.Contains(count.Marks, mark => Apart(mark, at) < 3));
        Assert.All(count.Marks, mark => Assert.InRange(mark.Area, 700, 2_800));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(130)]
    public void A_flat_picture_is_refused(float level)
    {
        var shape = new GridShape(64, 64);
        Assert.Equal("nothing-stands-out", PhotoSpots.Count(Flat(shape, level), shape).Reason!.Code);
    }

    [Fact]
    public void A_white_picture_is_refused()
    {
        var shape = new GridShape(64, 64);
        Assert.Equal("picture-too-bright", PhotoSpots.Count(Flat(shape, 255), shape).Reason!.Code);
    }

    [Fact]
    public void A_picture_of_one_pixel_is_refused() =>
        Assert.Equal("picture-too-small", PhotoSpots.Count([7], new(1, 1)).Reason!.Code);

    [Theory]
    [InlineData(60, 6)]
    [InlineData(12, 1.2)]
    [InlineData(120, 2)]
    public void Grain_alone_is_none(double ground, double grain)
    {
        var scene = new Scenery(new(200, 150), 1);
        Assert.Equal(0, PhotoSpots.Count(scene.Taken(ground, grain), scene.Shape).Value.Number.Middle);
    }

    // As a camera leaves it that smooths and enlarges: the noise from pixel to pixel is small, its specks are not.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Coarse_grain_is_told_from_things_by_being_dark_as_often(int seed)
    {
        var shape = new GridShape(240, 180);
        var fine = new Scenery(new(60, 45), seed).Taken(60, 6);
        var smooth = new float[shape.Count];
        Blur.Gaussian(Plain.Each(shape, (x, y) => fine[(y / 4 * 60) + (x / 4)]), shape, 2, smooth);
        Assert.Equal("only-grain", PhotoSpots.Count(smooth, shape).Reason!.Code);
    }

    [Fact]
    public void A_value_that_is_no_number_is_the_mistake_of_a_programmer()
    {
        var shape = new GridShape(64, 64);
        var picture = Flat(shape, 10);
        (picture[0], picture[1]) = (float.NaN, 200);
        Assert.Throws<ArgumentException>(() => PhotoSpots.Count(picture, shape));
    }

    private static List<(double X, double Y)> Grid(Scenery scene, GridShape shape, double step)
    {
        var places = new List<(double, double)>();
        for (var y = step / 2; y <= shape.Down - (step / 2); y += step)
        {
            for (var x = step / 2; x <= shape.Across - (step / 2); x += step)
            {
                places.Add((x + scene.Next(-2, 2), y + scene.Next(-2, 2)));
            }
        }

        return places;
    }

    private static float[] Flat(GridShape shape, float level) => [.. Enumerable.Repeat(level, shape.Count)];

    private static double Apart(SpotMark mark, (double X, double Y) at) =>
        Math.Sqrt(Math.Pow(mark.X - at.X, 2) + Math.Pow(mark.Y - at.Y, 2));
}
