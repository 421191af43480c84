namespace Broodtide.Science.Imaging.Spots;

/// <summary>
/// Tells swimmers from what only seems to move: edges of bright dirt under ripples, bubbles, moults that drift. A clear
/// swimmer is large enough, longer than wide (but where nearly all are round), stands far above the noise, and the ground under it is not nearly as bright.
/// Of the doubtful ones as many of the clearest are kept as there are usually beside the clear ones.
/// </summary>
internal sealed class Clearness
{
    // In pixels of the picture looked at, and shares. Chosen once on invented scenes of the seeds that
    // docs/science/looking.md names for it; never by the name of a file or a set.
    public const int LeastArea = 25;
    private const double LeastLonger = 1.3;
    private const double AboveNoise = 8;
    private const int FewestRound = 10;
    private const double MostGround = 0.6;
    private const double DoubtfulKept = 0.2;

    // Where so many are clear, dirt that seems to move is few beside the swimmers: one more doubtful one for each.
    private const int Many = 15;
    private const double Smoothing = 1;
    private const int Surroundings = 15;
    private const int Near = 2;
    private const int About = 5;

    private readonly float[] _standing;
    private readonly GridShape _shape;

    /// <summary>The ground that lies still, as <see cref="Standing"/> sees it.</summary>
    public Clearness(float[] standing, GridShape shape) => (_standing, _shape) = (standing, shape);

    /// <summary>What is kept, and how many of it are clear; the frame as <see cref="Standing"/> sees it.</summary>
    public (List<Region> Kept, int Clear) Of(IReadOnlyList<Region> things, float[] here, double noise)
    {
        var strong = things
            .Select(thing => (Thing: thing, Height: Highest(here, thing, Near)))
            .ToLookup(found =>
                found.Thing.Area >= LeastArea
                && found.Height > AboveNoise * noise
                && Highest(_standing, found.Thing, About) < MostGround * found.Height
            );
        // Where nearly all that is strong is round, round is what the things of this scene are.
        var isLong = strong[true]
            .Where(found => IsLong(found.Thing))
            .Select(found => found.Thing)
            .ToHashSet();
        var areRound = strong[true].Count() >= FewestRound && isLong.Count < strong[true].Count() / 2.0;
        var kept = new List<Region>();
        var doubtful = strong[false].ToList();
        foreach (var found in strong[true])
        {
            if (areRound || isLong.Contains(found.Thing))
            {
                kept.Add(found.Thing);
            }
            else
            {
                doubtful.Add(found);
            }
        }

        var clear = kept.Count;
        kept.AddRange(
            doubtful
                .OrderByDescending(found => found.Height * Math.Sqrt(found.Thing.Area))
                .Take((int)(DoubtfulKept * clear) + Math.Max(0, clear - Many))
                .Select(found => found.Thing)
        );
        return (kept, clear);
    }

    private static bool IsLong(Region thing) => thing.LongSigma > LeastLonger * thing.ShortSigma;

    /// <summary>Less its surroundings, fine noise blurred away, into a grid.</summary>
    public static IEnumerable<Pause> Standing(float[] grid, GridShape shape, float[] smooth)
    {
        var around = new float[grid.Length];
        foreach (var pause in Blur.GaussianSteps(grid, shape, Smoothing, smooth))
        {
            yield return pause;
        }

        foreach (var pause in Blur.BoxSteps(smooth, shape, Surroundings, around))
        {
            yield return pause;
        }

        Lanes.Subtract(smooth, around, smooth);
        yield return default;
    }

    private double Highest(float[] grid, Region thing, int reach)
    {
        var (x, y) = ((int)Math.Round(thing.CentreX), (int)Math.Round(thing.CentreY));
        var highest = float.MinValue;
        for (var v = Math.Max(0, y - reach); v <= Math.Min(_shape.Down - 1, y + reach); v++)
        {
            for (var u = Math.Max(0, x - reach); u <= Math.Min(_shape.Across - 1, x + reach); u++)
            {
                highest = Math.Max(highest, grid[(v * _shape.Across) + u]);
            }
        }

        return highest;
    }
}
