using Broodtide.Science.Imaging;

namespace Broodtide.Science.Tests.Imaging;

/// <summary>The twins of the kernels: each definition as one plain loop over all neighbours, in doubles.</summary>
internal static class Plain
{
    public static float[] Box(float[] source, GridShape shape, int radius) =>
        Each(shape, (x, y) => Square(source, shape, (x, y), radius).Average());

    public static float[] Erosion(float[] source, GridShape shape, int radius) =>
        Each(shape, (x, y) => Square(source, shape, (x, y), radius).Min());

    public static float[] Dilation(float[] source, GridShape shape, int radius) =>
        Each(shape, (x, y) => Square(source, shape, (x, y), radius).Max());

    public static float[] Variance(float[] source, GridShape shape, int radius) =>
        Each(
            shape,
            (x, y) =>
            {
                var values = Square(source, shape, (x, y), radius).ToList();
                var mean = values.Average();
                return values.Average(value => (value - mean) * (value - mean));
            }
        );

    public static float[] Gaussian(float[] source, GridShape shape, double sigma)
    {
        var reach = (int)Math.Ceiling(4 * sigma);
        return Each(
            shape,
            (x, y) =>
            {
                var (sum, weights) = (0.0, 0.0);
                for (var v = -reach; v <= reach; v++)
                {
                    for (var u = -reach; u <= reach; u++)
                    {
                        var weight = Math.Exp(-((u * u) + (v * v)) / (2 * sigma * sigma));
                        weights += weight;
                        sum += weight * source[At(shape, x + u, y + v)];
                    }
                }

                return sum / weights;
            }
        );
    }

    public static float[] Grey(byte[] colours) =>
        [
            .. Enumerable
                .Range(0, colours.Length / 4)
                .Select(i =>
                    (float)
                        Math.Floor(
                            (
                                (colours[4 * i] * 4899)
                                + (colours[(4 * i) + 1] * 9617)
                                + (colours[(4 * i) + 2] * 1868)
                                + 8192
                            ) / 16384.0
                        )
                ),
        ];

    public static float[] Smallest(byte[] colours) =>
        [
            .. Enumerable
                .Range(0, colours.Length / 4)
                .Select(i =>
                    (float)Math.Min(colours[4 * i], Math.Min(colours[(4 * i) + 1], colours[(4 * i) + 2]))
                ),
        ];

    public static float[] Distance(byte[] marked, GridShape shape)
    {
        var empty = Enumerable.Range(0, marked.Length).Where(at => marked[at] == 0).ToList();
        return Each(
            shape,
            (x, y) =>
                empty.Count == 0
                    ? double.PositiveInfinity
                    : empty.Min(at =>
                        Math.Sqrt(Math.Pow((at % shape.Across) - x, 2) + Math.Pow((at / shape.Across) - y, 2))
                    )
        );
    }

    /// <summary>Things by flooding from pixel to pixel.</summary>
    public static int[] Label(byte[] marked, GridShape shape)
    {
        var labels = new int[marked.Length];
        var count = 0;
        for (var start = 0; start < marked.Length; start++)
        {
            if (marked[start] == 0 || labels[start] > 0)
            {
                continue;
            }

            labels[start] = ++count;
            var open = new Stack<int>([start]);
            while (open.TryPop(out var at))
            {
                foreach (var next in Neighbours(shape, at).Where(n => marked[n] != 0 && labels[n] == 0))
                {
                    labels[next] = count;
                    open.Push(next);
                }
            }
        }

        return labels;
    }

    /// <summary>
    /// How many tops stand out by a height: the regional maxima of the picture that is left when the picture less the
    /// height is grown under it until nothing changes.
    /// </summary>
    public static int Standing(float[] grid, GridShape shape, float height)
    {
        var grown = Array.ConvertAll(grid, value => value - height);
        for (var changed = true; changed; )
        {
            changed = false;
            for (var at = 0; at < grid.Length; at++)
            {
                var next = Math.Min(grid[at], Neighbours(shape, at).Append(at).Max(n => grown[n]));
                changed |= next > grown[at];
                grown[at] = next;
            }
        }

        var seen = new bool[grid.Length];
        var tops = 0;
        for (var start = 0; start < grid.Length; start++)
        {
            if (seen[start])
            {
                continue;
            }

            var isTop = true;
            var open = new Stack<int>([start]);
            seen[start] = true;
            while (open.TryPop(out var at))
            {
                foreach (var next in Neighbours(shape, at))
                {
                    isTop &= grown[next] <= grown[at];
                    if (grown[next].Equals(grown[at]) && !seen[next])
                    {
                        seen[next] = true;
                        open.Push(next);
                    }
                }
            }

            tops += isTop ? 1 : 0;
        }

        return tops;
    }

    public static float[] Each(GridShape shape, Func<int, int, double> value) =>
        [
            .. Enumerable
                .Range(0, shape.Count)
                .Select(at => (float)value(at % shape.Across, at / shape.Across)),
        ];

    private static IEnumerable<int> Neighbours(GridShape shape, int at)
    {
        var (y, x) = Math.DivRem(at, shape.Across);
        for (var v = Math.Max(0, y - 1); v <= Math.Min(shape.Down - 1, y + 1); v++)
        {
            for (var u = Math.Max(0, x - 1); u <= Math.Min(shape.Across - 1, x + 1); u++)
            {
                if (u != x || v != y)
                {
                    yield return (v * shape.Across) + u;
                }
            }
        }
    }

    private static IEnumerable<double> Square(float[] source, GridShape shape, (int X, int Y) at, int radius)
    {
        for (var v = Math.Max(0, at.Y - radius); v <= Math.Min(shape.Down - 1, at.Y + radius); v++)
        {
            for (var u = Math.Max(0, at.X - radius); u <= Math.Min(shape.Across - 1, at.X + radius); u++)
            {
                yield return source[(v * shape.Across) + u];
            }
        }
    }

    // Beyond the edge lies the mirror image, the outermost pixel standing twice.
    private static int At(GridShape shape, int x, int y) =>
        (Fold(y, shape.Down) * shape.Across) + Fold(x, shape.Across);

    private static int Fold(int at, int length)
    {
        var within = ((at % (2 * length)) + (2 * length)) % (2 * length);
        return within < length ? within : (2 * length) - 1 - within;
    }
}
