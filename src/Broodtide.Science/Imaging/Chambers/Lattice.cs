namespace Broodtide.Science.Imaging.Chambers;

/// <summary>
/// Lines at even steps in one direction across a picture, in pixels of it: line number k lies where
/// x cos a + y sin a is <see cref="First"/> + k <see cref="Step"/>.
/// </summary>
/// <param name="Angle">Radians from the rows to the direction across the lines, downward.</param>
/// <param name="First">Where line 0 lies.</param>
/// <param name="Step">Pixels from line to line.</param>
/// <param name="Strengths">How strongly each line from 0 on stands out; the last one bounds the picture.</param>
internal sealed record LineSet(double Angle, double First, double Step, IReadOnlyList<double> Strengths)
{
    /// <summary>Lines counted from line 0, with the fraction to the next one.</summary>
    public double Number(double x, double y) =>
        ((x * Math.Cos(Angle)) + (y * Math.Sin(Angle)) - First) / Step;
}

/// <summary>The ruling of a counting chamber in a picture: two sets of lines at a right angle.</summary>
internal sealed record Lattice(LineSet Across, LineSet Down, bool IsDark)
{
    public double Step => (Across.Step + Down.Step) / 2;

    /// <summary>Where line i of the one set meets line j of the other, in pixels.</summary>
    public (double X, double Y) Crossing(double i, double j)
    {
        var (a, b) = (Across.First + (i * Across.Step), Down.First + (j * Down.Step));
        var (sa, ca) = Math.SinCos(Across.Angle);
        var (sb, cb) = Math.SinCos(Down.Angle);
        var whole = (ca * sb) - (sa * cb);
        return (((a * sb) - (b * sa)) / whole, ((b * ca) - (a * cb)) / whole);
    }
}
