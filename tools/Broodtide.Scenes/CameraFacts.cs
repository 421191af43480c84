namespace Broodtide.Scenes;

/// <summary>How the camera was held in one frame.</summary>
/// <param name="Shift">Pixels by which what is seen lies further right and down.</param>
/// <param name="Radians">Turned by.</param>
/// <param name="Shear">Rolling shutter: pixels to the right from the top row to the bottom row.</param>
/// <param name="Exposure">Times as bright.</param>
public readonly record struct Hold(Spot Shift, double Radians, double Shear, double Exposure);

/// <summary>The camera of a scene.</summary>
public sealed record CameraFacts(
    double Vignetting,
    double LensBlur,
    double FullWell,
    double ReadNoise,
    double Sharpening,
    int JpegQuality,
    IReadOnlyList<double> Cast,
    double CastSlope,
    IReadOnlyList<Hold> Holds
)
{
    /// <summary>Extra blur of the three layers of depth, in pixels of a picture 1200 wide.</summary>
    public static readonly IReadOnlyList<double> LayerBlur = [0.5, 1.4, 2.3];

    public static CameraFacts Of(Dice dice, Limits limits, double scale, int frames) =>
        new(
            dice.Next(0.15, 0.45),
            dice.Next(0.6, 1.7) * Math.Sqrt(scale),
            dice.Next(1_500, 9_000),
            dice.Next(2, 9),
            dice.Next(0.2, 1),
            dice.Whole(68, 95),
            [.. Enumerable.Range(0, 3).Select(_ => 1 + dice.Next(-limits.CastShare, limits.CastShare))],
            dice.Next(-limits.CastShare, limits.CastShare) / 2,
            [
                .. Enumerable
                    .Range(0, frames)
                    .Select(_ => new Hold(
                        new(dice.Normal(limits.ShakePixels * scale), dice.Normal(limits.ShakePixels * scale)),
                        dice.Normal(limits.ShakeDegrees * Math.PI / 180),
                        dice.Next(-limits.ShearPixels, limits.ShearPixels) * scale,
                        1 + dice.Next(-0.05, 0.05)
                    )),
            ]
        );
}
