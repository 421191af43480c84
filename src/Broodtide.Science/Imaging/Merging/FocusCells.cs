using System.Buffers;
using System.Numerics;
using System.Runtime.InteropServices;

namespace Broodtide.Science.Imaging.Merging;

/// <summary>
/// How sharp a picture is, cell by cell: the mean of (2 I - left - right)^2 + (2 I - above - below)^2 of the picture
/// blurred by a pixel, so that grain counts little (the modified Laplacian of Nayar and Nakagawa 1994, squared in place of
/// its size). Worked out a strip of cells at a time, of the frame as it was taken: resampling would soften it.
/// </summary>
internal static class FocusCells
{
    /// <summary>Pixels of a cell's side.</summary>
    public const int Side = 4;

    // Binomial weights 1 4 6 4 1: a standard deviation of one pixel.
    private static readonly float[] Weights = [1 / 16f, 4 / 16f, 6 / 16f, 4 / 16f, 1 / 16f];

    /// <summary>Measures rows of cells.</summary>
    /// <param name="grey">The whole picture.</param>
    /// <param name="grid">Its cells.</param>
    /// <param name="first">The first row of cells.</param>
    /// <param name="rows">How many.</param>
    /// <param name="energy">All cells of the picture; these rows are written.</param>
    public static void Measure(float[] grey, CellGrid grid, int first, int rows, float[] energy)
    {
        var (picture, shape) = (grid.Picture, grid.Shape);
        var (top, end) = (first * Side, Math.Min(picture.Down, (first + rows) * Side));
        var soft = Softened(grey, picture, top - 1, end + 1);
        var wide = picture.Across + 2;
        var bent = new float[picture.Across];
        var sum = new float[picture.Across];
        for (var y = top; y < end; y++)
        {
            var at = (y - top) * wide;
            Bent(
                soft.AsSpan(at, wide),
                soft.AsSpan(at + wide, wide),
                soft.AsSpan(at + (2 * wide), wide),
                bent
            );
            Lanes.AddScaled(bent, 1, sum);
            if (y % Side == Side - 1 || y == end - 1)
            {
                var row = shape.Row(energy.AsSpan(), y / Side);
                for (var cell = 0; cell < row.Length; cell++)
                {
                    var part = sum.AsSpan(cell * Side, Math.Min(Side, picture.Across - (cell * Side)));
                    row[cell] = (float)(Lanes.Sum(part) / (part.Length * ((y % Side) + 1)));
                }

                Array.Clear(sum);
            }
        }

        GiveBack(soft);
    }

    /// <summary>Rows blurred by a pixel, one more pixel at each end; beyond the picture its edge goes on. To be given back.</summary>
    public static float[] Softened(float[] grey, GridShape shape, int from, int end)
    {
        var wide = shape.Across + 2;
        var across = ArrayPool<float>.Shared.Rent((end - from + 4) * wide);
        var padded = new float[shape.Across + 6];
        for (var y = from - 2; y < end + 2; y++)
        {
            var row = shape.Row<float>(grey, Math.Clamp(y, 0, shape.Down - 1));
            row.CopyTo(padded.AsSpan(3));
            padded.AsSpan(0, 3).Fill(row[0]);
            padded.AsSpan(row.Length + 3).Fill(row[^1]);
            Sum(padded, 1, across.AsSpan((y - from + 2) * wide, wide));
        }

        var soft = ArrayPool<float>.Shared.Rent((end - from) * wide);
        for (var y = 0; y < end - from; y++)
        {
            Sum(across.AsSpan(y * wide), wide, soft.AsSpan(y * wide, wide));
        }

        ArrayPool<float>.Shared.Return(across);
        return soft;
    }

    /// <summary>What <see cref="Softened"/> gave.</summary>
    public static void GiveBack(float[] soft) => ArrayPool<float>.Shared.Return(soft);

    private static void Sum(ReadOnlySpan<float> from, int step, Span<float> target)
    {
        Lanes.Scale(from[..target.Length], Weights[0], target);
        for (var i = 1; i < Weights.Length; i++)
        {
            Lanes.AddScaled(from.Slice(i * step, target.Length), Weights[i], target);
        }
    }

    private static void Bent(
        ReadOnlySpan<float> above,
        ReadOnlySpan<float> here,
        ReadOnlySpan<float> below,
        Span<float> target
    )
    {
        var at = 0;
        for (; at + Vector<float>.Count <= target.Length; at += Vector<float>.Count)
        {
            var twice = 2 * Load(here, at + 1);
            var across = twice - Load(here, at) - Load(here, at + 2);
            var down = twice - Load(above, at + 1) - Load(below, at + 1);
            ((across * across) + (down * down)).CopyTo(target[at..]);
        }

        for (; at < target.Length; at++)
        {
            var twice = 2 * here[at + 1];
            var across = twice - here[at] - here[at + 2];
            var down = twice - above[at + 1] - below[at + 1];
            target[at] = (across * across) + (down * down);
        }
    }

    private static Vector<float> Load(ReadOnlySpan<float> row, int at) =>
        MemoryMarshal.Read<Vector<float>>(MemoryMarshal.AsBytes(row[at..]));
}
