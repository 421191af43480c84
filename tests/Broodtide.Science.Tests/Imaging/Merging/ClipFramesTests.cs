using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Merging;

namespace Broodtide.Science.Tests.Imaging.Merging;

public sealed class ClipFramesTests
{
    [Fact]
    public void Of_each_stretch_the_sharpest_is_chosen_in_the_order_of_time()
    {
        Assert.Equal([2, 3, 8], ClipFrames.Chosen([1, 2, 5, 9, 3, 3, 1, 2, 4], 3));
        Assert.Equal([0, 1], ClipFrames.Chosen([4, 7], 9));
        Assert.Empty(ClipFrames.Chosen([], 4));
    }

    [Fact]
    public void A_blurred_frame_is_less_sharp()
    {
        var shape = new GridShape(80, 60);
        var dice = new Random(1);
        var sharp = Enumerable.Range(0, shape.Count).Select(_ => (float)dice.Next(256)).ToArray();
        var blurred = new float[shape.Count];
        Blur.Gaussian(sharp, shape, 1.5, blurred);
        Assert.True(ClipFrames.Sharpness(blurred, shape) < 0.5 * ClipFrames.Sharpness(sharp, shape));
    }
}
