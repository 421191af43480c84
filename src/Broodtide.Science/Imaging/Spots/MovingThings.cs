namespace Broodtide.Science.Imaging.Spots;

/// <summary>What stands above the still ground in one frame.</summary>
/// <param name="Regions">What is taken for a swimmer.</param>
/// <param name="UnitArea">Pixels of one thing.</param>
/// <param name="Stood">How many stood out, swimmers or not.</param>
/// <param name="Clear">How many of the swimmers are clear.</param>
/// <param name="Noise">Standard deviation of the noise that they stand out from.</param>
internal sealed record MovingThings(
    IReadOnlyList<Region> Regions,
    double UnitArea,
    int Stood,
    int Clear,
    double Noise
)
{
    /// <summary>How many stood out and were taken for no swimmer.</summary>
    public int Left => Stood - Regions.Count;

    // In pixels of the picture looked at, and standard deviations of the noise. Chosen once on the scenes with known
    // truth that docs/science/looking.md lists; never by the name of a file or a set.
    private const double Smoothing = 1;
    private const double TopSmoothing = 1.3;
    private const int Surroundings = 40;
    private const double AboveNoise = 5;
    private const double AboveSurroundings = 2.5;
    private const double Standing = 4;

    // Smaller than this is a speck of noise; shares are of the median area of all that is larger.
    private const int LeastPixels = 6;
    private const double LeastShare = 0.25;
    private const double PartedFrom = 1.5;

    // The rounding to whole grey levels leaves about so much after smoothing.
    private const double LeastNoise = 0.01;

    private const int ValueFetches = 8;

    /// <summary>What stands above the ground, with pauses: the last is the answer.</summary>
    public static IEnumerable<MovingThings?> Steps(
        float[] frame,
        float[] still,
        GridShape shape,
        Clearness clearness
    )
    {
        var (raised, above) = (new float[shape.Count], new float[shape.Count]);
        Lanes.Subtract(frame, still, raised);
        foreach (var _ in Blur.GaussianSteps(raised, shape, Smoothing, above))
        {
            yield return null;
        }

        var (usual, low) = (0f, 0f);
        foreach (var step in Levels.QuantileSteps(above, 0.5))
        {
            usual = step;
            yield return null;
        }

        foreach (var step in Levels.QuantileSteps(above, 0.16))
        {
            low = step;
            yield return null;
        }

        // Of a normal distribution 16 % lie below the mean less one standard deviation.
        var noise = Math.Max(LeastNoise, usual - low);
        var marked = new byte[shape.Count];
        foreach (var _ in Mark(above, shape, usual, noise, marked))
        {
            yield return null;
        }

        foreach (var _ in Blur.GaussianSteps(raised, shape, TopSmoothing, above))
        {
            yield return null;
        }

        foreach (var (from, to) in Bands.Along(shape.Count, ValueFetches))
        {
            for (var i = from; i < to; i++)
            {
                above[i] = marked[i] == 0 ? float.NegativeInfinity : above[i];
            }

            yield return null;
        }

        var labels = new int[shape.Count];
        var count = 0;
        foreach (var step in Components.Steps(marked, shape, labels))
        {
            count = step;
            yield return null;
        }

        var wholes = Components.Measure(labels, shape, count);
        yield return null;
        var areas = wholes.Select(whole => whole.Area).Where(area => area >= LeastPixels).Order().ToList();
        if (areas.Count == 0)
        {
            yield return new([], 0, 0, 0, noise);
            yield break;
        }

        double unit = areas[areas.Count / 2];
        IReadOnlyList<(Region Thing, int Top)> found = [];
        foreach (var step in Spots.Parts.Steps(above, shape, marked, Standing * noise))
        {
            found = step;
            yield return null;
        }

        var parts = found.ToLookup(part => labels[part.Top] - 1, part => part.Thing);
        var things = new List<Region>();
        for (var whole = 0; whole < wholes.Count; whole++)
        {
            var large = parts[whole].Where(part => part.Area >= LeastShare * unit).ToList();
            if (wholes[whole].Area < LeastShare * unit)
            {
                continue;
            }

            things.AddRange(
                wholes[whole].Area < PartedFrom * unit || large.Count == 0 ? [wholes[whole]] : large
            );
        }

        foreach (var _ in Clearness.Standing(frame, shape, raised))
        {
            yield return null;
        }

        var (kept, clear) = clearness.Of(things, raised, noise);
        yield return new(kept, unit, things.Count, clear, noise);
    }

    private static IEnumerable<Pause> Mark(
        float[] above,
        GridShape shape,
        double usual,
        double noise,
        byte[] marked
    )
    {
        var (low, high) = ((float)(usual - (4 * noise)), (float)(usual + (4 * noise)));
        var tame = new float[shape.Count];
        foreach (var (from, to) in Bands.Along(shape.Count, ValueFetches))
        {
            for (var i = from; i < to; i++)
            {
                tame[i] = Math.Clamp(above[i], low, high);
            }

            yield return default;
        }

        var (mean, deviation) = (new float[shape.Count], new float[shape.Count]);
        foreach (var pause in Levels.LocalSteps(tame, shape, Surroundings, mean, deviation))
        {
            yield return pause;
        }

        yield return default;
        foreach (var (from, to) in Bands.Along(shape.Count, ValueFetches))
        {
            for (var i = from; i < to; i++)
            {
                var level = Math.Max(AboveNoise * noise, AboveSurroundings * deviation[i]);
                marked[i] = (byte)(above[i] - mean[i] > level ? 1 : 0);
            }

            yield return default;
        }
    }
}
