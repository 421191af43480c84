using Broodtide.Science.Imaging;
using CsCheck;

namespace Broodtide.Science.Tests.Imaging;

/// <summary>What is fast says what is plain, on pictures of every shape.</summary>
public sealed class KernelTwinsTests
{
    // Floats of 0 to 255 keep seven digits.
    private const double Rounding = 1e-3;

    [Fact]
    public void The_mean_over_a_square_is_that_of_the_plain_loop() =>
        Check(Pictures.Any, Blur.Box, Plain.Box, Rounding);

    [Fact]
    public void Erosion_is_that_of_the_plain_loop() =>
        Check(Pictures.Any, Morphology.Erosion, Plain.Erosion, 0);

    [Fact]
    public void Dilation_is_that_of_the_plain_loop() =>
        Check(Pictures.Any, Morphology.Dilation, Plain.Dilation, 0);

    [Fact]
    public void An_opening_is_an_erosion_and_then_a_dilation() =>
        Check(
            Pictures.Any,
            Morphology.Opening,
            (grid, shape, radius) => Plain.Dilation(Plain.Erosion(grid, shape, radius), shape, radius),
            0
        );

    [Fact]
    public void A_top_hat_is_what_an_opening_takes_away() =>
        Check(
            Pictures.Any,
            Morphology.TopHat,
            (grid, shape, radius) =>
                [
                    .. Plain
                        .Dilation(Plain.Erosion(grid, shape, radius), shape, radius)
                        .Zip(grid, (low, all) => all - low),
                ],
            0
        );

    // The squares of values up to 255 keep seven digits of 65,025.
    [Fact]
    public void The_local_variance_is_that_of_the_plain_loop() =>
        Check(
            Pictures.Any,
            (grid, shape, radius, target) => Focus.LocalVariance(grid, shape, radius + 1, target),
            (grid, shape, radius) => Plain.Variance(grid, shape, radius + 1),
            0.1
        );

    [Fact]
    public void A_Gaussian_blur_is_that_of_the_plain_loop() =>
        Gen.Select(Pictures.Any, Gen.Double[0.3, 2.5])
            .Sample(
                (picture, sigma) =>
                {
                    var found = new float[picture.Shape.Count];
                    Blur.Gaussian(picture.Grid, picture.Shape, sigma, found);
                    Pictures.Agree(Plain.Gaussian(picture.Grid, picture.Shape, sigma), found, Rounding);
                },
                iter: 60
            );

    [Fact]
    public void Grey_and_the_smallest_channel_are_those_of_the_plain_loop() =>
        Pictures.Colours.Sample(colours =>
        {
            var found = new float[colours.Length / 4];
            Channels.Grey(colours, found);
            Pictures.Agree(Plain.Grey(colours), found, 0);
            Channels.Smallest(colours, found);
            Pictures.Agree(Plain.Smallest(colours), found, 0);
        });

    [Fact]
    public void Things_are_those_found_by_flooding() =>
        Pictures.Marks.Sample(picture =>
        {
            var found = new int[picture.Shape.Count];
            var count = Components.Label(picture.Marked, picture.Shape, found);
            Assert.Equal(Plain.Label(picture.Marked, picture.Shape), found);
            Assert.Equal(found.Max(), count);
        });

    [Fact]
    public void Distances_are_those_to_the_nearest_of_all_empty_pixels() =>
        Pictures.Marks.Sample(
            picture =>
            {
                var found = new float[picture.Shape.Count];
                Distance.Transform(picture.Marked, picture.Shape, found);
                Pictures.Agree(Plain.Distance(picture.Marked, picture.Shape), found, 1e-4);
            },
            iter: 60
        );

    [Fact]
    public void As_many_tops_stand_out_as_the_reconstruction_leaves() =>
        Gen.Select(Pictures.Steps, Gen.Int[1, 4])
            .Sample(
                (picture, height) =>
                    Assert.Equal(
                        Plain.Standing(picture.Grid, picture.Shape, height),
                        Maxima.Standing(picture.Grid, picture.Shape, height).Count
                    ),
                iter: 100
            );

    [Fact]
    public void The_median_over_frames_is_that_of_sorted_values() =>
        Gen.Select(Gen.Int[1, 9], Gen.Int[1, 41])
            .SelectMany((frames, length) => Gen.Float[0, 255].Array[length].Array[frames])
            .Sample(frames =>
            {
                var found = new float[frames[0].Length];
                FrameMedian.Of(frames, found);
                var expected = found.Select(
                    (_, at) =>
                    {
                        var sorted = frames.Select(frame => frame[at]).Order().ToList();
                        return (sorted[(sorted.Count - 1) / 2] + sorted[sorted.Count / 2]) / 2;
                    }
                );
                Pictures.Agree([.. expected], found, 1e-4);
            });

    private delegate void Kernel(ReadOnlySpan<float> source, GridShape shape, int radius, Span<float> target);

    private static void Check(
        Gen<(GridShape Shape, float[] Grid)> pictures,
        Kernel fast,
        Func<float[], GridShape, int, float[]> plain,
        double tolerance
    ) =>
        Gen.Select(pictures, Gen.Int[0, 9])
            .Sample(
                (picture, radius) =>
                {
                    var found = new float[picture.Shape.Count];
                    fast(picture.Grid, picture.Shape, radius, found);
                    Pictures.Agree(plain(picture.Grid, picture.Shape, radius), found, tolerance);
                },
                iter: 100
            );
}
