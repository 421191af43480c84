namespace Broodtide.Science.Imaging;

/// <summary>
/// A picture turned about its middle so that a direction of it runs along the rows. What lies outside the picture is NaN.
/// </summary>
internal sealed class Rotated
{
    private const int PixelFetches = 20;

    private readonly GridShape _picture;
    private readonly double _cosine;
    private readonly double _sine;

    private Rotated(GridShape picture, double angle)
    {
        _picture = picture;
        (_sine, _cosine) = Math.SinCos(angle);
        var (across, down) = (
            (picture.Across * Math.Abs(_cosine)) + (picture.Down * Math.Abs(_sine)),
            (picture.Across * Math.Abs(_sine)) + (picture.Down * Math.Abs(_cosine))
        );
        Shape = new((int)Math.Ceiling(across), (int)Math.Ceiling(down));
        Grid = new float[Shape.Count];
        Angle = angle;
    }

    public float[] Grid { get; }

    public GridShape Shape { get; }

    /// <summary>Radians from the rows of the picture to these rows, downward.</summary>
    public double Angle { get; }

    /// <summary>Values between pixels are taken as straight between the four about them.</summary>
    /// <param name="grey">The picture.</param>
    /// <param name="shape">Its shape.</param>
    /// <param name="angle">Radians from the rows to the wanted direction, downward.</param>
    public static Rotated Of(ReadOnlySpan<float> grey, GridShape shape, double angle)
    {
        var turned = new Rotated(shape, angle);
        turned.Fill(grey, shape, 0, turned.Shape.Down);
        return turned;
    }

    /// <summary>The same with pauses: the last is the answer.</summary>
    public static IEnumerable<Rotated?> Steps(float[] grey, GridShape shape, double angle)
    {
        var turned = new Rotated(shape, angle);
        foreach (var (from, to) in Bands.Of(turned.Shape, PixelFetches))
        {
            turned.Fill(grey, shape, from, to);
            yield return null;
        }

        yield return turned;
    }

    private void Fill(ReadOnlySpan<float> grey, GridShape shape, int from, int to)
    {
        for (var v = from; v < to; v++)
        {
            var row = Shape.Row(Grid.AsSpan(), v);
            for (var u = 0; u < row.Length; u++)
            {
                var (x, y) = InPicture(u, v);
                row[u] = Between(grey, shape, x, y);
            }
        }
    }

    /// <summary>Where a place of the turned picture lies in the picture, both in pixels.</summary>
    public (double X, double Y) InPicture(double u, double v)
    {
        var (right, down) = (u - ((Shape.Across - 1) / 2.0), v - ((Shape.Down - 1) / 2.0));
        return (
            ((_picture.Across - 1) / 2.0) + (right * _cosine) - (down * _sine),
            ((_picture.Down - 1) / 2.0) + (right * _sine) + (down * _cosine)
        );
    }

    /// <summary>The value at a place between the pixels, NaN outside.</summary>
    public static float Between(ReadOnlySpan<float> grey, GridShape shape, double x, double y)
    {
        if (!(x >= 0 && y >= 0 && x <= shape.Across - 1 && y <= shape.Down - 1))
        {
            return float.NaN;
        }

        var (left, top) = (
            Math.Min((int)x, Math.Max(0, shape.Across - 2)),
            Math.Min((int)y, Math.Max(0, shape.Down - 2))
        );
        var (right, down) = ((float)(x - left), (float)(y - top));
        var at = (top * shape.Across) + left;
        var (next, below) = (shape.Across > 1 ? 1 : 0, shape.Down > 1 ? shape.Across : 0);
        var above = grey[at] + (right * (grey[at + next] - grey[at]));
        var under = grey[at + below] + (right * (grey[at + below + next] - grey[at + below]));
        return above + (down * (under - above));
    }
}
