namespace Broodtide.Phone.Pictures;

/// <summary>
/// A larva from its side, its head to the left, with what is to be looked for held under a glass. Drawn by us from
/// published characters; proportions are a sketch.
/// </summary>
public static class LarvaFigure
{
    public const double Width = 176;
    public const double Height = 132;

    // Two glasses beside each other, or a larger one alone.
    private const double RadiusOfTwo = 33;
    private const double RadiusOfOne = 38;
    private const double Margin = 1.5;

    public static Picture Draw(LarvaTraits traits)
    {
        var shapes = new List<Shape>();
        var glasses = traits
            .ToLookFor.Select(GlassOf)
            .OfType<Glass>()
            .DistinctBy(glass => glass.Across)
            .ToList();
        var scale = 1.22 + (0.27 * traits.Growth);
        var body = new Sketch(
            (Width / 2) - (46 * scale),
            glasses.Count > 0 ? 26
                : traits.Walks ? 64
                : 60,
            scale,
            traits.Walks ? LarvaSide.WalkingDegrees : 0
        );
        var spots = LarvaSide.Draw(shapes, body, traits);
        var radius = (glasses.Count > 1 ? RadiusOfTwo : RadiusOfOne) - Margin;
        foreach (var glass in glasses)
        {
            var x = Margin + radius + (glass.Across * (Width - (2 * (Margin + radius))));
            new LarvaLens(
                x,
                Height - Margin - radius,
                radius,
                glass.Inside,
                glass.Spot?.Invoke(spots),
                glass.SpotRadius
            ).Draw(shapes, traits);
        }

        return new(Width, Height, shapes, []);
    }

    private static Glass? GlassOf(LarvaPart part) =>
        part switch
        {
            LarvaPart.Eyes => new(0, HeadUnderGlass.Draw, spots => spots.Eye, 9.5),
            LarvaPart.TailBristles
            or LarvaPart.OuterBranches
            or LarvaPart.InnerBranches
            or LarvaPart.TailPlate => new(1, TailUnderGlass.Draw, spots => spots.Tail, 12),
            LarvaPart.Pleopods => new(0.58, PleopodsUnderGlass.Draw, spots => spots.Pleopods, 10),
            LarvaPart.Light => new(0.5, LightUnderGlass.Draw, null, 0),
            _ => null,
        };

    /// <summary>Which glass shows a part.</summary>
    /// <param name="Across">Where it is held, 0 at the left to 1 at the right.</param>
    /// <param name="Inside">What is seen in it.</param>
    /// <param name="Spot">The part on the animal; none for what is not a part of it.</param>
    /// <param name="SpotRadius">How much of the animal is held under it, pixels.</param>
    private sealed record Glass(
        double Across,
        Action<List<Shape>, Sketch, LarvaTraits> Inside,
        Func<LarvaSpots, (double X, double Y)>? Spot,
        double SpotRadius
    );
}

/// <summary>Where on the animal the parts lie.</summary>
public readonly record struct LarvaSpots(
    (double X, double Y) Eye,
    (double X, double Y) Tail,
    (double X, double Y) Pleopods
);
