using System.Buffers;
using Broodtide.Science.Imaging.Registration;

namespace Broodtide.Science.Imaging.Merging;

/// <summary>
/// The variance of the brightness over blocks of 64 by 64 pixels after a blur of one pixel, of a frame as it lies over the
/// reference: what says afterwards whether a merged picture holds what its sharpest frame showed there.
/// </summary>
internal static class Blocks
{
    /// <summary>Pixels of a block's side.</summary>
    public const int Side = 64;

    /// <summary>The variances of one row of blocks.</summary>
    public static void Measure(float[] grey, CellGrid grid, AffineMap map, int row, float[] variance)
    {
        var (picture, shape) = (grid.Picture, grid.Shape);
        var (top, end) = (row * Side, Math.Min(picture.Down, (row + 1) * Side));
        var (from, to) = (Math.Max(0, top - 2), Math.Min(picture.Down, end + 2));
        var strip = new GridShape(picture.Across, to - from);
        var rented = ArrayPool<float>.Shared.Rent(strip.Count);
        var seen = rented.AsSpan(0, strip.Count);
        for (var y = from; y < to; y++)
        {
            Resampling.CubicRow(new(grey, picture, 0), map, y, 0, strip.Row(seen, y - from));
        }

        var soft = FocusCells.Softened(rented, strip, top - from, end - from);
        var wide = picture.Across + 2;
        for (var block = 0; block < shape.Across; block++)
        {
            var many = Math.Min(Side, picture.Across - (block * Side));
            var (sum, squares) = (0.0, 0.0);
            // About the first pixel, so that the difference of the sums keeps its digits.
            var about = soft[1 + (block * Side)];
            var part = new float[many];
            for (var y = 0; y < end - top; y++)
            {
                Lanes.Add(soft.AsSpan((y * wide) + 1 + (block * Side), many), -about, part);
                sum += Lanes.Sum(part);
                squares += Lanes.Dot(part, part);
            }

            var n = many * (end - top);
            variance[(row * shape.Across) + block] = (float)
                Math.Max(0, (squares / n) - (sum / n * (sum / n)));
        }

        ArrayPool<float>.Shared.Return(rented);
        ArrayPool<float>.Shared.Return(soft);
    }
}
