using Broodtide.Domain;
using Broodtide.Science.Series;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Sensors;

/// <summary>What a value of a vessel's water was, or was expected to be, at an instant, in the sensor's unit.</summary>
/// <param name="At">When.</param>
/// <param name="Value">The value.</param>
/// <param name="Sd">Its standard deviation, above 0.</param>
/// <param name="IsMeasured">Whether somebody measured it; else the ledger expected it.</param>
public readonly record struct KnownValue(Instant At, double Value, double Sd, bool IsMeasured);

/// <summary>A sensor with what is needed to judge it.</summary>
/// <param name="Sensor">The sensor.</param>
/// <param name="LastDays">Its readings of the last days, by time.</param>
/// <param name="Hours">Its hours of the last weeks, by time.</param>
/// <param name="Known">What is known of the water it stands in, by time.</param>
public sealed record JudgedSensor(
    Sensor Sensor,
    IReadOnlyList<RawReading> LastDays,
    IReadOnlyList<HourSummary> Hours,
    IReadOnlyList<KnownValue> Known
);

/// <summary>
/// What does not look right about a sensor, apart from the water: it is stuck, jumps, shows what no living water has, drifts
/// from what is known, or stands in another's vessel. The limits of what is plausible are common practice, no source; the
/// charts are published (docs/science/series.md).
/// </summary>
public static class SensorChecks
{
    // Spikes: the usual three deviations of a window of seven; told from one reading in a hundred, and five, on.
    private const int SpikeNeighbours = 3;
    private const double SpikeDeviations = 3;
    private const double SpikeShare = 0.01;
    private const int LeastSpikes = 5;
    private static readonly Duration SpikeTime = Duration.FromDays(1);

    // Charts of standardised differences: half a deviation forgiven; a false alarm in about 938 comparisons.
    private const double Slack = 0.5;
    private const double Threshold = 5;
    private const double AverageWeight = 0.2;
    private const double AverageWidth = 3;
    private const int LeastCompared = 3;

    // A pair is called swapped where it fits the other way round twenty thousand times better; of e, ten.
    private const double SwapEvidence = 10;
    private const double LeastSd = 0.05;

    /// <summary>Code of a sensor that seems to stand in another's vessel.</summary>
    public const string Swapped = "sensors-swapped";

    /// <summary>The findings, by sensor; a sensor without any is left out.</summary>
    /// <param name="sensors">Every sensor of the house.</param>
    /// <param name="now">The time.</param>
    public static IReadOnlyDictionary<SensorId, IReadOnlyList<Remark>> Of(
        IReadOnlyList<JudgedSensor> sensors,
        Instant now
    )
    {
        ArgumentNullException.ThrowIfNull(sensors);
        var swaps = Swaps(sensors);
        return sensors
            .Select(judged =>
                (
                    judged.Sensor.Id,
                    Findings: (IReadOnlyList<Remark>)
                        [
                            .. new[]
                            {
                                Stuck(judged),
                                OutOfRange(judged, now),
                                Spiky(judged, now),
                                // Where two are swapped, both drift from the wrong water.
                                swaps.GetValueOrDefault(judged.Sensor.Id) ?? Drifting(judged),
                            }.OfType<Remark>(),
                        ]
                )
            )
            .Where(found => found.Findings.Count > 0)
            .ToDictionary(found => found.Id, found => found.Findings);
    }

    /// <summary>No change for longer than plausible for its resolution.</summary>
    private static Remark? Stuck(JudgedSensor judged)
    {
        var readings = judged.LastDays;
        var about = judged.Sensor.About;
        if (
            readings.Count < 10
            || SensorPlausible.MayStand(about.Unit, about.Resolution ?? SmallestStep(readings))
                is not { } mayStand
        )
        {
            return null;
        }

        var last = readings[^1];
        var since = last.At;
        for (var at = readings.Count - 1; at >= 0 && readings[at].Value == last.Value; at--)
        {
            since = readings[at].At;
        }

        return last.At - since > mayStand
            ? Found(judged, "sensor-stuck", new("value", last.Value), new("since", since))
            : null;
    }

    /// <summary>What no water has in which these animals live.</summary>
    private static Remark? OutOfRange(JudgedSensor judged, Instant now)
    {
        if (SensorPlausible.Range(judged.Sensor.About.Unit) is not var (lowest, highest))
        {
            return null;
        }

        var outside = judged
            .LastDays.Where(reading => reading.At > now - SpikeTime)
            .Where(reading => reading.Value < lowest || reading.Value > highest)
            .ToList();
        return outside.Count > 0
            ? Found(
                judged,
                "sensor-out-of-range",
                new("value", outside[^1].Value),
                new("lowest", lowest),
                new("highest", highest),
                new("count", outside.Count)
            )
            : null;
    }

    private static Remark? Spiky(JudgedSensor judged, Instant now)
    {
        double[] values =
        [
            .. judged
                .LastDays.Where(reading => reading.At > now - SpikeTime)
                .Select(reading => reading.Value),
        ];
        if (values.Length < (2 * SpikeNeighbours) + 1)
        {
            return null;
        }

        var spikes = Spikes.In(
            values,
            SpikeNeighbours,
            SpikeDeviations,
            // Steps of one or two are the sensor's own trembling.
            2 * (judged.Sensor.About.Resolution ?? SensorPlausible.UsualStep(judged.Sensor.About.Unit) ?? 0)
        );
        return spikes.Count >= LeastSpikes && spikes.Count >= SpikeShare * values.Length
            ? Found(judged, "sensor-spikes", new("count", spikes.Count), new("readings", values.Length))
            : null;
    }

    private static Remark? Drifting(JudgedSensor judged)
    {
        var measured = Differences(judged, judged.Known.Where(known => known.IsMeasured));
        if (measured.Count >= LeastCompared)
        {
            double[] deviations = [.. measured.Select(one => one.Off / one.Sd)];
            var sums = new CumulativeSumChart(0, Slack, Threshold).Of(deviations);
            // The newest counts: a drift that somebody has mended has run off.
            if (Math.Max(sums[^1].High, sums[^1].Low) > Threshold)
            {
                return Drift(judged, measured, deviations);
            }
        }

        // One a day: neighbouring expectations of the ledger share their error.
        var expected = Differences(
            judged,
            judged
                .Known.Where(known => !known.IsMeasured)
                .GroupBy(known => known.At.InUtc().Date)
                .Select(day => day.Last())
        );
        if (expected.Count >= LeastCompared)
        {
            double[] deviations = [.. expected.Select(one => one.Off / one.Sd)];
            var chart = new MovingAverageChart(0, 1, AverageWeight, AverageWidth);
            var average = chart.Of(deviations)[^1];
            var (lower, upper) = chart.Limits(deviations.Length);
            if (average < lower || average > upper)
            {
                return Drift(judged, expected, deviations);
            }
        }

        return null;
    }

    private static Remark Drift(
        JudgedSensor judged,
        List<(Instant At, double Off, double Sd)> differences,
        double[] deviations
    )
    {
        // Since the last time it was on the other side.
        var side = Math.Sign(deviations[^1]);
        var from = deviations.Length - 1;
        while (from > 0 && Math.Sign(deviations[from - 1]) == side)
        {
            from--;
        }

        var offs = differences.Skip(from).Select(one => one.Off).Order().ToList();
        return Found(
            judged,
            "sensor-drifting",
            new("off", offs[offs.Count / 2]),
            new("since", differences[from].At),
            new("compared", differences.Count - from)
        );
    }

    // Two sensors of one unit in two vessels that fit each other's water better than their own.
    private static Dictionary<SensorId, Remark> Swaps(IReadOnlyList<JudgedSensor> sensors)
    {
        var found = new Dictionary<SensorId, Remark>();
        for (var one = 0; one < sensors.Count; one++)
        {
            for (var other = one + 1; other < sensors.Count; other++)
            {
                var (a, b) = (sensors[one], sensors[other]);
                if (
                    a.Sensor.Vessel is not { } hers
                    || b.Sensor.Vessel is not { } his
                    || hers == his
                    || a.Sensor.About.Unit != b.Sensor.About.Unit
                    || Evidence(a, b) is not { } ab
                    || Evidence(b, a) is not { } ba
                    // Each of them must fit better, and both together much better.
                    || Math.Min(ab, ba) <= 0
                    || ab + ba < SwapEvidence
                )
                {
                    continue;
                }

                found.TryAdd(a.Sensor.Id, Swap(a, b, his));
                found.TryAdd(b.Sensor.Id, Swap(b, a, hers));
            }
        }

        return found;
    }

    private static Remark Swap(JudgedSensor judged, JudgedSensor other, VesselId vessel) =>
        Found(judged, Swapped, new("other", NameOf(other.Sensor)), new("vessel", vessel));

    // Logarithm of how much better the sensor fits the other's water than its own.
    private static double? Evidence(JudgedSensor judged, JudgedSensor other)
    {
        var own = Differences(judged, judged.Known);
        var others = Differences(judged, other.Known);
        if (own.Count < LeastCompared || others.Count < LeastCompared)
        {
            return null;
        }

        // Means, so that a vessel that is measured more often does not weigh more.
        var count = Math.Min(own.Count, others.Count);
        return count / 2.0 * (own.Average(Squared) - others.Average(Squared));

        static double Squared((Instant At, double Off, double Sd) one) =>
            one.Off * one.Off / (one.Sd * one.Sd);
    }

    private static List<(Instant At, double Off, double Sd)> Differences(
        JudgedSensor judged,
        IEnumerable<KnownValue> known
    )
    {
        var hours = judged.Hours.ToDictionary(hour => hour.From);
        var differences = new List<(Instant, double, double)>();
        foreach (var value in known.OrderBy(value => value.At))
        {
            // Only while it stood in that water.
            if (
                judged.Sensor.VesselAt(value.At) is not null
                && hours.TryGetValue(HourSummary.HourOf(value.At), out var hour)
            )
            {
                var step = judged.Sensor.About.Resolution ?? 0;
                var within = (hour.Highest - hour.Lowest) / 2;
                var sd = Math.Sqrt(
                    (value.Sd * value.Sd) + (step * step / 12) + (within * within) + (LeastSd * LeastSd)
                );
                differences.Add((value.At, hour.Mean - value.Value, sd));
            }
        }

        return differences;
    }

    private static double? SmallestStep(IReadOnlyList<RawReading> readings)
    {
        double? least = null;
        for (var at = 1; at < readings.Count; at++)
        {
            var step = Math.Abs(readings[at].Value - readings[at - 1].Value);
            least = step > 0 && !(step >= least) ? step : least;
        }

        return least;
    }

    private static string NameOf(Sensor sensor) => sensor.About.Label ?? sensor.Id.ToString();

    private static Remark Found(JudgedSensor judged, string code, params IReadOnlyList<Argument> more) =>
        new(
            code,
            [
                new Argument("sensor", NameOf(judged.Sensor)),
                .. more,
                new Argument("unit", judged.Sensor.About.Unit),
            ]
        );
}
