using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Chambers;
using Broodtide.Science.Imaging.Registration;
using Broodtide.Science.Imaging.Spots;

namespace Broodtide.Science.Tests.Imaging;

/// <summary>A kernel that pauses between bands of rows gives what the kernel gives in one go, to the last bit.</summary>
public sealed class StepsTests
{
    // More than one band of rows, and so small that a band is more than there is.
    public static TheoryData<int, int> Shapes { get; } =
        new()
        {
            { 611, 503 },
            { 64, 2_900 },
            { 17, 9 },
        };

    [Theory]
    [MemberData(nameof(Shapes))]
    public void A_mean_by_weights_in_bands_is_the_whole_one(int across, int down)
    {
        var (grid, shape) = Rough(across, down);
        var (whole, steps) = (new float[shape.Count], new float[shape.Count]);
        Blur.Gaussian(grid, shape, 2.3, whole);
        Assert.Equal(shape.Count > 1_000, Blur.GaussianSteps(grid, shape, 2.3, steps).Count() > 1);
        Assert.Equal(whole, steps);
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void A_mean_over_squares_in_bands_is_the_whole_one(int across, int down)
    {
        var (grid, shape) = Rough(across, down);
        var (whole, steps) = (new float[shape.Count], new float[shape.Count]);
        Blur.Box(grid, shape, 7, whole);
        Assert.Equal(shape.Count > 1_000, Blur.BoxSteps(grid, shape, 7, steps).Count() > 1);
        Assert.Equal(whole, steps);
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void What_is_usual_about_each_pixel_in_bands_is_the_whole(int across, int down)
    {
        var (grid, shape) = Rough(across, down);
        var whole = (Mean: new float[shape.Count], Deviation: new float[shape.Count]);
        var steps = (Mean: new float[shape.Count], Deviation: new float[shape.Count]);
        Levels.Local(grid, shape, 11, whole.Mean, whole.Deviation);
        Levels.LocalSteps(grid, shape, 11, steps.Mean, steps.Deviation).Whole();
        Assert.Equal(whole.Mean, steps.Mean);
        Assert.Equal(whole.Deviation, steps.Deviation);
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void The_answer_to_blobs_in_bands_is_the_whole_one(int across, int down)
    {
        var (grid, shape) = Rough(across, down);
        var (whole, steps) = (new float[shape.Count], new float[shape.Count]);
        Blobs.LaplacianOfGaussian(grid, shape, 1.7, whole);
        Blobs.Steps(grid, shape, 1.7, steps).Whole();
        Assert.Equal(whole, steps);
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void Things_numbered_in_bands_have_their_numbers(int across, int down)
    {
        var (grid, shape) = Rough(across, down);
        var marked = Array.ConvertAll(grid, value => (byte)(value > 120 ? 1 : 0));
        var (whole, steps) = (new int[shape.Count], new int[shape.Count]);
        var count = Components.Label(marked, shape, whole);
        Assert.Equal(count, Components.Steps(marked, shape, steps).Last());
        Assert.Equal(whole, steps);
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void A_picture_seen_through_a_map_or_turned_in_bands_is_the_whole_one(int across, int down)
    {
        var (grid, shape) = Rough(across, down);
        var (whole, steps) = (new float[shape.Count], new float[shape.Count]);
        var map = new AffineMap(1.01, 0.02, -1.3, -0.015, 0.99, 2.1);
        Resampling.Cubic(grid, shape, map, shape, whole);
        Resampling.CubicSteps(grid, shape, map, steps).Whole();
        Assert.Equal(whole, steps);
        Assert.Equal(Rotated.Of(grid, shape, 0.2).Grid, Rotated.Steps(grid, shape, 0.2).Last()!.Grid);
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void Ranks_noise_and_distances_with_pauses_are_the_whole_ones(int across, int down)
    {
        var (grid, shape) = Rough(across, down);
        Assert.Equal(Levels.Quantile(grid, 0.16), Levels.QuantileSteps(grid, 0.16).Last());
        Assert.Equal(Levels.Noise(grid, shape), Levels.NoiseSteps(grid, shape).Last());
        var marked = Array.ConvertAll(grid, value => (byte)(value > 90 ? 1 : 0));
        var (whole, steps) = (new float[shape.Count], new float[shape.Count]);
        Distance.Transform(marked, shape, whole);
        Distance.Steps(marked, shape, steps).Whole();
        Assert.Equal(whole, steps);
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void Labels_that_grow_with_pauses_meet_where_they_meet_without(int across, int down)
    {
        var (grid, shape) = Rough(across, down);
        var within = Array.ConvertAll(grid, value => (byte)(value > 60 ? 1 : 0));
        var whole = new int[shape.Count];
        var tops = Maxima.Standing(grid, shape, 40);
        for (var i = 0; i < tops.Count; i++)
        {
            whole[tops[i]] = i + 1;
        }

        var steps = whole.AsSpan().ToArray();
        Watershed.Grow(grid, shape, within, whole);
        Watershed.Steps(grid, shape, within, steps).Whole();
        Assert.Equal(whole, steps);
    }

    [Fact]
    public void Places_are_told_from_the_highest_down_and_of_equal_ones_the_first_first()
    {
        float[] grid = [3, -1, 3, float.NegativeInfinity, 0, -0f, 1e-30f, -7, 250];
        Assert.Equal([8, 0, 2, 6, 4, 5, 1, 7], Descending.Steps(grid).Last());
        var (rough, _) = Rough(611, 503);
        Assert.Equal(
            Enumerable.Range(0, rough.Length).OrderByDescending(at => rough[at]).ThenBy(at => at),
            Descending.Steps(rough).Last()
        );
    }

    [Fact]
    public void A_picture_made_smaller_in_bands_is_the_whole_one()
    {
        var (grid, shape) = Rough(3_301, 901);
        var steps = LookedAt.Steps(grid, shape).ToList();
        Assert.True(steps.Count > 2);
        Assert.Equal(LookedAt.From(grid, shape).Grid, steps[^1]!.Grid);
    }

    [Fact]
    public void A_shift_told_with_pauses_is_the_shift()
    {
        var (grid, shape) = Rough(300, 200);
        var moved = new float[shape.Count];
        Resampling.Cubic(grid, shape, AffineMap.Identity with { X = 2.5, Y = -1 }, shape, moved);
        Assert.Equal(
            PhaseCorrelation.Between(grid, moved, shape),
            PhaseCorrelation.Steps(grid, moved, shape).Last()!.Value
        );
    }

    [Fact]
    public void A_photo_counted_in_many_steps_comes_to_what_it_comes_to_at_once()
    {
        var shape = new GridShape(480, 360);
        var scene = new Scenery(shape, 8);
        for (var i = 0; i < 30; i++)
        {
            scene.Add((scene.Next(20, 460), scene.Next(20, 340)), 6, scene.Next(0, 3), 3, 80);
        }

        var grey = scene.Taken();
        var steps = PhotoSpots.Steps(grey, shape).ToList();
        Assert.True(steps.Count > 30);
        Assert.All(steps[..^1], Assert.Null);
        var (whole, answer) = (PhotoSpots.Count(grey, shape).Value, steps[^1]!.Value);
        Assert.Equal(whole.Number, answer.Number);
        Assert.Equal(whole.Marks, answer.Marks);
        Assert.Equal(whole.ShareHidden, answer.ShareHidden);
    }

    [Fact]
    public void A_picture_that_cannot_be_counted_is_refused_at_the_first_step()
    {
        var step = Assert.Single(PhotoSpots.Steps(new float[64], new(8, 8)));
        Assert.Equal("picture-too-small", step!.Reason!.Code);
        Assert.Equal(
            "picture-too-small",
            Assert.Single(ChamberPicture.Steps(new float[64], new(8, 8)))!.Reason!.Code
        );
    }

    private static (float[] Grid, GridShape Shape) Rough(int across, int down)
    {
        var (random, shape) = (new Random(5), new GridShape(across, down));
        var grid = new float[shape.Count];
        for (var i = 0; i < grid.Length; i++)
        {
            grid[i] = (float)((90 * Math.Sin(i / 31.0)) + 100 + (60 * random.NextDouble()));
        }

        return (grid, shape);
    }
}
