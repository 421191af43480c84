using System.Buffers;
using Broodtide.Science.Imaging.Registration;

namespace Broodtide.Science.Imaging.Merging;

/// <summary>
/// The variance of the brightness over blocks of 64 by 64 pixels after a blur of one pixel, of a frame as it lies over the
/// reference: what says whether a merged picture holds what its sharpest frame showed there.
/// </summary>
internal static class Blocks
{
    /// <summary>Pixels of a block's side.</summary>
    public const int Side = 64;

    /// <summary>Pixels about a block that its blur needs.</summary>
    public const int Margin = 2;

    /// <summary>The variances of one row of blocks; its pixels are kept in whole numbers where they are wanted.</summary>
    public static void Measure(
        float[] grey,
        CellGrid grid,
        AffineMap map,
        int row,
        float[] variance,
        byte[]? laid = null
    )
    {
        var (picture, shape) = (grid.Picture, grid.Shape);
        var (top, end) = (row * Side, Math.Min(picture.Down, (row + 1) * Side));
        var (from, to) = (Math.Max(0, top - Margin), Math.Min(picture.Down, end + Margin));
        var strip = new GridShape(picture.Across, to - from);
        var rented = ArrayPool<float>.Shared.Rent(strip.Count);
        var seen = rented.AsSpan(0, strip.Count);
        for (var y = from; y < to; y++)
        {
            var pixels = strip.Row(seen, y - from);
            Resampling.CubicRow(new(grey, picture, 0), map, y, 0, pixels);
            if (laid is not null && y >= top && y < end)
            {
                WholeLevels.Of(pixels, picture.Row(laid.AsSpan(), y));
            }
        }

        var soft = FocusCells.Softened(rented, strip, top - from, end - from);
        for (var block = 0; block < shape.Across; block++)
        {
            var many = Math.Min(Side, picture.Across - (block * Side));
            variance[(row * shape.Across) + block] = Variance(
                soft.AsSpan(1 + (block * Side)),
                picture.Across + 2,
                many,
                end - top
            );
        }

        ArrayPool<float>.Shared.Return(rented);
        FocusCells.GiveBack(soft);
    }

    /// <summary>The variance of so many values of so many rows that lie a step apart.</summary>
    public static float Variance(ReadOnlySpan<float> soft, int step, int many, int rows)
    {
        var (sum, squares) = (0.0, 0.0);
        // About the first pixel, so that the difference of the sums keeps its digits.
        var about = soft[0];
        Span<float> part = stackalloc float[Side];
        part = part[..many];
        for (var y = 0; y < rows; y++)
        {
            Lanes.Add(soft.Slice(y * step, many), -about, part);
            sum += Lanes.Sum(part);
            squares += Lanes.Dot(part, part);
        }

        var n = many * rows;
        return (float)Math.Max(0, (squares / n) - (sum / n * (sum / n)));
    }
}
