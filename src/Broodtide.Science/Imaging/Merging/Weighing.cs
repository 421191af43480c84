namespace Broodtide.Science.Imaging.Merging;

/// <summary>
/// How much of each frame goes into each cell: by the sharpness about it to a high power, so that the sharpest frame
/// prevails and only equally sharp ones share, which lessens their grain.
/// </summary>
internal static class Weighing
{
    // In cells: twelve pixels, wide enough that a sharp edge outweighs the wide slopes, rings and halos that the frames
    // out of focus have beside it, and narrow enough that what lies behind it is not lost there.
    private const double Near = 3;

    // Where there is hardly any texture the surroundings decide.
    private const double Far = 12;
    private const float FarPart = 0.02f;

    // Squared so many times: to the power of 32.
    private const int Squares = 5;

    // Below this share of the sharpest a frame adds nothing but work.
    private const float Least = 0.02f;

    /// <summary>One frame's sharpness about each cell, as bright as the others.</summary>
    public static float[] About(LaidFrame frame, CellGrid grid)
    {
        var (near, far) = (new float[grid.Shape.Count], new float[grid.Shape.Count]);
        Blur.Gaussian(frame.Energy, grid.Shape, Near, near);
        Blur.Gaussian(frame.Energy, grid.Shape, Far, far);
        Lanes.AddScaled(far, FarPart, near);
        Lanes.Scale(near, frame.Gain * frame.Gain, near);
        for (var cell = 0; cell < near.Length; cell++)
        {
            near[cell] = grid.IsSeen(frame.Map, cell) ? near[cell] + 1e-6f : 0;
        }

        return near;
    }

    /// <summary>Turns sharpness into weights that sum to 1 over the frames.</summary>
    public static void Settle(IReadOnlyList<float[]> sharpness, int from, int to)
    {
        for (var cell = from; cell < to; cell++)
        {
            var (most, sum) = (0f, 0f);
            foreach (var frame in sharpness)
            {
                most = Math.Max(most, frame[cell]);
            }

            foreach (var frame in sharpness)
            {
                var share = frame[cell] / most;
                for (var square = 0; square < Squares; square++)
                {
                    share *= share;
                }

                frame[cell] = share < Least ? 0 : share;
                sum += frame[cell];
            }

            foreach (var frame in sharpness)
            {
                frame[cell] /= sum;
            }
        }
    }
}
