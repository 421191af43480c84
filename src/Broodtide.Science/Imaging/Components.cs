namespace Broodtide.Science.Imaging;

/// <summary>Which pixels hang together. Neighbours are the eight around a pixel.</summary>
public static class Components
{
    private const int LabelFetches = 10;

    /// <summary>Gives every thing a number from 1 on, in the order of reading; what is not marked gets 0.</summary>
    /// <param name="marked">Which pixels belong to things: any byte but 0.</param>
    /// <param name="shape">The shape.</param>
    /// <param name="labels">The numbers.</param>
    /// <returns>How many things there are.</returns>
    /// <exception cref="ArgumentException">A grid has another shape.</exception>
    public static int Label(ReadOnlySpan<byte> marked, GridShape shape, Span<int> labels)
    {
        shape.MustFit(marked);
        shape.MustFit<int>(labels);
        var parents = new List<int> { 0 };
        Join(marked, shape, labels, parents, 0, shape.Down);
        return Number(labels, parents);
    }

    /// <summary><see cref="Label"/> with pauses: the last is how many things there are.</summary>
    internal static IEnumerable<int> Steps(byte[] marked, GridShape shape, int[] labels)
    {
        var parents = new List<int> { 0 };
        foreach (var (from, to) in Bands.Of(shape, LabelFetches))
        {
            Join(marked, shape, labels, parents, from, to);
            yield return 0;
        }

        yield return Number(labels, parents);
    }

    private static void Join(
        ReadOnlySpan<byte> marked,
        GridShape shape,
        Span<int> labels,
        List<int> parents,
        int first,
        int end
    )
    {
        var across = shape.Across;
        for (var y = first; y < end; y++)
        {
            for (var x = 0; x < across; x++)
            {
                var at = (y * across) + x;
                labels[at] = 0;
                if (marked[at] == 0)
                {
                    continue;
                }

                var label = x > 0 ? labels[at - 1] : 0;
                for (var above = Math.Max(0, x - 1); y > 0 && above <= Math.Min(across - 1, x + 1); above++)
                {
                    label = Joined(parents, label, labels[at - across - x + above]);
                }

                if (label == 0)
                {
                    label = parents.Count;
                    parents.Add(label);
                }

                labels[at] = label;
            }
        }
    }

    // One after the other in the order of reading, however they came to hang together.
    private static int Number(Span<int> labels, List<int> parents)
    {
        var numbers = new int[parents.Count];
        var count = 0;
        foreach (ref var label in labels)
        {
            if (label > 0)
            {
                ref var number = ref numbers[Root(parents, label)];
                number = number == 0 ? ++count : number;
                label = number;
            }
        }

        return count;
    }

    /// <summary>What each thing is like, the thing of number 1 first.</summary>
    /// <param name="labels">Numbers from 0 (nothing) to <paramref name="count"/>.</param>
    /// <param name="shape">The shape.</param>
    /// <param name="count">The largest number.</param>
    /// <exception cref="ArgumentException">The grid has another shape.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The count is negative.</exception>
    public static IReadOnlyList<Region> Measure(ReadOnlySpan<int> labels, GridShape shape, int count)
    {
        shape.MustFit(labels);
        ArgumentOutOfRangeException.ThrowIfNegative(count);
        var sums = new Sums[count + 1];
        for (var at = 0; at < labels.Length; at++)
        {
            if (labels[at] > 0)
            {
                var (y, x) = Math.DivRem(at, shape.Across);
                sums[labels[at]].Add(x, y, x == 0 || y == 0 || x == shape.Across - 1 || y == shape.Down - 1);
            }
        }

        return [.. sums.Skip(1).Select(sum => sum.Told())];
    }

    private static int Joined(List<int> parents, int one, int other)
    {
        if (one == 0 || other == 0 || one == other)
        {
            return Math.Max(one, other);
        }

        var (a, b) = (Root(parents, one), Root(parents, other));
        var (low, high) = (Math.Min(a, b), Math.Max(a, b));
        parents[high] = low;
        return low;
    }

    private static int Root(List<int> parents, int label)
    {
        while (parents[label] != label)
        {
            parents[label] = parents[parents[label]];
            label = parents[label];
        }

        return label;
    }

    private struct Sums
    {
        private int _n;
        private double _x;
        private double _y;
        private double _xx;
        private double _yy;
        private double _xy;
        private bool _isAtEdge;

        public void Add(int x, int y, bool isAtEdge)
        {
            _n++;
            _x += x;
            _y += y;
            _xx += (double)x * x;
            _yy += (double)y * y;
            _xy += (double)x * y;
            _isAtEdge |= isAtEdge;
        }

        // A pixel is a square of side 1, which adds 1/12 to each variance.
        public readonly Region Told()
        {
            if (_n == 0)
            {
                return new(0, 0, 0, 0, 0, TouchesEdge: false);
            }

            var (x, y) = (_x / _n, _y / _n);
            var (a, b, c) = ((_xx / _n) - (x * x), (_yy / _n) - (y * y), (_xy / _n) - (x * y));
            var (half, root) = ((a + b) / 2, Math.Sqrt((Math.Pow(a - b, 2) / 4) + (c * c)));
            return new(
                _n,
                x,
                y,
                Math.Sqrt(Math.Max(0, half + root) + (1.0 / 12)),
                Math.Sqrt(Math.Max(0, half - root) + (1.0 / 12)),
                _isAtEdge
            );
        }
    }
}
