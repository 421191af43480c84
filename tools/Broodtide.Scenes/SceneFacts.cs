namespace Broodtide.Scenes;

/// <summary>The numbers of one scene, so that errors can be told by them.</summary>
/// <param name="Index">Which scene of the seed.</param>
/// <param name="Difficulty">How much is in the way.</param>
/// <param name="Number">Larvae in it.</param>
/// <param name="PixelsPerMm">Pixels of the picture for a millimetre.</param>
/// <param name="LensBlurPixels">Standard deviation of the lens blur.</param>
/// <param name="CorePixels">Standard deviation of the light's core.</param>
/// <param name="FloorBase">Linear brightness of the unlit floor.</param>
/// <param name="FloorScattered">Linear brightness of the floor in the core.</param>
/// <param name="Texture">Relative standard deviation of the floor's texture.</param>
/// <param name="Albedo">Mean albedo of the larvae.</param>
/// <param name="MotionBlur">The largest motion blur in larva lengths.</param>
/// <param name="Debris">Still pieces of dirt.</param>
/// <param name="Bubbles">Bubbles, rising ones too.</param>
/// <param name="Moults">Drifting moults.</param>
/// <param name="HasWall">Whether a wall mirrors them.</param>
/// <param name="RipplePixels">Amplitude of the ripples' refraction.</param>
/// <param name="FullWell">Electrons of a white pixel.</param>
/// <param name="ReadNoise">Electrons.</param>
/// <param name="Sharpening">Weight of the camera's unsharp mask.</param>
/// <param name="JpegQuality">Quality of the file.</param>
public sealed record SceneFacts(
    int Index,
    Difficulty Difficulty,
    int Number,
    double PixelsPerMm,
    double LensBlurPixels,
    double CorePixels,
    double FloorBase,
    double FloorScattered,
    double Texture,
    double Albedo,
    double MotionBlur,
    int Debris,
    int Bubbles,
    int Moults,
    bool HasWall,
    double RipplePixels,
    double FullWell,
    double ReadNoise,
    double Sharpening,
    int JpegQuality
);
