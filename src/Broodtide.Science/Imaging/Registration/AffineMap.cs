using Broodtide.Units;

namespace Broodtide.Science.Imaging.Registration;

/// <summary>
/// Where a pixel of one picture lies in another: right = A x + B y + <paramref name="X"/>, down = C x + D y +
/// <paramref name="Y"/>, in pixels. The default maps everything to 0, 0.
/// </summary>
/// <param name="A">How far right for a pixel to the right.</param>
/// <param name="B">How far right for a pixel down.</param>
/// <param name="X">Where the pixel 0, 0 lies, in pixels to the right.</param>
/// <param name="C">How far down for a pixel to the right.</param>
/// <param name="D">How far down for a pixel down.</param>
/// <param name="Y">Where the pixel 0, 0 lies, in pixels down.</param>
public readonly record struct AffineMap(double A, double B, double X, double C, double D, double Y)
{
    /// <summary>Everything stays where it is.</summary>
    public static AffineMap Identity => new(1, 0, 0, 0, 1, 0);

    /// <summary>The square root of the change of area: above 1 where what is seen is larger in the other picture.</summary>
    public double Scale => Math.Sqrt(Math.Abs((A * D) - (B * C)));

    /// <summary>By how much the other picture is turned, in degrees, to the right (clockwise) where positive.</summary>
    public double TurnedDegrees => Math.Atan2(C - B, A + D) * 180 / Math.PI;

    /// <summary>Larger by a factor and turned about a point, then shifted.</summary>
    /// <param name="about">The point that only the shift moves.</param>
    /// <param name="scale">The factor.</param>
    /// <param name="degrees">The turn to the right (clockwise), in degrees.</param>
    /// <param name="shift">Pixels right and down.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite, or the factor not above 0.</exception>
    public static AffineMap Similarity(
        (double X, double Y) about,
        double scale,
        double degrees,
        (double X, double Y) shift
    )
    {
        Finite.Positive(scale);
        var (sin, cos) = Math.SinCos(Finite.Required(degrees) * Math.PI / 180);
        var (a, c) = (scale * cos, scale * sin);
        return new(
            a,
            -c,
            Finite.Required(about.X) + Finite.Required(shift.X) - (a * about.X) + (c * about.Y),
            c,
            a,
            Finite.Required(about.Y) + Finite.Required(shift.Y) - (c * about.X) - (a * about.Y)
        );
    }

    /// <summary>Where a place lies in the other picture.</summary>
    public (double X, double Y) At(double x, double y) => ((A * x) + (B * y) + X, (C * x) + (D * y) + Y);

    /// <summary>This map after another one.</summary>
    public AffineMap After(AffineMap first)
    {
        var (x, y) = At(first.X, first.Y);
        return new(
            (A * first.A) + (B * first.C),
            (A * first.B) + (B * first.D),
            x,
            (C * first.A) + (D * first.C),
            (C * first.B) + (D * first.D),
            y
        );
    }

    /// <summary>The way back.</summary>
    /// <exception cref="InvalidOperationException">The map lays a picture on a line or a point.</exception>
    public AffineMap Back()
    {
        var area = (A * D) - (B * C);
        if (Math.Abs(area) < 1e-12)
        {
            throw new InvalidOperationException("The map has no way back.");
        }

        var (a, b, c, d) = (D / area, -B / area, -C / area, A / area);
        return new(a, b, -((a * X) + (b * Y)), c, d, -((c * X) + (d * Y)));
    }

    /// <summary>
    /// The same map between pictures of another size, whose pixel x, y lies where <paramref name="factor"/> x, y lies here.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The factor is not finite or not above 0.</exception>
    public AffineMap Between(double factor) => this with { X = X / Finite.Positive(factor), Y = Y / factor };

    /// <summary>The largest distance between where the two maps lay a corner of a picture, in pixels.</summary>
    internal double Apart(AffineMap other, GridShape shape)
    {
        var most = 0.0;
        foreach (
            var (x, y) in ((int, int)[])
                [(0, 0), (shape.Across, 0), (0, shape.Down), (shape.Across, shape.Down)]
        )
        {
            var (here, there) = (At(x, y), other.At(x, y));
            most = Math.Max(most, Math.Sqrt(Math.Pow(here.X - there.X, 2) + Math.Pow(here.Y - there.Y, 2)));
        }

        return most;
    }
}
