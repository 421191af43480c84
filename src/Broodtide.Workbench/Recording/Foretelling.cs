using Broodtide.Domain.Keeping;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Safety;
using Broodtide.Workbench.Safety.Scoring;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Workbench.Recording;

/// <summary>
/// What the software foretells, to be written down once a day per run and quantity, so that it can be scored against
/// what happened later.
/// </summary>
public static class Foretelling
{
    /// <summary>The quantity of the first larvae of a brood: days since the epoch of Unix, 5, 50 and 95 %.</summary>
    public const string FirstHatch = "first-hatch";

    /// <summary>
    /// The forecasts of today that are not in the journal yet: one for each run under way whose eggs are still
    /// carried or lie somewhere.
    /// </summary>
    /// <param name="outlook">What is known and computed.</param>
    /// <param name="engine">Name and version of the software.</param>
    public static IReadOnlyList<ForecastIssued> Unwritten(Outlook outlook, string engine)
    {
        var day = LocalDatePattern.Iso.Format(outlook.Now.InZone(outlook.Zone).Date);
        var knownUntil = KnownUntil(outlook);
        var unwritten = new List<ForecastIssued>();
        foreach (var run in outlook.House.Runs)
        {
            if (
                run.Ended is null
                && run.Brood is { } id
                && outlook.House.Brood(id).FirstLarvae is null
                && !run.Forecasts.Any(issued =>
                    string.Equals(issued.Quantity, FirstHatch, StringComparison.Ordinal)
                    && string.Equals(issued.Day, day, StringComparison.Ordinal)
                )
                && outlook.ForecastOf(id) is { } forecast
            )
            {
                unwritten.Add(
                    new ForecastIssued(
                        run.Id,
                        FirstHatch,
                        day,
                        engine,
                        knownUntil,
                        "d",
                        Days(forecast.Window90.From),
                        Days(forecast.Median),
                        Days(forecast.Window90.To)
                    )
                );
            }
        }

        return unwritten;
    }

    /// <summary>
    /// What is foretold today of the waters that are worked out already, and is not in the journal yet; cultures are left
    /// out.
    /// </summary>
    /// <param name="outlook">What is known and computed.</param>
    /// <param name="engine">Name and version of the software.</param>
    public static IReadOnlyList<WaterForetold> UnwrittenOfWater(Outlook outlook, string engine) =>
        [
            .. outlook
                .WatersTold.Select(outlook.SafetyAtHand)
                .Where(safety => safety?.Stage is not null)
                .Select(safety => safety!.Run)
                .OfType<VesselRun>()
                .Select(run => WaterForetelling.Unwritten(outlook.House, run, outlook.Zone, engine))
                .OfType<WaterForetold>(),
        ];

    // The outlook may be told for a moment that is still to come; only what was written by then was known.
    private static Instant KnownUntil(Outlook outlook) =>
        outlook
            .House.Account.Entries.Select(entry => entry.Envelope.Written)
            .Where(written => written <= outlook.Now)
            .DefaultIfEmpty(outlook.Now)
            .Max();

    private static double Days(Instant instant) => (instant - NodaConstants.UnixEpoch).TotalDays;
}
