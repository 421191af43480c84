namespace Broodtide.Phone.Pictures;

/// <summary>A glass held over a part of the animal: a ring, what is seen in it, and where it was held.</summary>
/// <param name="X">Its middle.</param>
/// <param name="Y">Its middle.</param>
/// <param name="Radius">Its radius, pixels.</param>
/// <param name="Inside">Draws what is seen, in a place whose origin is the middle and whose glass has a radius of 31.</param>
/// <param name="Spot">The part on the animal; none for what is not a part of it.</param>
/// <param name="SpotRadius">How much of the animal is held under it, pixels.</param>
internal sealed record LarvaLens(
    double X,
    double Y,
    double Radius,
    Action<List<Shape>, Sketch, LarvaTraits> Inside,
    (double X, double Y)? Spot,
    double SpotRadius
)
{
    /// <summary>The radius of the glass in the units of what is drawn in it.</summary>
    public const double Units = 31;

    public void Draw(List<Shape> shapes, LarvaTraits traits)
    {
        if (Spot is { } spot)
        {
            shapes.Add(new PathShape("larva-lead", Leads(spot)));
            shapes.Add(new DiscShape("larva-spot", spot.X, spot.Y, SpotRadius));
        }

        shapes.Add(new DiscShape("larva-lens", X, Y, Radius));
        Inside(shapes, new Sketch(X, Y, Radius / Units), traits);
        shapes.Add(new DiscShape("larva-ring", X, Y, Radius));
    }

    // The two lines that touch both circles.
    private string Leads((double X, double Y) spot)
    {
        var (dx, dy) = (X - spot.X, Y - spot.Y);
        var distance = Math.Sqrt((dx * dx) + (dy * dy));
        var towards = Math.Atan2(dy, dx);
        var lean = Math.Acos(Math.Clamp((SpotRadius - Radius) / Math.Max(distance, Radius), -1, 1));
        var pen = new PathPen();
        foreach (var side in new[] { towards + lean, towards - lean })
        {
            var (sin, cos) = Math.SinCos(side);
            pen.Move(spot.X + (SpotRadius * cos), spot.Y + (SpotRadius * sin))
                .Line(X + (Radius * cos), Y + (Radius * sin));
        }

        return pen.ToString();
    }
}
