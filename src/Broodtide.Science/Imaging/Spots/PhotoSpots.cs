using System.Numerics;
using System.Runtime.InteropServices;
using Broodtide.Units;

namespace Broodtide.Science.Imaging.Spots;

/// <summary>
/// Counts bright things on dark in one picture: the level of the surroundings is taken away, what is above Otsu's level
/// is parted by a watershed from tops that are both far from the edge and bright as a blob of the things' own size. That
/// size is found in the picture. Still things that are no larvae count as well, and so do bubbles.
/// </summary>
public static class PhotoSpots
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

    // Dark specks for each bright thing from which on it is grain.
    private const double MostDark = 0.5;

    // Share of the pixels from which on a picture is called too bright, and the brightness that is called white.
    private const double MostWhite = 0.5;
    private const float White = 250;

    /// <summary>How many there are.</summary>
    /// <param name="grey">Brightness, 0 to 255.</param>
    /// <param name="shape">The shape, at least 16 by 16.</param>
    /// <returns>
    /// The count; or none, with a code: picture-too-small, picture-too-bright (whitePercent), nothing-stands-out, or
    /// only-grain (darkPercent) where dark specks stand out as often as bright ones.
    /// </returns>
    /// <exception cref="ArgumentException">The grid has another shape, or a value is not finite.</exception>
    public static Parsed<SpotCount> Count(ReadOnlySpan<float> grey, GridShape shape)
    {
        return Unfit(grey, shape) is { } reason
            ? Parsed<SpotCount>.No(reason)
            : Counting(LookedAt.From(grey, shape)).Last()!;
    }

    /// <summary>The same in steps of some hundredths of a second: nothing until the last, which is the answer.</summary>
    /// <inheritdoc cref="Count"/>
    public static IEnumerable<Parsed<SpotCount>?> Steps(float[] grey, GridShape shape)
    {
        if (Unfit(grey, shape) is { } reason)
        {
            yield return Parsed<SpotCount>.No(reason);
            yield break;
        }

        LookedAt? picture = null;
        foreach (var step in LookedAt.Steps(grey, shape))
        {
            picture = step;
            yield return null;
        }

        foreach (var step in Counting(picture!))
        {
            yield return step;
        }
    }

    private static IEnumerable<Parsed<SpotCount>?> Counting(LookedAt picture)
    {
        var noise = 0.0;
        foreach (var step in Levels.NoiseSteps(picture.Grid, picture.Shape))
        {
            noise = step;
            yield return null;
        }

        var radius = 0.0;
        foreach (var step in SpotScale.Steps(picture.Grid, picture.Shape, noise))
        {
            radius = step;
            yield return null;
        }

        var found = new Found([], 0);
        foreach (var step in Things(picture, radius, noise))
        {
            found = step;
            yield return null;
        }

        if (found!.Things.Count > 0)
        {
            // Once more with the size of what was found.
            radius = Math.Max(1.5, Math.Sqrt(MiddleArea(found.Things) / Math.PI));
            foreach (var step in Things(picture, radius, noise))
            {
                found = step;
                yield return null;
            }
        }

        yield return Told(picture, radius, found!);
    }

    private static Parsed<SpotCount> Told(LookedAt picture, double radius, Found found)
    {
        if (found.Dark > MostDark)
        {
            return Parsed<SpotCount>.No(
                "only-grain",
                new Argument("darkPercent", Math.Round(100 * found.Dark))
            );
        }

        var marks = found.Things.Select(thing => picture.Mark(thing)).ToList();
        var hidden = Crowding.ShareHidden(marks, Math.PI * radius * radius * picture.Factor * picture.Factor);
        var remarks = new List<Remark> { new("one-photo-holds-what-lies-still") };
        if (hidden > 0.1)
        {
            remarks.Add(new("count-crowded", new Argument("hiddenPercent", Math.Round(100 * hidden))));
        }

        // The size of what was found and the marks come from the same things, so what is hidden is told, not added.
        return Parsed<SpotCount>.Of(
            new(Spread.Number(marks.Count, 0, Spread.OfPhoto + (hidden / 2), 0), marks, hidden, remarks)
        );
    }

    internal static Remark? Unfit(ReadOnlySpan<float> grey, GridShape shape)
    {
        shape.MustFit(grey);
        if (shape.Across < 16 || shape.Down < 16)
        {
            return new("picture-too-small");
        }

        var (white, low, high) = Lights(grey);
        // A few grey levels are the rounding of the camera.
        return white > MostWhite * grey.Length
                ? new(
                    "picture-too-bright",
                    new Argument("whitePercent", Math.Round(100.0 * white / grey.Length))
                )
            : high - low < 4 ? new("nothing-stands-out")
            : null;
    }

    /// <summary>Share of the pixels that are white.</summary>
    internal static double ShareWhite(ReadOnlySpan<float> grey) => (double)Lights(grey).White / grey.Length;

    // How many pixels are white, the darkest and the brightest.
    private static (int White, float Low, float High) Lights(ReadOnlySpan<float> grey)
    {
        var many = MemoryMarshal.Cast<float, Vector<float>>(grey);
        var (whites, lows, highs) = (
            Vector<int>.Zero,
            new Vector<float>(float.MaxValue),
            new Vector<float>(float.MinValue)
        );
        var bright = new Vector<float>(White);
        foreach (var value in many)
        {
            whites -= Vector.GreaterThanOrEqual(value, bright);
            (lows, highs) = (Vector.Min(lows, value), Vector.Max(highs, value));
        }

        var (white, low, high) = (Vector.Sum(whites), float.MaxValue, float.MinValue);
        for (var lane = 0; lane < Vector<float>.Count; lane++)
        {
            (low, high) = (Math.Min(low, lows[lane]), Math.Max(high, highs[lane]));
        }

        foreach (var value in grey[(many.Length * Vector<float>.Count)..])
        {
            white += value >= White ? 1 : 0;
            (low, high) = (Math.Min(low, value), Math.Max(high, value));
        }

        return (white, low, high);
    }

    // The last is the answer.
    private static IEnumerable<Found?> Things(LookedAt picture, double radius, double noise)
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
        foreach (var step in Dark(raised, shape, parts))
        {
            dark = step;
            yield return null;
        }

        yield return new([.. parts.Select(part => part.Thing)], dark);
    }

    // Grain is as dark as it is bright: how many dark specks stand out at least as far as half of the things do, for
    // each thing of that half.
    private static IEnumerable<double> Dark(
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

    // The area of which half of all marked pixels are in smaller things.
    private static double MiddleArea(List<Region> things)
    {
        var areas = things.Select(thing => thing.Area).Order().ToList();
        var half = areas.Sum() / 2.0;
        return areas.First(area => (half -= area) <= 0);
    }

    private sealed record Found(List<Region> Things, double Dark);
}
