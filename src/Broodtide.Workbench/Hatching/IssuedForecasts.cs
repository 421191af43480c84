using Broodtide.Domain.Keeping;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Workbench.Hatching;

/// <summary>
/// What is foretold today and not written down yet: one entry a day per run and quantity, so that forecasts can be
/// scored by what was known when they were made.
/// </summary>
public static class IssuedForecasts
{
    /// <summary>The first larvae of a run's brood, in days since the epoch of Unix.</summary>
    public const string FirstHatch = "first-hatch";

    /// <summary>The facts to write now; none where today's are written already or nothing is foretold.</summary>
    /// <param name="outlook">What is computed.</param>
    /// <param name="engine">Version of the software.</param>
    public static IReadOnlyList<ForecastIssued> Of(Outlook outlook, string engine)
    {
        var day = LocalDatePattern.Iso.Format(outlook.Now.InZone(outlook.Zone).Date);
        var written = outlook.House.Account.Entries.Select(entry => entry.Envelope.Written);
        var issued = new List<ForecastIssued>();
        foreach (var forecast in outlook.Forecasts)
        {
            if (
                outlook.House.RunOf(forecast.Brood) is not { } run
                || run.Forecasts.Any(known =>
                    string.Equals(known.Quantity, FirstHatch, StringComparison.Ordinal)
                    && string.Equals(known.Day, day, StringComparison.Ordinal)
                )
            )
            {
                continue;
            }

            issued.Add(
                new(
                    run.Id,
                    FirstHatch,
                    day,
                    engine,
                    written.Where(when => when <= outlook.Now).DefaultIfEmpty(outlook.Now).Max(),
                    "d",
                    Days(forecast.Window90.From),
                    Days(forecast.Median),
                    Days(forecast.Window90.To)
                )
            );
        }

        return issued;
    }

    private static double Days(Instant instant) => (instant - NodaConstants.UnixEpoch).TotalDays;
}
