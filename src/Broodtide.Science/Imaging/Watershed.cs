namespace Broodtide.Science.Imaging;

/// <summary>Parts things that touch.</summary>
public static class Watershed
{
    // Between two pauses; each costs a descent through the queue.
    private const int PlacesAtATime = 10_000;
    private const ulong Depths = 0xFFFF_FFFF_0000_0000;

    /// <summary>
    /// Lets labels grow from markers downhill, the highest places first, until they meet (Meyer 1991, by an ordered
    /// queue; of equal places the one that was reached first). Four neighbours; no line is left between.
    /// </summary>
    /// <param name="grid">The picture: markers sit on its tops.</param>
    /// <param name="shape">Its shape.</param>
    /// <param name="within">Where labels may grow: any byte but 0.</param>
    /// <param name="labels">Above 0 at the markers, 0 elsewhere; afterwards the label of each pixel that was reached.</param>
    /// <exception cref="ArgumentException">A grid has another shape.</exception>
    public static void Grow(
        ReadOnlySpan<float> grid,
        GridShape shape,
        ReadOnlySpan<byte> within,
        Span<int> labels
    )
    {
        shape.MustFit(grid);
        shape.MustFit(within);
        shape.MustFit<int>(labels);
        var growing = new Growing(labels);
        growing.Grow(grid, shape, within, labels, int.MaxValue);
    }

    /// <summary><see cref="Grow"/> with pauses.</summary>
    internal static IEnumerable<Pause> Steps(float[] grid, GridShape shape, byte[] within, int[] labels)
    {
        var growing = new Growing(labels);
        yield return default;
        while (growing.Grow(grid, shape, within, labels, PlacesAtATime))
        {
            yield return default;
        }
    }

    private sealed class Growing
    {
        // The depth and, behind it, the turn in one number: a queue of numbers is far quicker than one of pairs.
        private readonly PriorityQueue<int, ulong> _queue = new();
        private uint _turn;

        public Growing(ReadOnlySpan<int> labels)
        {
            for (var at = 0; at < labels.Length; at++)
            {
                if (labels[at] > 0)
                {
                    _queue.Enqueue(at, _turn++);
                }
            }
        }

        /// <summary>Over at most so many places; whether any is left.</summary>
        public bool Grow(
            ReadOnlySpan<float> grid,
            GridShape shape,
            ReadOnlySpan<byte> within,
            Span<int> labels,
            int most
        )
        {
            Span<int> beside = stackalloc int[4];
            while (most-- > 0 && _queue.TryDequeue(out var at, out var reached))
            {
                var (y, x) = Math.DivRem(at, shape.Across);
                beside[0] = x > 0 ? at - 1 : at;
                beside[1] = y + 1 < shape.Down ? at + shape.Across : at;
                beside[2] = x + 1 < shape.Across ? at + 1 : at;
                beside[3] = y > 0 ? at - shape.Across : at;
                // A place beyond the edge is replaced by the pixel itself, which has its label already.
                foreach (var next in beside)
                {
                    if (labels[next] == 0 && within[next] != 0)
                    {
                        labels[next] = labels[at];
                        _queue.Enqueue(next, Math.Max(reached & Depths, Depth(grid[next])) | _turn++);
                    }
                }
            }

            return _queue.Count > 0;
        }
    }

    // In the upper half a number that is the larger the lower the place lies.
    private static ulong Depth(float height)
    {
        var bits = BitConverter.SingleToUInt32Bits(-height + 0f);
        return (ulong)((bits & 0x8000_0000) != 0 ? ~bits : bits | 0x8000_0000) << 32;
    }
}
