namespace Broodtide.Science.Development;

/// <summary>Why a forecast moved; the words are made by whoever shows it.</summary>
public enum ChangeCode
{
    /// <summary>New temperature readings.</summary>
    Temperatures,

    /// <summary>What is assumed about the temperature was changed.</summary>
    Assumption,

    /// <summary>She was seen still carrying (or seen berried) without a word on the eggs.</summary>
    StillCarried,

    /// <summary>Eyed eggs were seen.</summary>
    Eyed,

    /// <summary>The eggs were looked at and were not eyed.</summary>
    NotEyed,

    /// <summary>Pale eggs were seen.</summary>
    Pale,

    /// <summary>The eggs were looked at and were not pale.</summary>
    NotPale,

    /// <summary>A new saddle was seen.</summary>
    Saddle,

    /// <summary>The eggs were dropped.</summary>
    Dropped,

    /// <summary>Larvae were seen.</summary>
    FirstLarvae,

    /// <summary>She was seen empty.</summary>
    SeenEmpty,

    /// <summary>A fact that stood in the earlier evidence was corrected away.</summary>
    Withdrawn,
}

/// <summary>One reason of a change.</summary>
/// <param name="Code">What kind of evidence.</param>
/// <param name="Day">Its day on the caller's axis (the latest, where several readings came together).</param>
/// <param name="ShiftDays">
/// Median with everything minus median without this piece, days: positive if it moved the hatch later.
/// </param>
/// <param name="NarrowedDays">Length of the 90 % window without this piece minus with it, days.</param>
public readonly record struct ChangeReason(
    ChangeCode Code,
    double Day,
    double ShiftDays,
    double NarrowedDays
);

/// <summary>What moved between two forecasts of one brood.</summary>
/// <param name="MedianShiftDays">Later median minus earlier median, days.</param>
/// <param name="NarrowedDays">Earlier length of the 90 % window minus the later, days.</param>
/// <param name="Reasons">Largest first, by the shift and half the narrowing; empty if nothing is new.</param>
public sealed record ForecastChange(
    double MedianShiftDays,
    double NarrowedDays,
    IReadOnlyList<ChangeReason> Reasons
)
{
    /// <summary>Most pieces that are left out in turn; beyond it the latest are tried.</summary>
    private const int MostPieces = 12;

    /// <summary>
    /// Compares two states of the evidence and finds the reasons by forecasting again with one new piece left out.
    /// </summary>
    /// <param name="prior">What is believed of the species.</param>
    /// <param name="earlier">What was known before.</param>
    /// <param name="later">What is known now.</param>
    /// <param name="stepDays">Cell of the grid, days, 0.01 to 0.5.</param>
    /// <exception cref="InvalidOperationException">One of them shows no eggs or larvae.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or outside its range.</exception>
    public static ForecastChange Between(
        EmbryoPrior prior,
        BroodEvidence earlier,
        BroodEvidence later,
        double stepDays = 0.2
    ) => InPieces(prior, earlier, later, stepDays).Last()!;

    /// <summary>The same comparison in small pieces, as <see cref="HatchForecast.InPieces"/> gives a forecast.</summary>
    /// <param name="prior">What is believed of the species.</param>
    /// <param name="earlier">What was known before.</param>
    /// <param name="later">What is known now.</param>
    /// <param name="stepDays">Cell of the grid, days, 0.01 to 0.5.</param>
    /// <exception cref="InvalidOperationException">One of them shows no eggs or larvae.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or outside its range.</exception>
    public static IEnumerable<ForecastChange?> InPieces(
        EmbryoPrior prior,
        BroodEvidence earlier,
        BroodEvidence later,
        double stepDays = 0.2
    )
    {
        HatchPosterior? before = null;
        foreach (var piece in HatchForecast.InPieces(prior, earlier, stepDays))
        {
            before = piece;
            yield return null;
        }

        HatchPosterior? after = null;
        foreach (var piece in HatchForecast.InPieces(prior, later, stepDays))
        {
            after = piece;
            yield return null;
        }

        var reasons = new List<ChangeReason>();
        foreach (
            var (code, day, rest) in Pieces(earlier, later)
                .OrderByDescending(piece => piece.Day)
                .Take(MostPieces)
        )
        {
            HatchPosterior? without = null;
            foreach (var piece in HatchForecast.InPieces(prior, rest, stepDays))
            {
                without = piece;
                yield return null;
            }

            reasons.Add(
                new(code, day, after!.Median - without!.Median, without.Window90.Days - after.Window90.Days)
            );
        }

        yield return new(
            after!.Median - before!.Median,
            before.Window90.Days - after.Window90.Days,
            [
                .. reasons
                    .Where(reason => reason.ShiftDays != 0 || reason.NarrowedDays != 0)
                    .OrderByDescending(reason =>
                        Math.Abs(reason.ShiftDays) + (0.5 * Math.Abs(reason.NarrowedDays))
                    )
                    .ThenBy(reason => reason.Code)
                    .ThenBy(reason => reason.Day),
            ]
        );
    }

    /// <summary>The later evidence with each new piece left out, and with each withdrawn piece put back.</summary>
    private static IEnumerable<(ChangeCode Code, double Day, BroodEvidence Without)> Pieces(
        BroodEvidence earlier,
        BroodEvidence later
    )
    {
        BroodFact[] added = [.. Missing(later.Facts, earlier.Facts)];
        foreach (var fact in added)
        {
            BroodFact[] rest = [.. Missing(later.Facts, [fact])];
            if (rest.Any(other => other is not BroodFact.SeenEmpty))
            {
                yield return (CodeOf(fact), fact.LastDay, later with { Facts = rest });
            }
        }

        foreach (var fact in Missing(earlier.Facts, later.Facts))
        {
            yield return (ChangeCode.Withdrawn, fact.LastDay, later with { Facts = [.. later.Facts, fact] });
        }

        var readings = Missing(later.Temperatures, earlier.Temperatures).ToArray();
        if (readings.Length > 0)
        {
            yield return (
                ChangeCode.Temperatures,
                readings.Max(reading => reading.Day),
                later with
                {
                    Temperatures = [.. Missing(later.Temperatures, readings)],
                }
            );
        }

        if (later.Assumption != earlier.Assumption)
        {
            var last = later.Facts.Max(fact => fact.LastDay);
            yield return (ChangeCode.Assumption, last, later with { Assumption = earlier.Assumption });
        }
    }

    /// <summary>What the first list has beyond the second, counting equal items.</summary>
    private static IEnumerable<T> Missing<T>(IReadOnlyList<T> from, IReadOnlyList<T> known)
        where T : notnull
    {
        var left = known.GroupBy(item => item).ToDictionary(group => group.Key, group => group.Count());
        foreach (var item in from)
        {
            if (left.TryGetValue(item, out var count) && count > 0)
            {
                left[item] = count - 1;
            }
            else
            {
                yield return item;
            }
        }
    }

    private static ChangeCode CodeOf(BroodFact fact) =>
        fact switch
        {
            BroodFact.EggsLookedAt { Pale: true } => ChangeCode.Pale,
            BroodFact.EggsLookedAt { Eyed: true } => ChangeCode.Eyed,
            BroodFact.EggsLookedAt { Eyed: false } => ChangeCode.NotEyed,
            BroodFact.EggsLookedAt { Pale: false } => ChangeCode.NotPale,
            BroodFact.EggsLookedAt or BroodFact.SeenBerried or BroodFact.StillCarried =>
                ChangeCode.StillCarried,
            BroodFact.SaddleSeen => ChangeCode.Saddle,
            BroodFact.Dropped => ChangeCode.Dropped,
            BroodFact.FirstLarvae => ChangeCode.FirstLarvae,
            BroodFact.SeenEmpty => ChangeCode.SeenEmpty,
            _ => throw new ArgumentOutOfRangeException(nameof(fact), fact, "An unknown kind of fact."),
        };
}
