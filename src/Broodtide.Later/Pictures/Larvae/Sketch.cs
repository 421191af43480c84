namespace Broodtide.Phone.Pictures;

/// <summary>A place to draw in: its own origin, scale and turn, and paths through its points.</summary>
/// <param name="X">Where its origin lies in the picture.</param>
/// <param name="Y">Where its origin lies in the picture.</param>
/// <param name="Scale">Pixels of the picture to one of its units.</param>
/// <param name="Degrees">How far it is turned, clockwise.</param>
public readonly record struct Sketch(double X, double Y, double Scale = 1, double Degrees = 0)
{
    public (double X, double Y) At(double x, double y)
    {
        var (sin, cos) = Math.SinCos(Degrees * Math.PI / 180);
        return (X + (Scale * ((x * cos) - (y * sin))), Y + (Scale * ((x * sin) + (y * cos))));
    }

    /// <summary>A place inside this one.</summary>
    public Sketch Inside(double x, double y, double scale, double degrees)
    {
        var (left, top) = At(x, y);
        return new(left, top, Scale * scale, Degrees + degrees);
    }

    /// <summary>A smooth line through points.</summary>
    public string Smooth(bool closed, params ReadOnlySpan<(double X, double Y)> points)
    {
        var pen = new PathPen();
        Smooth(pen, closed, points);
        return pen.ToString();
    }

    /// <summary>A smooth line through points, as a further stroke of a pen.</summary>
    public void Smooth(PathPen pen, bool closed, params ReadOnlySpan<(double X, double Y)> points)
    {
        var all = new (double X, double Y)[points.Length];
        for (var i = 0; i < points.Length; i++)
        {
            all[i] = At(points[i].X, points[i].Y);
        }

        pen.Move(all[0].X, all[0].Y);
        var pieces = closed ? all.Length : all.Length - 1;
        for (var i = 0; i < pieces; i++)
        {
            // Catmull and Rom's spline, each piece as a cubic of Bézier.
            var (before, from, to, after) = (
                Of(all, i - 1, closed),
                Of(all, i, closed),
                Of(all, i + 1, closed),
                Of(all, i + 2, closed)
            );
            pen.Curve(
                from.X + ((to.X - before.X) / 6),
                from.Y + ((to.Y - before.Y) / 6),
                to.X - ((after.X - from.X) / 6),
                to.Y - ((after.Y - from.Y) / 6),
                to.X,
                to.Y
            );
        }

        if (closed)
        {
            pen.Close();
        }
    }

    /// <summary>A straight stroke.</summary>
    public void Stroke(PathPen pen, double x1, double y1, double x2, double y2)
    {
        var (from, to) = (At(x1, y1), At(x2, y2));
        pen.Move(from.X, from.Y).Line(to.X, to.Y);
    }

    private static (double X, double Y) Of((double X, double Y)[] all, int at, bool closed) =>
        all[closed ? (at + all.Length) % all.Length : Math.Clamp(at, 0, all.Length - 1)];
}
