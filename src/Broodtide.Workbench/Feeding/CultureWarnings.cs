using Broodtide.Domain.Vessels;
using Broodtide.Science.Food;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Feeding;

/// <summary>What warns of a crash: no law of growth knows one, so age and colour are watched beside the counts.</summary>
internal static class CultureWarnings
{
    // A batch is used up or thinned by then. Practice, no source.
    private const double OldDays = 14;

    // A count so far below what growth led to expect, in standard deviations: one culture in about 160 by chance.
    private const double FarBelow = -2.5;

    // So near to its capacity it hardly grows, and ages.
    private const double Full = 0.8;

    private static readonly Duration LookHolds = Duration.FromDays(7);

    /// <summary>Whether nothing is taken as food while this warns.</summary>
    public static bool ForbidsHarvest(string code) =>
        code is "culture-count-fell" or "culture-looks-bad" or "culture-went-clear" or "film-comes-off";

    public static IReadOnlyList<Remark> Of(CultureLog log, CultureGrowthBelief belief, Instant now) =>
        [.. Counts(belief), .. Looks(log, belief, now), .. Age(log, belief, now)];

    private static IEnumerable<Remark> Counts(CultureGrowthBelief belief)
    {
        if (belief.Counts is [.., _, { Off: < FarBelow } last])
        {
            yield return new Remark(
                "culture-count-fell",
                new("countedPerMillilitre", CultureFigures.Few(last.Density)),
                new("expectedPerMillilitre", CultureFigures.Few(last.Expected))
            );
        }
    }

    private static IEnumerable<Remark> Looks(CultureLog log, CultureGrowthBelief belief, Instant now)
    {
        if (log.Colour is { } colour && now - colour.At <= LookHolds)
        {
            if (
                colour.Look is WaterLook.Milky
                || (colour.Look is WaterLook.Brown && !CultureKnown.MayBeBrown(log.Described.Alga))
            )
            {
                yield return new Remark(
                    "culture-looks-bad",
                    new("look", colour.Look.ToString().ToLowerInvariant()),
                    new("seen", colour.At)
                );
            }
            else if (
                colour.Look is WaterLook.Clear
                && log.Counts.Count > 0
                && belief.Density.Middle > CultureKnown.Ready(log.Described.Alga)
                && log.Described.Alga is not (CultureKind.FilmDiatoms or CultureKind.Rotifers)
            )
            {
                yield return new Remark("culture-went-clear", new Argument("seen", colour.At));
            }
        }

        if (
            log is { Described.Alga: CultureKind.FilmDiatoms, Film: { Cover: FilmCover.Peeling } film }
            && now - film.At <= LookHolds
        )
        {
            yield return new Remark("film-comes-off", new Argument("seen", film.At));
        }
    }

    private static IEnumerable<Remark> Age(CultureLog log, CultureGrowthBelief belief, Instant now)
    {
        if (log.Described.Alga is CultureKind.FilmDiatoms)
        {
            yield break;
        }

        var since = log.LastThinned ?? log.Started;
        var days = (now - since).TotalDays;
        if (days > OldDays)
        {
            yield return new Remark("culture-old", new Argument("oldDays", Math.Floor(days)));
        }

        if (log.Counts.Count > 0 && belief.Density.Middle > Full * belief.Capacity.Middle)
        {
            yield return new Remark(
                "culture-full",
                new("densityPerMillilitre", CultureFigures.Few(belief.Density.Middle)),
                new("capacityPerMillilitre", CultureFigures.Few(belief.Capacity.Middle))
            );
        }
    }
}
