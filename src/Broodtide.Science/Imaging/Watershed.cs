namespace Broodtide.Science.Imaging;

/// <summary>Parts things that touch.</summary>
public static class Watershed
{
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
        var queue = new PriorityQueue<int, (float Depth, long Turn)>();
        var turn = 0L;
        for (var at = 0; at < labels.Length; at++)
        {
            if (labels[at] > 0)
            {
                queue.Enqueue(at, (float.NegativeInfinity, turn++));
            }
        }

        while (queue.TryDequeue(out var at, out var reached))
        {
            var (y, x) = Math.DivRem(at, shape.Across);
            for (var side = 0; side < 4; side++)
            {
                var (u, v) = (x + ((side - 1) % 2), y + ((2 - side) % 2));
                if (u < 0 || v < 0 || u >= shape.Across || v >= shape.Down)
                {
                    continue;
                }

                var next = (v * shape.Across) + u;
                if (labels[next] == 0 && within[next] != 0)
                {
                    labels[next] = labels[at];
                    queue.Enqueue(next, (Math.Max(reached.Depth, -grid[next]), turn++));
                }
            }
        }
    }
}
