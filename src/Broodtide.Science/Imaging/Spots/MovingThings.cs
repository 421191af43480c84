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

    public static MovingThings In(float[] frame, float[] still, GridShape shape, Clearness clearness)
    {
        var (raised, above) = (new float[shape.Count], new float[shape.Count]);
        Lanes.Subtract(frame, still, raised);
        Blur.Gaussian(raised, shape, Smoothing, above);
        var usual = Levels.Quantile(above, 0.5);
        // Of a normal distribution 16 % lie below the mean less one standard deviation.
        var noise = Math.Max(LeastNoise, usual - Levels.Quantile(above, 0.16));
        var marked = Marked(above, shape, usual, noise);

        Blur.Gaussian(raised, shape, TopSmoothing, above);
        for (var i = 0; i < above.Length; i++)
        {
            above[i] = marked[i] == 0 ? float.NegativeInfinity : above[i];
        }

        var labels = new int[shape.Count];
        var wholes = Components.Measure(labels, shape, Components.Label(marked, shape, labels));
        var areas = wholes.Select(whole => whole.Area).Where(area => area >= LeastPixels).Order().ToList();
        if (areas.Count == 0)
        {
            return new([], 0, 0, 0, noise);
        }

        double unit = areas[areas.Count / 2];
        var parts = Parts
            .Of(above, shape, marked, Standing * noise)
            .ToLookup(part => labels[part.Top] - 1, part => part.Thing);
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

        var (kept, clear) = clearness.Of(things, frame, noise);
        return new(kept, unit, things.Count, clear, noise);
    }

    private static byte[] Marked(float[] above, GridShape shape, double usual, double noise)
    {
        var (low, high) = ((float)(usual - (4 * noise)), (float)(usual + (4 * noise)));
        var tame = Array.ConvertAll(above, value => Math.Clamp(value, low, high));
        var (mean, deviation) = (new float[shape.Count], new float[shape.Count]);
        Levels.Local(tame, shape, Surroundings, mean, deviation);
        var marked = new byte[shape.Count];
        for (var i = 0; i < marked.Length; i++)
        {
            var level = Math.Max(AboveNoise * noise, AboveSurroundings * deviation[i]);
            marked[i] = (byte)(above[i] - mean[i] > level ? 1 : 0);
        }

        return marked;
    }
}
