namespace Broodtide.Scenes;

/// <summary>The torch's light, the floor under it, and what is common to all larvae of a scene.</summary>
public sealed record LightField(
    Spot At,
    double Core,
    double HaloShare,
    double Gathering,
    double FloorBase,
    double Scattered,
    double Texture,
    double TexturePixels,
    double MedianLengthMm,
    double Albedo,
    double StepMm,
    double Glow
)
{
    private const double TooBrightChance = 1 / 16.0;

    public static LightField Of(Dice dice, int width, int height, double scale) =>
        new(
            new(width * dice.Next(0.28, 0.72), height * dice.Next(0.28, 0.72)),
            dice.Next(70, 200) * scale,
            dice.Next(0.2, 0.45),
            dice.Next(60, 170) * scale,
            dice.Next(0.006, 0.03),
            dice.Next(0.03, 0.12) * (dice.Happens(TooBrightChance) ? dice.Next(5, 15) : 1),
            dice.Next(0.05, 0.18),
            dice.Next(3, 14) * scale,
            dice.Next(1.5, 3.2),
            dice.Next(0.25, 0.55),
            dice.Next(0.55, 0.9),
            dice.Next(0.02, 0.12)
        );

    /// <summary>1 in the middle of the core; a long tail beyond it.</summary>
    public double Of(double x, double y)
    {
        var (u, v) = (x - At.X, y - At.Y);
        var square = ((u * u) + (v * v)) / (Core * Core);
        return ((1 - HaloShare) * Math.Exp(-square / 2)) + (HaloShare / (1 + (square / 12)));
    }
}

/// <summary>Ripples of the surface shift what lies below by a wave that runs on from frame to frame.</summary>
public sealed record RippleField(double Amplitude, double WaveX, double WaveY, IReadOnlyList<double> Phases)
{
    public static RippleField Of(Dice dice, double most, double scale)
    {
        var (wave, along) = (2 * Math.PI / (dice.Next(60, 250) * scale), dice.Angle());
        return new(
            dice.Next(0, most),
            wave * Math.Cos(along),
            wave * Math.Sin(along),
            [.. Enumerable.Range(0, 16).Select(_ => dice.Angle())]
        );
    }

    public double Of(double x, double y, int frame) =>
        Amplitude * Math.Sin((WaveX * x) + (WaveY * y) + Phases[frame]);
}
