namespace Broodtide.Scenes;

/// <summary>How much is in the way of counting.</summary>
public enum Difficulty
{
    Easy,
    Medium,
    Hard,
}

/// <summary>
/// What a difficulty allows at most. The first seven as the ranges that were given for such scenes; what follows (what
/// rises, drifts, ripples, mirrors, shears) is added here, without a source.
/// </summary>
public sealed record Limits(
    double MotionBlurLengths,
    double DebrisForEach,
    int Bubbles,
    double ShakePixels,
    double ShakeDegrees,
    int RisingBubbles,
    double MoultsForEach,
    int Moults,
    double RipplePixels,
    double WallChance,
    double ShearPixels,
    double CastShare
)
{
    public static Limits Of(Difficulty difficulty) =>
        difficulty switch
        {
            Difficulty.Easy => new(0.15, 0.15, 4, 0, 0, 1, 0.01, 1, 0.2, 0.2, 0.2, 0.1),
            Difficulty.Medium => new(0.35, 0.5, 12, 1.2, 0.05, 3, 0.03, 2, 0.6, 0.35, 0.6, 0.2),
            _ => new(0.7, 1, 30, 3, 0.1, 6, 0.06, 3, 1.2, 0.5, 1.2, 0.3),
        };
}
