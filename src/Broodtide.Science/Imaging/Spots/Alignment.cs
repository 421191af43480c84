namespace Broodtide.Science.Imaging.Spots;

/// <summary>Frames of a burst laid over the middle one.</summary>
internal static class Alignment
{
    // Light and its slopes do not steer the shift, texture does; in pixels of the picture looked at.
    private const double Texture = 4;

    /// <summary>
    /// The shift by phase correlation of the texture; none where the frames agree better unshifted, as when there is
    /// hardly any texture.
    /// </summary>
    public static PixelShift Of(float[] middle, float[] frame, GridShape shape)
    {
        var shift = PhaseCorrelation.Between(Textured(middle, shape), Textured(frame, shape), shape);
        return Apart(middle, frame, shape) <= Apart(middle, Moved(frame, shape, shift), shape)
            ? new(0, 0, shift.Agreement)
            : shift;
    }

    /// <summary>The frame as it would be without the shift; between pixels by their bilinear mean.</summary>
    public static float[] Moved(float[] frame, GridShape shape, PixelShift shift)
    {
        var moved = new float[frame.Length];
        for (var y = 0; y < shape.Down; y++)
        {
            var v = Math.Clamp(y + shift.Y, 0, shape.Down - 1.001);
            var (row, down) = ((int)v, (float)(v - (int)v));
            for (var x = 0; x < shape.Across; x++)
            {
                var u = Math.Clamp(x + shift.X, 0, shape.Across - 1.001);
                var (at, right) = ((row * shape.Across) + (int)u, (float)(u - (int)u));
                var above = frame[at] + (right * (frame[at + 1] - frame[at]));
                at += shape.Across;
                var below = frame[at] + (right * (frame[at + 1] - frame[at]));
                moved[(y * shape.Across) + x] = above + (down * (below - above));
            }
        }

        return moved;
    }

    /// <summary>Correlation of two pictures, -1 to 1, 0 where one is flat.</summary>
    public static double Correlation(float[] one, float[] other)
    {
        var (a, b) = (one.Average(), other.Average());
        var (ab, aa, bb) = (0.0, 0.0, 0.0);
        for (var i = 0; i < one.Length; i++)
        {
            var (x, y) = ((double)one[i] - a, (double)other[i] - b);
            (ab, aa, bb) = (ab + (x * y), aa + (x * x), bb + (y * y));
        }

        return aa > 0 && bb > 0 ? ab / Math.Sqrt(aa * bb) : 0;
    }

    // Mean difference over the middle, where both are known.
    private static double Apart(float[] one, float[] other, GridShape shape)
    {
        var (left, top) = (shape.Across / 16, shape.Down / 16);
        var sum = 0.0;
        for (var y = top; y < shape.Down - top; y++)
        {
            for (var x = left; x < shape.Across - left; x++)
            {
                sum += Math.Abs(one[(y * shape.Across) + x] - other[(y * shape.Across) + x]);
            }
        }

        return sum;
    }

    private static float[] Textured(float[] grid, GridShape shape)
    {
        var blurred = new float[grid.Length];
        Blur.Gaussian(grid, shape, Texture, blurred);
        Lanes.Subtract(grid, blurred, blurred);
        return blurred;
    }
}
