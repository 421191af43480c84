using Broodtide.Domain;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Workbench.Safety;

/// <summary>
/// What a sensor of temperature showed in a vessel, set right by what was read by hand until then. A sensor is off by the same
/// in all its readings: its means are not so many witnesses, and each reading by hand moves all that come after it.
/// </summary>
internal static class SensorWarmth
{
    // A reading by hand is held against a mean that lies no further off.
    private static readonly Duration Near = Duration.FromHours(6);

    // Standard deviations, degC: a digital sensor in a sleeve, and a reading by hand. Practice, no source.
    private const double OffsetSd = 0.5;
    private const double HandSd = 0.3;

    /// <summary>
    /// Its temperatures by time, none where none stands in the vessel, and when the readings by hand were taken that set it
    /// right. Of several sensors the one that was heard most.
    /// </summary>
    /// <param name="means">What sensors showed of all waters, by time.</param>
    /// <param name="vessel">The vessel.</param>
    /// <param name="byHand">What was read by hand in it, by time, degC.</param>
    public static (IReadOnlyList<(Instant At, double Celsius)> Shown, IReadOnlySet<Instant> Used) Of(
        IReadOnlyList<WaterMean> means,
        VesselId vessel,
        IReadOnlyList<(Instant At, double Celsius)> byHand
    )
    {
        var shown = means
            .Where(mean => mean.Vessel == vessel)
            .Select(mean => (Mean: mean, Shown: mean.AsTemperature()))
            .Where(one => one.Shown is { Celsius: > -2 and < 45 })
            .GroupBy(one => one.Mean.Sensor, StringComparer.Ordinal)
            .OrderByDescending(sensor => sensor.Count())
            .ThenBy(sensor => sensor.Key, StringComparer.Ordinal)
            .FirstOrDefault()
            ?.Select(one => (one.Mean.At, one.Shown!.Value.Celsius))
            .ToList();
        var used = new HashSet<Instant>();
        if (shown is null)
        {
            return ([], used);
        }

        var (sum, count, next) = (0.0, 0, 0);
        var right = new List<(Instant, double)>(shown.Count);
        for (var at = 0; at < shown.Count; at++)
        {
            // In the order of time: what was told of yesterday stays as it was told.
            for (; next < byHand.Count && byHand[next].At <= shown[at].At; next++)
            {
                var near =
                    at > 0 && byHand[next].At - shown[at - 1].At < shown[at].At - byHand[next].At
                        ? at - 1
                        : at;
                var apart = shown[near].At - byHand[next].At;
                if (apart <= Near && -apart <= Near)
                {
                    used.Add(byHand[next].At);
                    sum += shown[near].Celsius - byHand[next].Celsius;
                    count++;
                }
            }

            // Mean of a normal offset given differences that each have the error of a reading by hand.
            var off = sum / (count + (HandSd * HandSd / (OffsetSd * OffsetSd)));
            right.Add((shown[at].At, shown[at].Celsius - off));
        }

        return (right, used);
    }
}
