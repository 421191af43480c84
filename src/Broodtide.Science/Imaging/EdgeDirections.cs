namespace Broodtide.Science.Imaging;

/// <summary>Across which directions the edges of a picture run.</summary>
internal static class EdgeDirections
{
    private const int Bins = 180;
    private const int Apart = 10;

    /// <summary>
    /// The directions in which brightness changes most, strongest first: radians from the rows downward, minus 45 to 135
    /// degrees. Each edge weighs the square of its steepness.
    /// </summary>
    public static IReadOnlyList<double> Of(ReadOnlySpan<float> grey, GridShape shape, int most) =>
        Strongest(Heaps(grey, shape), most);

    /// <summary>The same where edges run in two directions at a right angle: one of the two, minus 45 to 45 degrees.</summary>
    public static IReadOnlyList<double> OfCrossed(ReadOnlySpan<float> grey, GridShape shape, int most)
    {
        var heaps = Heaps(grey, shape);
        for (var bin = 0; bin < Bins / 2; bin++)
        {
            heaps[bin] += heaps[bin + (Bins / 2)];
            heaps[bin + (Bins / 2)] = heaps[bin];
        }

        return [.. Strongest(heaps, 2 * most).Where(angle => angle < Math.PI / 4)];
    }

    private static double[] Heaps(ReadOnlySpan<float> grey, GridShape shape)
    {
        var soft = new float[shape.Count];
        Blur.Gaussian(grey, shape, 1.2, soft);
        var heaps = new double[Bins];
        for (var y = 1; y < shape.Down - 1; y++)
        {
            for (var x = 1; x < shape.Across - 1; x++)
            {
                var at = (y * shape.Across) + x;
                var (right, down) = (
                    soft[at + 1] - soft[at - 1],
                    soft[at + shape.Across] - soft[at - shape.Across]
                );
                var steep = (right * right) + (down * down);
                if (steep > 0)
                {
                    var turn = ((Math.Atan2(down, right) / Math.PI) + 2) % 1;
                    heaps[(int)(turn * Bins) % Bins] += steep;
                }
            }
        }

        return heaps;
    }

    private static List<double> Strongest(double[] heaps, int most)
    {
        var smooth = new double[Bins];
        for (var bin = 0; bin < Bins; bin++)
        {
            for (var k = -3; k <= 3; k++)
            {
                smooth[bin] += heaps[(bin + k + Bins) % Bins] * (4 - Math.Abs(k));
            }
        }

        // What all directions have alike are round things; lines rise above it.
        var found = new List<double>();
        while (found.Count < most && smooth.Max() > 0)
        {
            var top = Array.IndexOf(smooth, smooth.Max());
            found.Add(Mean(heaps, top));
            for (var k = -Apart; k <= Apart; k++)
            {
                smooth[(top + k + Bins) % Bins] = 0;
            }
        }

        return found;
    }

    // The mean direction within four degrees of the top.
    private static double Mean(double[] heaps, int top)
    {
        var (sum, weight) = (0.0, 0.0);
        for (var k = -4; k <= 4; k++)
        {
            var heap = heaps[(top + k + Bins) % Bins];
            sum += heap * k;
            weight += heap;
        }

        var degrees = top + 0.5 + (weight > 0 ? sum / weight : 0);
        return (degrees > 135 ? degrees - 180 : degrees) * Math.PI / 180;
    }
}
