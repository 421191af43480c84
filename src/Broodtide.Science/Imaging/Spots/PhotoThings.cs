namespace Broodtide.Science.Imaging.Spots;

/// <summary>What stands out in one photo.</summary>
/// <param name="Things">The things, parted where they touch.</param>
/// <param name="Dark">Dark specks that stand out as far, for each thing.</param>
/// <param name="Doubtful">The share of things that are much dimmer or much smaller than the middle one.</param>
internal sealed record PhotoThings(IReadOnlyList<Region> Things, double Dark, double Doubtful)
{
    // All in radii of one thing, or shares of its area. Chosen once on the pictures with known truth that
    // docs/science/looking.md lists; never by the name of a file or a set.
    private const double Smoothing = 0.15;
    private const double Surroundings = 3;
    private const double BlobSize = 0.8;
    private const double DistanceSmoothing = 0.2;
    private const double DistanceWeight = 0.5;
    private const double Standing = 0.05;
    private const double LeastArea = 0.15;
    private const double LeastAreaAtEdge = 0.06;
    private const double NoiseLevels = 4;

    private const int ValueFetches = 8;

    // Half as bright or half as large as the middle thing is doubtful: our choice.
    private const double HalfOfMiddle = 0.5;

    /// <summary>The things of a picture, with pauses: the last is the answer.</summary>
    public static IEnumerable<PhotoThings?> Steps(LookedAt picture, double radius, double noise)
    {
        var (grid, shape) = (picture.Grid, picture.Shape);
        var (raised, around) = (new float[shape.Count], new float[shape.Count]);
        foreach (
            var _ in Blur.GaussianSteps(grid, shape, Math.Max(0.5, Smoothing * radius), raised)
                .Concat(Blur.BoxSteps(raised, shape, (int)Math.Round(Surroundings * radius), around))
        )
        {
            yield return null;
        }

        Lanes.Subtract(raised, around, raised);
        var level = Math.Max(Levels.Otsu(raised), NoiseLevels * noise / radius);
        yield return null;
        var (marked, tops) = (new byte[shape.Count], new float[shape.Count]);
        foreach (var (from, to) in Bands.Along(shape.Count, ValueFetches))
        {
            for (var i = from; i < to; i++)
            {
                marked[i] = (byte)(raised[i] > level ? 1 : 0);
            }

            yield return null;
        }

        foreach (var _ in Distance.Steps(marked, shape, around))
        {
            yield return null;
        }

        for (var i = 0; i < around.Length; i++)
        {
            around[i] = float.IsInfinity(around[i]) ? 0 : around[i];
        }

        yield return null;
        foreach (
            var _ in Blur.GaussianSteps(around, shape, Math.Max(0.5, DistanceSmoothing * radius), tops)
                .Concat(Blobs.Steps(grid, shape, Math.Max(0.5, BlobSize * radius / Math.Sqrt(2)), raised))
        )
        {
            yield return null;
        }

        var bright = 0f;
        foreach (var step in Levels.QuantileSteps(raised, 0.99))
        {
            bright = Math.Max(1e-3f, step);
            yield return null;
        }

        foreach (var (from, to) in Bands.Along(shape.Count, ValueFetches))
        {
            for (var i = from; i < to; i++)
            {
                tops[i] =
                    marked[i] == 0
                        ? float.NegativeInfinity
                        : (float)((DistanceWeight * tops[i] / radius) + (raised[i] / bright));
            }

            yield return null;
        }

        var whole = Math.PI * radius * radius;
        IReadOnlyList<(Region Thing, int Top)> all = [];
        foreach (var step in Parts.Steps(tops, shape, marked, Standing))
        {
            all = step;
            yield return null;
        }

        var parts = all.Where(part =>
                part.Thing.Area >= (part.Thing.TouchesEdge ? LeastAreaAtEdge : LeastArea) * whole
            )
            .ToList();
        var dark = 0.0;
        foreach (var step in DarkSteps(raised, shape, parts))
        {
            dark = step;
            yield return null;
        }

        yield return new([.. parts.Select(part => part.Thing)], dark, ShareDoubtful(raised, parts));
    }

    // Grain is as dark as it is bright: how many dark specks stand out at least as far as half of the things do, for
    // each thing of that half.
    private static IEnumerable<double> DarkSteps(
        float[] answer,
        GridShape shape,
        List<(Region Thing, int Top)> parts
    )
    {
        if (parts.Count == 0)
        {
            yield return 0;
            yield break;
        }

        var usual = parts.Select(part => answer[part.Top]).Order().ElementAt(parts.Count / 2);
        var turned = new float[answer.Length];
        Lanes.Scale(answer, -1, turned);
        var peaks = 0;
        foreach (var rows in Bands.Of(shape, SpotScale.PeakFetches))
        {
            peaks += SpotScale.Peaks(turned, shape, Math.Max(usual, 1e-6), rows).Count();
            yield return 0;
        }

        yield return peaks / (parts.Count / 2.0);
    }

    /// <summary>The area of which half of all marked pixels are in smaller things.</summary>
    public static double MiddleArea(IReadOnlyList<Region> things)
    {
        var areas = things.Select(thing => thing.Area).Order().ToList();
        var half = areas.Sum() / 2.0;
        return areas.First(area => (half -= area) <= 0);
    }

    // The share of things that are much dimmer or much smaller than the middle one.
    private static double ShareDoubtful(float[] answer, List<(Region Thing, int Top)> parts)
    {
        if (parts.Count == 0)
        {
            return 0;
        }

        var height = parts.Select(part => answer[part.Top]).Order().ElementAt(parts.Count / 2);
        var area = parts.Select(part => part.Thing.Area).Order().ElementAt(parts.Count / 2);
        return parts.Count(part =>
                answer[part.Top] < HalfOfMiddle * height || part.Thing.Area < HalfOfMiddle * area
            ) / (double)parts.Count;
    }
}
