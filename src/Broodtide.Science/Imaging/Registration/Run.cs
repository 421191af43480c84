namespace Broodtide.Science.Imaging.Registration;

/// <summary>
/// Neighbours of a row that lie between neighbours of one row of the picture: the pixel i of the run lies between the
/// columns <paramref name="Column"/> + i and one more, <paramref name="Right"/> + i <paramref name="RightStep"/> of the
/// way, and likewise down. A run that is not inside has one pixel.
/// </summary>
internal readonly record struct Run(
    int Column,
    int Row,
    float Right,
    float RightStep,
    float Down,
    float DownStep,
    int Length,
    bool IsInside
)
{
    // Farther out lies nothing but the outermost pixel.
    private const double Far = 1e6;

    /// <summary>The run that begins at a pixel, looking at <paramref name="reach"/> more pixels on each side.</summary>
    public static Run From(AffineMap map, int x, int y, int most, GridShape picture, int reach)
    {
        var (u, v) = map.At(x, y);
        (u, v) = (Math.Clamp(u, -Far, Far), Math.Clamp(v, -Far, Far));
        var (column, row) = ((int)Math.Floor(u), (int)Math.Floor(v));
        var (right, down) = (u - column, v - row);
        var isInside =
            column >= reach
            && column + 1 + reach < picture.Across
            && row >= reach
            && row + 1 + reach < picture.Down;
        var length = !isInside
            ? 1
            : Math.Min(
                Math.Min(most, picture.Across - 1 - reach - column),
                Math.Min(Within(right, map.A - 1, most), Within(down, map.C, most))
            );
        return new(
            column,
            row,
            (float)right,
            (float)(map.A - 1),
            (float)down,
            (float)map.C,
            Math.Max(1, length),
            isInside
        );
    }

    // How many steps stay from 0 to 1.
    private static int Within(double part, double step, int most) =>
        step > 0 ? (int)Math.Min(most, Math.Ceiling((1 - part) / step))
        : step < 0 ? (int)Math.Min(most, Math.Floor(part / -step) + 1)
        : most;
}
