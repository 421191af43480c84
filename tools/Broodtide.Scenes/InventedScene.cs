namespace Broodtide.Scenes;

/// <summary>
/// Larvae about a torch's beam, invented: what is in the scene and where in each frame. Ranges are those given for the
/// synthetic sets of this project, widened by a very bright core in one scene of sixteen; none comes from a living larva.
/// </summary>
public sealed class InventedScene
{
    /// <summary>The largest number of larvae; the least is 1, but for one scene in twenty without any.</summary>
    public const int MostLarvae = 260;

    private const double StillShare = 0.1;
    private const double GatheredShare = 0.85;
    private const double EdgePixels = 8;

    private readonly Dice _dice;
    private readonly Limits _limits;

    /// <summary>Scene number <paramref name="index"/> of a seed.</summary>
    public InventedScene(int seed, int index, int frames = 5, bool isLarge = false)
    {
        _dice = new(((long)seed << 32) + index);
        var difficulty = (Difficulty)(index % 3);
        _limits = Limits.Of(difficulty);
        (Width, Height) = isLarge ? (4000, 3000) : (1200, 900);
        Scale = Width / 1200.0;
        var perMm = isLarge ? _dice.Next(15, 30) : _dice.Next(5, 8);
        var number = index % 20 == 19 ? 0 : (int)Math.Round(_dice.LogUniform(1, MostLarvae));
        Light = LightField.Of(_dice, Width, Height, Scale);
        WallAt = _dice.Happens(_limits.WallChance) ? _dice.Next(0.05, 0.2) * Width : null;
        WallBrightness = _dice.Next(0.15, 0.45);
        Larvae = [.. Enumerable.Range(0, number).Select(_ => ALarva(perMm))];
        var motion = _dice.Next(0, _limits.MotionBlurLengths);
        Poses = Swum(frames, motion);
        Nuisances = Drawing.Nuisances(_dice, _limits, this, perMm, number);
        Ripple = RippleField.Of(_dice, _limits.RipplePixels * Scale, Scale);
        Camera = CameraFacts.Of(_dice, _limits, Scale, frames);
        Facts = new(
            index,
            difficulty,
            number,
            perMm,
            Camera.LensBlur,
            Light.Core,
            Light.FloorBase,
            Light.Scattered,
            Light.Texture,
            Larvae.Count > 0 ? Larvae.Average(larva => larva.Albedo) : 0,
            motion,
            Nuisances.Count(thing => thing.Kind == NuisanceKind.Debris),
            Nuisances.Count(thing => thing.Kind == NuisanceKind.Bubble),
            Nuisances.Count(thing => thing.Kind == NuisanceKind.Moult),
            WallAt is not null,
            Ripple.Amplitude,
            Camera.FullWell,
            Camera.ReadNoise,
            Camera.Sharpening,
            Camera.JpegQuality
        );
        NoiseSeed = _dice.Whole(0, int.MaxValue - 1);
    }

    public int Width { get; }

    public int Height { get; }

    /// <summary>Times as wide as the pictures for which ranges in pixels were given.</summary>
    public double Scale { get; }

    public LightField Light { get; }

    /// <summary>Left of it lies the wall with the mirror images; none without.</summary>
    public double? WallAt { get; }

    public double WallBrightness { get; }

    public IReadOnlyList<Larva> Larvae { get; }

    /// <summary>Each larva in each frame.</summary>
    public IReadOnlyList<LarvaPose[]> Poses { get; }

    public IReadOnlyList<Nuisance> Nuisances { get; }

    public RippleField Ripple { get; }

    public CameraFacts Camera { get; }

    public SceneFacts Facts { get; }

    public int NoiseSeed { get; }

    /// <summary>A place: most gather at the beam.</summary>
    public Spot APlace()
    {
        var at = _dice.Happens(GatheredShare)
            ? new Spot(Light.At.X + _dice.Normal(Light.Gathering), Light.At.Y + _dice.Normal(Light.Gathering))
            : new Spot(_dice.Next(0, Width), _dice.Next(0, Height));
        return Within(at);
    }

    private Larva ALarva(double perMm)
    {
        var length = Math.Clamp(_dice.LogNormal(Light.MedianLengthMm, 0.18), 1, 5);
        return new(
            length * perMm,
            Math.Clamp(Light.Albedo + _dice.Normal(0.1 / 2), 0.08, 0.8),
            _dice.Whole(0, 2),
            _dice.Normal(0.8),
            _dice.Happens(StillShare),
            Light.StepMm * perMm
        );
    }

    private List<LarvaPose[]> Swum(int frames, double motion)
    {
        var at = Larvae.Select(_ => APlace()).ToArray();
        var heading = Larvae.Select(_ => _dice.Angle()).ToArray();
        var poses = new List<LarvaPose[]>();
        for (var frame = 0; frame < frames; frame++)
        {
            var now = new LarvaPose[Larvae.Count];
            for (var i = 0; i < now.Length; i++)
            {
                var larva = Larvae[i];
                if (frame > 0 && !larva.LiesStill)
                {
                    var toBeam = Math.Atan2(Light.At.Y - at[i].Y, Light.At.X - at[i].X);
                    var apart = Math.IEEERemainder(toBeam - heading[i], 2 * Math.PI);
                    heading[i] += (0.3 * apart) + _dice.Normal(0.9);
                    var step = _dice.GammaTwo() * larva.StepPixels;
                    at[i] = Within(
                        new(at[i].X + (step * Math.Cos(heading[i])), at[i].Y + (step * Math.Sin(heading[i])))
                    );
                }

                var (smear, along) = (
                    larva.LiesStill ? 0 : _dice.Next(0, motion) * larva.LengthPixels,
                    _dice.Angle()
                );
                now[i] = new(
                    at[i],
                    heading[i],
                    larva.Bend + (larva.LiesStill ? 0 : _dice.Normal(0.25)),
                    new(smear * Math.Cos(along), smear * Math.Sin(along))
                );
            }

            poses.Add(now);
        }

        return poses;
    }

    private Spot Within(Spot at) =>
        new(
            Mirrored(at.X, (WallAt ?? 0) + EdgePixels, Width - EdgePixels),
            Mirrored(at.Y, EdgePixels, Height - EdgePixels)
        );

    // Turned back at the edge.
    private static double Mirrored(double at, double low, double high)
    {
        at = at < low ? (2 * low) - at : at;
        at = at > high ? (2 * high) - at : at;
        return Math.Clamp(at, low, high);
    }
}
