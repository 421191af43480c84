using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Workbench.Demo;

/// <summary>
/// Three invented sensors beside the invented journal: one of warmth in the larvae's jar, one of salinity in the green water,
/// and one in the tank that got stuck. Nothing here was measured; their names say so.
/// </summary>
public static class InventedSensors
{
    private const int EveryMinutes = 30;
    private const double DayHours = 24;
    private static readonly Duration Before = Duration.FromDays(6);
    private static readonly Duration StuckAfter = Duration.FromDays(4);

    /// <summary>
    /// Writes them, and what they read since they were written last: a store that holds them already only goes on. Equal
    /// instants give equal readings.
    /// </summary>
    /// <param name="store">The store beside the invented journal.</param>
    /// <param name="outlook">The outlook of the invented journal, for an instant: nothing is read after it.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <returns>How many readings were written.</returns>
    public static async Task<int> WriteAsync(
        IReadingStore store,
        Outlook outlook,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(outlook);
        var now = outlook.Now;
        var written = 0;
        foreach (var (id, about, vessel, shows) in All(outlook))
        {
            var known = (await store.SensorsAsync(cancellation)).FirstOrDefault(sensor => sensor.Id == id);
            var first = known?.FirstHeard ?? HourSummary.HourOf(now - Before);
            if (known is null)
            {
                await store.DescribeAsync(id, about, first, cancellation);
                await store.PlaceAsync(id, new(first, vessel), cancellation);
            }

            var readings = new List<SensorReading>();
            var from = Instant.Max(first, now - Before);
            for (
                var at = HourSummary.HourOf(known?.Last?.At ?? from);
                at <= now;
                at += Duration.FromMinutes(EveryMinutes)
            )
            {
                if (at >= from && !(at <= known?.Last?.At))
                {
                    readings.Add(new(id, new(at, shows(at, first))));
                }
            }

            await store.TakeAsync(readings, cancellation);
            written += readings.Count;
        }

        return written;
    }

    private static IEnumerable<(
        SensorId Id,
        SensorAbout About,
        VesselId Vessel,
        Func<Instant, Instant, double> Shows
    )> All(Outlook outlook)
    {
        const double Seconds = EveryMinutes * 60;
        foreach (var vessel in outlook.House.Vessels.Where(vessel => vessel.Standing is not null))
        {
            switch (vessel.Role)
            {
                case VesselRole.LarvalVessel:
                    yield return (
                        SensorId.Find("invented-shelf", $"warmth-{Short(vessel)}")!,
                        new("Cel", $"{vessel.Name}, warmth (invented)", 0.06, Seconds),
                        vessel.Id,
                        (at, _) => Round(24 + (0.3 * Day(at)) + (0.06 * Chance(at, 1)), 0.06)
                    );
                    break;
                case VesselRole.AlgaeCulture
                    when outlook.LedgerOf(vessel.Id) is { } ledger && vessel.Name is "Green jar":
                    yield return (
                        SensorId.Find("invented-shelf", $"salt-{Short(vessel)}")!,
                        new(UnitCode.PracticalSalinity, $"{vessel.Name}, salinity (invented)", 0.05, Seconds),
                        vessel.Id,
                        // What the water is believed to be, four tenths too much, as a probe is.
                        (at, _) => Round(PptAt(ledger, at) + 0.4 + (0.08 * Chance(at, 2)), 0.05)
                    );
                    break;
                case VesselRole.BroodTank:
                    yield return (
                        SensorId.Find("invented-tank", $"warmth-{Short(vessel)}")!,
                        new("Cel", $"{vessel.Name}, warmth (invented)", 0.1, Seconds),
                        vessel.Id,
                        (at, first) =>
                            Round(
                                at - first > StuckAfter
                                    ? 24.1
                                    : 24.1 + (0.4 * Day(at)) + (0.1 * Chance(at, 3)),
                                0.1
                            )
                    );
                    break;
                default:
                    break;
            }
        }
    }

    private static string Short(Vessel vessel) => vessel.Id.Value.ToString("N")[^6..];

    private static double PptAt(WaterLedger.VesselLedger ledger, Instant at) =>
        ledger.Track.LastOrDefault(point => point.At <= at) is { SalinityPpt.Middle: > 0 and var ppt }
            ? ppt
            : ledger.SalinityPpt.Middle;

    private static double Day(Instant at) =>
        Math.Sin(2 * Math.PI * (at.ToUnixTimeSeconds() / 3600.0 / DayHours));

    // Between -1 and 1, the same for the same half hour.
    private static double Chance(Instant at, uint salt)
    {
        var mixed = unchecked(((uint)(at.ToUnixTimeSeconds() / 60) * 2654435761u) ^ (salt * 2246822519u));
        mixed = unchecked((mixed ^ (mixed >> 15)) * 2246822519u);
        mixed ^= mixed >> 13;
        return (mixed / (double)uint.MaxValue * 2) - 1;
    }

    private static double Round(double value, double step) => Math.Round(Math.Round(value / step) * step, 4);
}
