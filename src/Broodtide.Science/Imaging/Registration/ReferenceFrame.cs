using Broodtide.Units;

namespace Broodtide.Science.Imaging.Registration;

/// <summary>
/// The frame that others are laid over. The map is corrected step by step until the correlation of the textures grows no
/// more, from a coarse level of a pyramid to a fine one: a Gauss-Newton method that moves the reference in the mind (Baker
/// and Matthews 2004, Int. J. Comput. Vis. 56:221, the inverse compositional way) and compares what is left after mean and
/// contrast are made equal, so that neither brightness nor exposure counts (the aim of Evangelidis and Psarakis 2008, IEEE
/// Trans. Pattern Anal. Mach. Intell. 30:1858). A frame out of focus lacks fine texture: coarse levels carry it.
/// </summary>
public sealed class ReferenceFrame
{
    /// <summary>The shortest side of a picture that can be registered, in pixels.</summary>
    public const int ShortestSide = 32;

    /// <summary>Below this correlation of their textures two pictures are of different scenes.</summary>
    public const double LeastCorrelation = 0.7;

    // Twelve megapixels are looked at with a quarter of their sides: a fiftieth of a pixel there is less than a tenth.
    private const int MostPixels = 1_200_000;
    private const int LeastSide = 16;
    private const int TellingSide = 64;
    private const int MostSteps = 25;

    // Steps end when no corner moves by more, in pixels of the level.
    private const double Settled = 0.003;

    private readonly List<(ReferenceLevel Level, int Factor)> _levels;
    private readonly GridShape _shape;

    private ReferenceFrame(GridShape shape, List<(ReferenceLevel, int)> levels) =>
        (_shape, _levels) = (shape, levels);

    /// <summary>A frame to compare others with.</summary>
    /// <param name="grey">Its brightness.</param>
    /// <param name="shape">Its shape, no side below <see cref="ShortestSide"/>.</param>
    /// <param name="movement">What the frames may differ by.</param>
    /// <exception cref="ArgumentException">The grid has another shape, or the shape is too small.</exception>
    public static ReferenceFrame Of(float[] grey, GridShape shape, Movement movement)
    {
        return Building(grey, shape, movement).Last()!;
    }

    /// <summary><see cref="Of"/> with pauses: the last is the answer.</summary>
    internal static IEnumerable<ReferenceFrame?> Building(float[] grey, GridShape shape, Movement movement)
    {
        shape.MustFit<float>(grey);
        if (Math.Min(shape.Across, shape.Down) < ShortestSide)
        {
            throw new ArgumentException("No side may be shorter than 32 pixels.", nameof(shape));
        }

        var levels = new List<(ReferenceLevel, int)>();
        foreach (var (level, factor) in Textured.Levels(grey, shape, MostPixels, LeastSide))
        {
            if (level is not null)
            {
                yield return null;
                levels.Add((new(level, movement), factor));
            }

            yield return null;
        }

        yield return new(shape, levels);
    }

    /// <summary>How a frame lies over this one.</summary>
    /// <param name="grey">Its brightness; of the same shape as this one.</param>
    /// <param name="start">Where it is thought to lie; none for right on top.</param>
    /// <returns>The map; or none, with the code frame-of-another-scene (correlation).</returns>
    /// <exception cref="ArgumentException">The grid has another shape.</exception>
    public Parsed<Registered> Register(float[] grey, AffineMap? start = null)
    {
        Registered? found = null;
        foreach (var step in Steps(grey, start))
        {
            found = step ?? found;
        }

        return Judged(found!);
    }

    /// <summary>The same, one correction a step; the last step alone gives the answer, which is to be judged.</summary>
    /// <inheritdoc cref="Register"/>
    public IEnumerable<Registered?> Steps(float[] grey, AffineMap? start = null)
    {
        _shape.MustFit<float>(grey);
        return Walk(grey, start);
    }

    /// <summary>An answer, or the reason why the frames have nothing in common.</summary>
    public static Parsed<Registered> Judged(Registered found) =>
        found.Correlation >= LeastCorrelation
            ? Parsed<Registered>.Of(found)
            : Parsed<Registered>.No(
                "frame-of-another-scene",
                new Argument("correlation", Math.Round(found.Correlation, 2))
            );

    private IEnumerable<Registered?> Walk(float[] grey, AffineMap? start)
    {
        var frame = new List<(Textured Level, int Factor)>();
        foreach (var (level, factor) in Textured.Levels(grey, _shape, MostPixels, LeastSide))
        {
            if (level is not null)
            {
                frame.Add((level, factor));
            }

            yield return null;
        }

        var (best, steps) = (-1.0, 0);
        var map = start ?? AffineMap.Identity;
        for (var i = _levels.Count - 1; i >= 0; i--)
        {
            var (level, factor) = _levels[i];
            var seen = frame[i].Level.Grid;
            var here = map.Between(factor);
            if (i == _levels.Count - 1)
            {
                here = level.Nearer(seen, here);
            }

            var compared = default(Compared)!;
            foreach (var part in level.Comparing(seen, here))
            {
                compared = part;
                yield return null;
            }

            for (var step = 0; step < MostSteps; step++)
            {
                steps++;
                var next = level.Corrected(compared, here);
                var moved = next.Apart(here, level.Shape);
                var then = compared;
                foreach (var part in level.Comparing(seen, next))
                {
                    then = part;
                    yield return null;
                }

                if (then.Correlation < compared.Correlation)
                {
                    break;
                }

                (here, compared) = (next, then);
                if (moved < Settled)
                {
                    break;
                }
            }

            // So few pixels agree by chance.
            var isTelling = i == 0 || Math.Min(level.Shape.Across, level.Shape.Down) >= TellingSide;
            best = isTelling ? Math.Max(best, compared.Correlation) : best;
            map = here.Between(1.0 / factor);
        }

        yield return new(map, best, steps);
    }
}
