namespace Broodtide.Scenes;

/// <summary>Where something is in the scene, in pixels of a picture of an unmoved camera.</summary>
public readonly record struct Spot(double X, double Y);

/// <summary>A larva: what stays the same of it.</summary>
public sealed record Larva(
    double LengthPixels,
    double Albedo,
    int Layer,
    double Bend,
    bool LiesStill,
    double StepPixels
);

/// <summary>A larva in one frame.</summary>
public readonly record struct LarvaPose(Spot At, double Heading, double Bend, Spot Smear);

/// <summary>Dirt, a bubble or a moult: an outline or a ring, its brightness in the light, how it drifts from frame to frame.</summary>
public sealed record Nuisance(
    NuisanceKind Kind,
    Spot At,
    double SizePixels,
    double Heading,
    double Brightness,
    int Layer,
    Spot Drift,
    double Turn,
    IReadOnlyList<Spot> Outline
);

public enum NuisanceKind
{
    Debris,
    Bubble,
    Moult,
    Glare,
    Scratch,
}
