using Broodtide.Units;

namespace Broodtide.Science.Imaging;

/// <summary>The tops of a picture that stand out by so much.</summary>
public static class Maxima
{
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
        var order = FromTheTop(grid);
        // Each place points towards the top of its island, the top to itself; below 0 it is still under water.
        var up = new int[grid.Length];
        Array.Fill(up, -1);
        var standing = new List<int>();
        foreach (var at in order)
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

        standing.AddRange(order.Where(at => up[at] == at));
        var places = standing.ToArray();
        var depths = new float[places.Length];
        for (var i = 0; i < places.Length; i++)
        {
            depths[i] = -grid[places[i]];
        }

        Array.Sort(depths, places);
        return places;
    }

    // All places of the picture above minus infinity, the highest first, of equal ones the first in reading.
    private static int[] FromTheTop(ReadOnlySpan<float> grid)
    {
        var places = new List<int>(grid.Length);
        for (var at = 0; at < grid.Length; at++)
        {
            if (!float.IsNegativeInfinity(grid[at]))
            {
                places.Add(at);
            }
        }

        var order = places.ToArray();
        // The sign bit turned so that the order of whole numbers is that of the values; the place breaks ties.
        var keys = new ulong[order.Length];
        for (var i = 0; i < order.Length; i++)
        {
            var bits = BitConverter.SingleToUInt32Bits(-grid[order[i]] + 0f);
            bits = (bits & 0x8000_0000) != 0 ? ~bits : bits | 0x8000_0000;
            keys[i] = ((ulong)bits << 32) | (uint)order[i];
        }

        Array.Sort(keys, order);
        return order;
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
