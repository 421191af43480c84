using Broodtide.Units;

namespace Broodtide.Science.Imaging.Spots;

/// <summary>
/// Counts bright things on dark in one picture: the level of the surroundings is taken away, what is above Otsu's level
/// is parted by a watershed from tops that are both far from the edge and bright as a blob of the things' own size. That
/// size is found in the picture. Still things that are no larvae count as well, and so do bubbles.
/// </summary>
public static class PhotoSpots
{
    // Dark specks for each bright thing from which on it is grain.
    private const double MostDark = 0.5;

    // So many doubtful things are said: our choice.
    private const double DoubtfulWorthSaying = 0.2;

    // Things longer than this share of the shorter side are no larvae in their water.
    private const double MostLarge = 0.3;

    /// <summary>How many there are.</summary>
    /// <param name="grey">Brightness, 0 to 255.</param>
    /// <param name="shape">The shape, at least 16 by 16.</param>
    /// <returns>
    /// The count; or none, with a code: picture-too-small, picture-too-bright (whitePercent), nothing-stands-out,
    /// ground-not-dark (brightPercent), only-large-things (sharePercent), or only-grain (darkPercent) where dark specks stand
    /// out as often as bright ones.
    /// </returns>
    /// <exception cref="ArgumentException">The grid has another shape, or a value is not finite.</exception>
    public static Parsed<SpotCount> Count(ReadOnlySpan<float> grey, GridShape shape)
    {
        return PhotoFitness.Unfit(grey, shape) is { } reason
            ? Parsed<SpotCount>.No(reason)
            : Counting(LookedAt.From(grey, shape), PhotoFitness.ShareWhite(grey)).Last()!;
    }

    /// <summary>The same in steps of some hundredths of a second: nothing until the last, which is the answer.</summary>
    /// <inheritdoc cref="Count"/>
    public static IEnumerable<Parsed<SpotCount>?> Steps(float[] grey, GridShape shape)
    {
        if (PhotoFitness.Unfit(grey, shape) is { } reason)
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

        foreach (var step in Counting(picture!, PhotoFitness.ShareWhite(grey)))
        {
            yield return step;
        }
    }

    private static IEnumerable<Parsed<SpotCount>?> Counting(LookedAt picture, double white)
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

        var found = new PhotoThings([], 0, 0);
        foreach (var step in PhotoThings.Steps(picture, radius, noise))
        {
            found = step;
            yield return null;
        }

        if (found!.Things.Count > 0)
        {
            // Once more with the size of what was found.
            radius = Math.Max(1.5, Math.Sqrt(PhotoThings.MiddleArea(found.Things) / Math.PI));
            foreach (var step in PhotoThings.Steps(picture, radius, noise))
            {
                found = step;
                yield return null;
            }
        }

        yield return Told(picture, white, radius, found!);
    }

    private static Parsed<SpotCount> Told(LookedAt picture, double white, double radius, PhotoThings found)
    {
        if (found.Dark > MostDark)
        {
            return Parsed<SpotCount>.No(
                "only-grain",
                new Argument("darkPercent", Math.Round(100 * found.Dark))
            );
        }

        if (LargestShare(picture, found) is var large and > MostLarge)
        {
            return Parsed<SpotCount>.No(
                "only-large-things",
                new Argument("sharePercent", Math.Round(100 * large))
            );
        }

        var marks = found.Things.Select(thing => picture.Mark(thing)).ToList();
        var hidden = Crowding.ShareHidden(marks, Math.PI * radius * radius * picture.Factor * picture.Factor);
        var doubtful = found.Doubtful;
        var remarks = new List<Remark> { new("one-photo-holds-what-lies-still") };
        if (doubtful > DoubtfulWorthSaying)
        {
            remarks.Add(
                new("photo-holds-doubtful", new Argument("doubtfulPercent", Math.Round(100 * doubtful)))
            );
        }

        if (white > PhotoFitness.MuchWhite)
        {
            remarks.Add(Advice.CoreTooBright(white));
        }

        remarks.AddRange(Advice.Of(picture.Grid, picture.Shape, found.Things));
        if (hidden > 0.1)
        {
            remarks.Add(new("count-crowded", new Argument("hiddenPercent", Math.Round(100 * hidden))));
        }

        // The size of what was found and the marks come from the same things, so what is hidden is told, not added.
        return Parsed<SpotCount>.Of(
            new(Spread.OfOnePhoto(marks.Count, hidden, doubtful), marks, hidden, remarks)
        );
    }

    // The length of the middle thing beside the shorter side of the picture; four standard deviations are that of an ellipse.
    private static double LargestShare(LookedAt picture, PhotoThings found)
    {
        var lengths = found.Things.Select(thing => 4 * thing.LongSigma).Order().ToList();
        return lengths.Count > 0
            ? lengths[lengths.Count / 2] / Math.Min(picture.Shape.Across, picture.Shape.Down)
            : 0;
    }
}
