using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Workbench.Recording;
using NodaTime;

namespace Broodtide.Workbench.Review;

/// <summary>
/// What was foretold, held against what came: as written down then, and reckoned again from what was known then where
/// nothing was.
/// </summary>
internal static class ReviewForecasts
{
    // Days before the first larvae, and days after the last crossing, at which forecasts are reckoned again.
    private static readonly int[] DaysBeforeHatching = [7, 3, 1];
    private static readonly int[] DaysAfterCrossing = [7, 21];

    /// <summary>The forecasts in pieces: none at each pause, the answer last.</summary>
    public static IEnumerable<IReadOnlyList<ForecastOutcome>?> InPieces(ReviewSpan span)
    {
        var all = new List<ForecastOutcome>();
        var brood = span.Brood;
        var larvae = brood.FirstLarvae;
        foreach (var issued in Issued(span))
        {
            all.Add(
                new(
                    ForecastSubject.FirstLarvae,
                    issued.KnownUntil,
                    true,
                    AtDay(issued.Low),
                    AtDay(issued.Middle),
                    AtDay(issued.High),
                    larvae?.Earliest,
                    larvae?.Latest
                )
            );
        }

        if (larvae is { } hatched)
        {
            foreach (var days in DaysBeforeHatching)
            {
                var at = hatched.Earliest - Duration.FromDays(days);
                if (at <= span.From || all.Exists(it => Near(it.MadeOn, at)))
                {
                    continue;
                }

                Outlook? then = null;
                foreach (var some in AsKnown(span, at))
                {
                    then = some;
                    yield return null;
                }

                foreach (var step in then!.ForecastSteps(brood.Id))
                {
                    step();
                    yield return null;
                }

                if (then.ForecastOf(brood.Id) is { } forecast)
                {
                    all.Add(
                        new(
                            ForecastSubject.FirstLarvae,
                            at,
                            false,
                            forecast.Window90.From,
                            forecast.Median,
                            forecast.Window90.To,
                            hatched.Earliest,
                            hatched.Latest
                        )
                    );
                }
            }
        }

        var settled = span.Facts<SettlementSeen>().FirstOrDefault(told => told.Fact.Number is null or > 0);
        foreach (var days in DaysAfterCrossing)
        {
            if (brood.Crossings.Count == 0)
            {
                break;
            }

            var at = brood.Crossings[^1].When.Latest + Duration.FromDays(days);
            if (at > span.Until || (settled.Fact is not null && at > settled.When))
            {
                continue;
            }

            Outlook? then = null;
            foreach (var some in AsKnown(span, at))
            {
                then = some;
                yield return null;
            }

            foreach (var step in then!.LedgerSteps())
            {
                step();
                yield return null;
            }

            if (then.PopulationOf(brood.Id) is not { } population)
            {
                continue;
            }

            foreach (var step in then.StepsOf(population))
            {
                step();
                yield return null;
            }

            var first = then.EstimateOf(population).Settlement.First;
            all.Add(
                new(
                    ForecastSubject.FirstSettled,
                    at,
                    false,
                    first.Early,
                    first.Middle,
                    first.Late,
                    settled.Fact is null ? null : settled.When,
                    settled.Fact is null ? null : settled.When
                )
            );
        }

        yield return [.. all.OrderBy(it => it.Subject).ThenBy(it => it.MadeOn)];
    }

    // The last one written on each of the days that are looked at: a page has room for few.
    private static IEnumerable<Domain.Keeping.ForecastIssued> Issued(ReviewSpan span)
    {
        var written = span
            .Run.Forecasts.Where(it => it is { Quantity: Foretelling.FirstHatch, Unit: "d" })
            .ToList();
        return written.Count <= DaysBeforeHatching.Length
            ? written
            : DaysBeforeHatching
                .Select(days =>
                    written.LastOrDefault(it =>
                        span.Brood.FirstLarvae is not { } first
                        || it.KnownUntil <= first.Earliest - Duration.FromDays(days - 1)
                    )
                )
                .OfType<Domain.Keeping.ForecastIssued>()
                .Distinct();
    }

    private static IEnumerable<Outlook?> AsKnown(ReviewSpan span, Instant at)
    {
        Account? known = null;
        foreach (var then in span.House.Account.ThenInPieces(at))
        {
            known = then.Account;
            yield return null;
        }

        yield return Outlook.Of(known!, at, span.Outlook.Zone);
    }

    private static bool Near(Instant left, Instant right) =>
        (left > right ? left - right : right - left) < Duration.FromHours(30);

    private static Instant AtDay(double days) =>
        NodaConstants.UnixEpoch + Duration.FromDays(Math.Clamp(days, -100_000, 200_000));
}
