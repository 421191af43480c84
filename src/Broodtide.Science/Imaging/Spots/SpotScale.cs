namespace Broodtide.Science.Imaging.Spots;

/// <summary>How large the bright things of a picture are, from the picture alone.</summary>
internal static class SpotScale
{
    private const double Step = 1.25;
    private const double LeastRadius = 2;

    // Blobs wider than a third of the picture are its light, not things in it.
    private const double LargestShare = 1 / 6.0;

    /// <summary>
    /// The radius in pixels of which half of all contrast is: over the blobs that answer most at their own scale
    /// (Lindeberg 1998, Int. J. Comput. Vis. 30:79), each weighing the square of its answer.
    /// </summary>
    public static double Radius(float[] grid, GridShape shape, double noise)
    {
        var most = Math.Min(shape.Across, shape.Down) * LargestShare;
        var levels = new List<(double Radius, float[] Answer)>();
        for (var radius = LeastRadius / Step; radius <= most * Step; radius *= Step)
        {
            var answer = new float[shape.Count];
            Blobs.LaplacianOfGaussian(grid, shape, Math.Max(0.5, radius / Math.Sqrt(2)), answer);
            levels.Add((radius, answer));
        }

        var found = new List<(double Radius, double Weight)>();
        for (var level = 1; level + 1 < levels.Count; level++)
        {
            var (radius, answer) = levels[level];
            foreach (var at in Peaks(answer, shape, Math.Max(6 * noise / radius, 1e-3)))
            {
                if (answer[at] >= levels[level - 1].Answer[at] && answer[at] > levels[level + 1].Answer[at])
                {
                    found.Add((radius, (double)answer[at] * answer[at]));
                }
            }
        }

        found.Sort();
        var half = found.Sum(blob => blob.Weight) / 2;
        foreach (var (radius, weight) in found)
        {
            half -= weight;
            if (half <= 0)
            {
                return radius;
            }
        }

        return LeastRadius;
    }

    /// <summary>The pixels above a floor and above all eight neighbours; of a plateau the first in reading.</summary>
    public static IEnumerable<int> Peaks(float[] grid, GridShape shape, double floor)
    {
        for (var at = 0; at < grid.Length; at++)
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
