using Broodtide.Photos;
using Broodtide.Science.Imaging;

namespace Broodtide.Looking;

/// <summary>How like a picture is to the truth, over red, green and blue, the edge left out.</summary>
public static class Likeness
{
    private const int Edge = 16;

    /// <summary>Peak signal-to-noise ratio in dB.</summary>
    public static double Decibels(Picture picture, Picture truth)
    {
        var (sum, many) = (0.0, 0L);
        for (var y = Edge; y < truth.Shape.Down - Edge; y++)
        {
            for (var x = Edge; x < truth.Shape.Across - Edge; x++, many += 3)
            {
                var at = ((y * truth.Shape.Across) + x) * 4;
                for (var c = at; c < at + 3; c++)
                {
                    var apart = picture.Colours.Span[c] - truth.Colours.Span[c];
                    sum += apart * apart;
                }
            }
        }

        return 10 * Math.Log10(255 * 255 / (sum / many));
    }

    /// <summary>
    /// Structural similarity (Wang, Bovik, Sheikh and Simoncelli 2004, IEEE Trans. Image Process. 13:600): windows of 7 by 7
    /// with equal weights, unbiased variances, K1 0.01, K2 0.03, of the brightness.
    /// </summary>
    public static double Structural(Picture picture, Picture truth) =>
        Structural(picture.ToGrey(), truth.ToGrey(), truth.Shape);

    private static double Structural(float[] one, float[] other, GridShape shape)
    {
        const int Radius = 3;
        const double Unbiased = 49.0 / 48;
        var (c1, c2) = (Math.Pow(0.01 * 255, 2), Math.Pow(0.03 * 255, 2));
        var (a, b) = (Mean(one, shape, Radius), Mean(other, shape, Radius));
        var (aa, bb, ab) = (
            Mean([.. one.Select(v => v * v)], shape, Radius),
            Mean([.. other.Select(v => v * v)], shape, Radius),
            Mean([.. one.Zip(other, (v, w) => v * w)], shape, Radius)
        );
        var (sum, many) = (0.0, 0);
        for (var y = Edge; y < shape.Down - Edge; y++)
        {
            for (var x = Edge; x < shape.Across - Edge; x++, many++)
            {
                var at = (y * shape.Across) + x;
                var (va, vb) = (Unbiased * (aa[at] - (a[at] * a[at])), Unbiased * (bb[at] - (b[at] * b[at])));
                var both = Unbiased * (ab[at] - (a[at] * b[at]));
                sum +=
                    ((2 * a[at] * b[at]) + c1)
                    * ((2 * both) + c2)
                    / (((a[at] * a[at]) + (b[at] * b[at]) + c1) * (va + vb + c2));
            }
        }

        return sum / many;
    }

    private static float[] Mean(float[] grid, GridShape shape, int radius)
    {
        var mean = new float[grid.Length];
        Blur.Box(grid, shape, radius, mean);
        return mean;
    }
}
