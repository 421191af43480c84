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

    // The extreme over a window is built by doubling: over 1, 2, 4, ... values from a place on, then two such that
    // overlap make the whole window.
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
        var outside = isLargest ? float.NegativeInfinity : float.PositiveInfinity;
        var (across, down) = (shape.Across, shape.Down);
        var stack = new float[(down + (2 * radius)) * across];
        stack.AsSpan(0, radius * across).Fill(outside);
        stack.AsSpan((radius + down) * across).Fill(outside);
        var padded = new float[across + (2 * radius)];
        for (var y = 0; y < down; y++)
        {
            padded.AsSpan(0, radius).Fill(outside);
            padded.AsSpan(radius + across).Fill(outside);
            shape.Row(source, y).CopyTo(padded.AsSpan(radius));
            var built = Doubled(padded, window, 1, isLargest);
            Join(
                padded.AsSpan(0, across),
                padded.AsSpan(window - built, across),
                stack.AsSpan((radius + y) * across, across),
                isLargest
            );
        }

        var done = Doubled(stack, window, across, isLargest);
        Join(
            stack.AsSpan(0, shape.Count),
            stack.AsSpan((window - done) * across, shape.Count),
            target,
            isLargest
        );
    }

    // In place, each value becoming the extreme of itself and the next ones; says over how many.
    private static int Doubled(Span<float> values, int window, int stride, bool isLargest)
    {
        var built = 1;
        for (; 2 * built <= window; built *= 2)
        {
            var step = built * stride;
            // Row by row, in ascending order, so that what is read has not been written; a step shorter than a vector
            // would be read too late within one row of lanes, but each vector is read whole before it is written.
            var length = values.Length - step;
            Join(values[..length], values.Slice(step, length), values[..length], isLargest);
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
