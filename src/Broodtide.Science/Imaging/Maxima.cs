using Broodtide.Units;

namespace Broodtide.Science.Imaging;

/// <summary>The tops of a picture that stand out by so much.</summary>
public static class Maxima
{
    private const int PlaceFetches = 60;

    /// <summary>
    /// The tops whose height above the highest pass to a higher place is more than <paramref name="height"/>, and the
    /// highest of every part: the h-maxima of Soille 2003 (Morphological Image Analysis, section 6.3.5), found by
    /// letting the water sink and asking, where two islands meet, how far the lower one stands out. A top is one pixel,
    /// the first of its plateau in the order of reading.
    /// </summary>
    /// <param name="grid">The picture, no value NaN. What is minus infinity belongs to no island.</param>
    /// <param name="shape">Its shape.</param>
    /// <param name="height">In the unit of the picture, 0 or more.</param>
    /// <returns>The places of the tops, the highest first.</returns>
    /// <exception cref="ArgumentException">The grid has another shape.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The height is not finite or is negative.</exception>
    public static IReadOnlyList<int> Standing(ReadOnlySpan<float> grid, GridShape shape, double height)
    {
        shape.MustFit(grid);
        Finite.NotNegative(height);
        return Steps(grid.ToArray(), shape, height).Last();
    }

    /// <summary><see cref="Standing"/> with pauses: the last is the answer.</summary>
    internal static IEnumerable<IReadOnlyList<int>> Steps(float[] grid, GridShape shape, double height)
    {
        int[] order = [];
        foreach (var step in Descending.Steps(grid))
        {
            order = step;
            yield return [];
        }

        // Each place points towards the top of its island, the top to itself; below 0 it is still under water.
        var up = new int[grid.Length];
        Array.Fill(up, -1);
        var standing = new List<int>();
        foreach (var (from, to) in Bands.Along(order.Length, PlaceFetches))
        {
            for (var i = from; i < to; i++)
            {
                Rise(grid, shape, height, order[i], up, standing);
            }

            yield return [];
        }

        standing.AddRange(order.Where(at => up[at] == at));
        var places = standing.ToArray();
        var depths = Array.ConvertAll(places, at => -grid[at]);
        Array.Sort(depths, places);
        yield return places;
    }

    // The water has sunk to this place: it joins the islands beside it, and a lower one that stands out is a top.
    private static void Rise(
        float[] grid,
        GridShape shape,
        double height,
        int at,
        int[] up,
        List<int> standing
    )
    {
        var (y, x) = Math.DivRem(at, shape.Across);
        up[at] = at;
        var top = at;
        for (var v = Math.Max(0, y - 1); v <= Math.Min(shape.Down - 1, y + 1); v++)
        {
            for (var u = Math.Max(0, x - 1); u <= Math.Min(shape.Across - 1, x + 1); u++)
            {
                var next = (v * shape.Across) + u;
                if (up[next] < 0)
                {
                    continue;
                }

                var other = Top(up, next);
                if (other == top)
                {
                    continue;
                }

                var (low, high) = IsHigher(grid, other, top) ? (top, other) : (other, top);
                var stands = (double)grid[low] - grid[at];
                if (stands > height)
                {
                    standing.Add(low);
                }

                up[low] = high;
                top = high;
            }
        }
    }

    private static bool IsHigher(ReadOnlySpan<float> grid, int one, int other) =>
        grid[one] > grid[other] || (grid[one] >= grid[other] && one < other);

    private static int Top(int[] up, int at)
    {
        while (up[at] != at)
        {
            up[at] = up[up[at]];
            at = up[at];
        }

        return at;
    }
}
