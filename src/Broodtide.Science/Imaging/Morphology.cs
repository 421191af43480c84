using Broodtide.Units;

namespace Broodtide.Science.Imaging;

/// <summary>
/// Grey morphology with a square of 2 r + 1 pixels a side (Serra 1982, Image Analysis and Mathematical Morphology).
/// What lies outside the picture is left out.
/// </summary>
public static class Morphology
{
    /// <summary>The smallest value within the square.</summary>
    /// <inheritdoc cref="Opening"/>
    public static void Erosion(ReadOnlySpan<float> source, GridShape shape, int radius, Span<float> target) =>
        Extreme(source, shape, radius, target, isLargest: false);

    /// <summary>The largest value within the square.</summary>
    /// <inheritdoc cref="Opening"/>
    public static void Dilation(
        ReadOnlySpan<float> source,
        GridShape shape,
        int radius,
        Span<float> target
    ) => Extreme(source, shape, radius, target, isLargest: true);

    /// <summary>Erosion, then dilation: bright things smaller than the square are gone.</summary>
    /// <param name="source">The picture.</param>
    /// <param name="shape">Its shape.</param>
    /// <param name="radius">Pixels from the middle of the square to its side, 0 to 16,000.</param>
    /// <param name="target">The result, which may be the picture itself.</param>
    /// <exception cref="ArgumentException">A grid has another shape.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The radius is outside its range.</exception>
    public static void Opening(ReadOnlySpan<float> source, GridShape shape, int radius, Span<float> target)
    {
        Erosion(source, shape, radius, target);
        Dilation(target, shape, radius, target);
    }

    /// <summary>The picture less its opening: only bright things smaller than the square are left (white top-hat).</summary>
    /// <param name="source">The picture.</param>
    /// <param name="shape">Its shape.</param>
    /// <param name="radius">Pixels from the middle of the square to its side, 0 to 16,000.</param>
    /// <param name="target">The result; not the picture itself.</param>
    /// <exception cref="ArgumentException">A grid has another shape.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The radius is outside its range.</exception>
    public static void TopHat(ReadOnlySpan<float> source, GridShape shape, int radius, Span<float> target)
    {
        Opening(source, shape, radius, target);
        Lanes.Subtract(source, target, target);
    }

    // Across: over 1, 2, 4, ... values from a place on, then two such that overlap make the whole window. Down: rows in
    // blocks as long as the window; what it covers is the end of one block and the beginning of the next (van Herk 1992,
    // Pattern Recognit. Lett. 13:517).
    private static void Extreme(
        ReadOnlySpan<float> source,
        GridShape shape,
        int radius,
        Span<float> target,
        bool isLargest
    )
    {
        shape.MustFit(source);
        shape.MustFit<float>(target);
        Finite.Within(radius, 0, 16_000);
        var window = (2 * radius) + 1;
        var (across, outside) = (shape.Across, isLargest ? float.NegativeInfinity : float.PositiveInfinity);
        var padded = new float[across + (2 * radius)];
        var (block, next) = (new float[window * across], new float[window * across]);
        var beginning = new float[across];
        // Row k of a block is row k - radius of the picture.
        Along(source, shape, -radius, padded, block, outside, isLargest);
        for (var top = 0; top < shape.Down; top += window)
        {
            // From now on each row of the block is the extreme of itself and all below it in the block.
            for (var k = window - 2; k >= 0; k--)
            {
                var row = block.AsSpan(k * across, across);
                Join(row, block.AsSpan((k + 1) * across, across), row, isLargest);
            }

            // What is read here has not been written yet, even where the target is the picture itself.
            Along(source, shape, top + window - radius, padded, next, outside, isLargest);
            for (var k = 0; k < window && top + k < shape.Down; k++)
            {
                var to = shape.Row(target, top + k);
                var row = block.AsSpan(k * across, across);
                if (k == 0)
                {
                    row.CopyTo(to);
                    continue;
                }

                var last = next.AsSpan((k - 1) * across, across);
                if (k == 1)
                {
                    last.CopyTo(beginning);
                }
                else
                {
                    Join(beginning, last, beginning, isLargest);
                }

                Join(row, beginning, to, isLargest);
            }

            (block, next) = (next, block);
        }
    }

    // As many rows as fit, from a row of the picture on, each the extreme across; outside the picture nothing counts.
    private static void Along(
        ReadOnlySpan<float> source,
        GridShape shape,
        int from,
        Span<float> padded,
        Span<float> rows,
        float outside,
        bool isLargest
    )
    {
        var (across, radius) = (shape.Across, (padded.Length - shape.Across) / 2);
        var window = (2 * radius) + 1;
        for (var k = 0; k * across < rows.Length; k++)
        {
            var row = rows.Slice(k * across, across);
            if (from + k < 0 || from + k >= shape.Down)
            {
                row.Fill(outside);
                continue;
            }

            padded[..radius].Fill(outside);
            padded[(radius + across)..].Fill(outside);
            shape.Row(source, from + k).CopyTo(padded[radius..]);
            var built = Doubled(padded, window, isLargest);
            Join(padded[..across], padded.Slice(window - built, across), row, isLargest);
        }
    }

    // In place, each value becoming the extreme of itself and the next ones; says over how many.
    private static int Doubled(Span<float> values, int window, bool isLargest)
    {
        var built = 1;
        for (; 2 * built <= window; built *= 2)
        {
            // In ascending order, so that what is read has not been written; a step shorter than a vector would be read
            // too late within one row of lanes, but each vector is read whole before it is written.
            var length = values.Length - built;
            Join(values[..length], values.Slice(built, length), values[..length], isLargest);
        }

        return built;
    }

    private static void Join(
        ReadOnlySpan<float> values,
        ReadOnlySpan<float> others,
        Span<float> target,
        bool isLargest
    )
    {
        if (isLargest)
        {
            Lanes.Largest(values, others, target);
        }
        else
        {
            Lanes.Smallest(values, others, target);
        }
    }
}
