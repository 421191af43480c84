namespace Broodtide.Science.Imaging.Spots;

/// <summary>How large the bright things of a picture are, from the picture alone.</summary>
internal static class SpotScale
{
    private const double Step = 1.25;
    private const double LeastRadius = 2;

    // From twice this radius on blobs are looked for in a halved picture.
    private const double LargestHere = 5;

    // Blobs wider than a third of the picture are its light, not things in it.
    private const double LargestShare = 1 / 6.0;

    /// <summary>About how many values finding peaks costs a pixel.</summary>
    public const int PeakFetches = 10;

    /// <summary>
    /// The radius in pixels of which half of all contrast is: over the blobs that answer most at their own scale
    /// (Lindeberg 1998, Int. J. Comput. Vis. 30:79), each weighing the square of its answer.
    /// </summary>
    /// <remarks>With pauses: the last is the answer.</remarks>
    public static IEnumerable<double> Steps(float[] grid, GridShape shape, double noise)
    {
        var most = Math.Min(shape.Across, shape.Down) * LargestShare;
        var found = new List<(double Radius, double Weight)>();
        var scales = new List<double>();
        for (var radius = LeastRadius; radius <= most; radius *= Step)
        {
            scales.Add(radius);
        }

        // Large blobs are looked for in a halved picture, where they have as many pixels as the small ones here.
        var factor = 1;
        foreach (var octave in scales.GroupBy(radius => Math.Max(0, (int)Math.Log2(radius / LargestHere))))
        {
            for (; factor < 1 << octave.Key; factor *= 2)
            {
                var halved = new float[shape.Halved().Count];
                Pyramid.Reduce(grid, shape, halved);
                (grid, shape) = (halved, shape.Halved());
                yield return 0;
            }

            foreach (var _ in Blobs(grid, shape, [.. octave], factor, noise, found))
            {
                yield return 0;
            }
        }

        found.Sort();
        var half = found.Sum(blob => blob.Weight) / 2;
        foreach (var (radius, weight) in found)
        {
            half -= weight;
            if (half <= 0)
            {
                yield return radius;
                yield break;
            }
        }

        yield return LeastRadius;
    }

    // The blobs that answer more at one of the radii than at the next smaller and the next larger one.
    private static IEnumerable<Pause> Blobs(
        float[] grid,
        GridShape shape,
        List<double> radii,
        int factor,
        double noise,
        List<(double Radius, double Weight)> found
    )
    {
        IEnumerable<Pause> Answer(double radius, float[] answer) =>
            Imaging.Blobs.Steps(grid, shape, Math.Max(0.5, radius / factor / Math.Sqrt(2)), answer);

        var (smaller, here) = (new float[shape.Count], new float[shape.Count]);
        foreach (var pause in Answer(radii[0] / Step, smaller).Concat(Answer(radii[0], here)))
        {
            yield return pause;
        }

        foreach (var radius in radii)
        {
            var larger = new float[shape.Count];
            foreach (var pause in Answer(radius * Step, larger))
            {
                yield return pause;
            }

            foreach (var rows in Bands.Of(shape, PeakFetches))
            {
                foreach (var at in Peaks(here, shape, Math.Max(6 * noise / radius, 1e-3), rows))
                {
                    if (here[at] >= smaller[at] && here[at] > larger[at])
                    {
                        found.Add((radius, (double)here[at] * here[at]));
                    }
                }

                yield return default;
            }

            (smaller, here) = (here, larger);
        }
    }

    /// <summary>
    /// The pixels of some rows above a floor and above all eight neighbours; of a plateau the first in reading.
    /// </summary>
    public static IEnumerable<int> Peaks(float[] grid, GridShape shape, double floor, (int From, int To) rows)
    {
        for (var at = rows.From * shape.Across; at < rows.To * shape.Across; at++)
        {
            if (grid[at] > floor && IsPeak(grid, shape, at))
            {
                yield return at;
            }
        }
    }

    private static bool IsPeak(float[] grid, GridShape shape, int at)
    {
        var (y, x) = Math.DivRem(at, shape.Across);
        for (var v = Math.Max(0, y - 1); v <= Math.Min(shape.Down - 1, y + 1); v++)
        {
            for (var u = Math.Max(0, x - 1); u <= Math.Min(shape.Across - 1, x + 1); u++)
            {
                var next = (v * shape.Across) + u;
                if (grid[next] > grid[at] || (next < at && grid[next] >= grid[at]))
                {
                    return false;
                }
            }
        }

        return true;
    }
}
