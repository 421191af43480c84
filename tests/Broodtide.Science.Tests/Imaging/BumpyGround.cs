using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Registration;

namespace Broodtide.Science.Tests.Imaging;

/// <summary>
/// An invented ground of many soft bumps and hollows whose brightness is known at every place, between pixels too, in
/// focus and out of it: a Gaussian bump blurred by a Gaussian is a wider and flatter one. No code of the product.
/// </summary>
internal sealed class BumpyGround
{
    private readonly (double X, double Y, double Size, double Height)[] _bumps;

    public BumpyGround(GridShape shape, int seed, double least = 2, double most = 6)
    {
        var dice = new Random(seed);
        _bumps =
        [
            .. Enumerable
                .Range(0, shape.Count / 60)
                .Select(_ =>
                    (
                        (dice.NextDouble() * (shape.Across + 40)) - 20,
                        (dice.NextDouble() * (shape.Down + 40)) - 20,
                        least + ((most - least) * dice.NextDouble()),
                        (dice.NextDouble() - 0.5) * 90
                    )
                ),
        ];
    }

    /// <summary>A frame: what lies under a pixel of the reference lies where the map says.</summary>
    public float[] Seen(
        GridShape shape,
        AffineMap map,
        Func<double, double, double>? blur = null,
        (double Gain, double Level) light = default,
        double grain = 0,
        int seed = 0
    )
    {
        var (back, dice) = (map.Back(), new Random(seed));
        var gain = light == default ? (1, 0) : light;
        var seen = new float[shape.Count];
        foreach (var i in Enumerable.Range(0, shape.Count))
        {
            var (x, y) = back.At(i % shape.Across, i / shape.Across);
            var noise =
                grain > 0
                    ? grain
                        * Math.Sqrt(-2 * Math.Log(1 - dice.NextDouble()))
                        * Math.Cos(2 * Math.PI * dice.NextDouble())
                    : 0;
            seen[i] = (float)(
                ((120 + Height(x, y, blur?.Invoke(x, y) ?? 0)) * gain.Item1) + gain.Item2 + noise
            );
        }

        return seen;
    }

    private double Height(double x, double y, double blur)
    {
        var height = 0.0;
        foreach (var bump in _bumps)
        {
            var (u, v) = (x - bump.X, y - bump.Y);
            var wide = (bump.Size * bump.Size) + (blur * blur);
            var far = ((u * u) + (v * v)) / (2 * wide);
            height += far < 12 ? bump.Height * bump.Size * bump.Size / wide * Math.Exp(-far) : 0;
        }

        return height;
    }
}
