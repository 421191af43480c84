using Broodtide.Science.Statistics;
using Broodtide.Units;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>
/// What a reading teaches: an ensemble filter in two steps (Anderson 2003, Mon. Weather Rev. 131:634). First the members'
/// own idea of what is read is moved, on a scale where errors are even; then stocks and parameters follow along their
/// straight-line relation to it over the members, shrunk where 200 members cannot tell a relation from chance. No chance
/// enters: the same readings give the same members. Why so: docs/decisions/0006-readings-move-the-members.md.
/// </summary>
public static class VesselUpdating
{
    // Beyond so many standard deviations a reading is believed less the odder it is: it moves the members no further.
    private const double Odd = 2;

    // Share of what a reading would narrow that stays as it was: straight lines through bent relations, and 200 members,
    // make an ensemble too sure of itself (relaxation, Zhang, Snyder and Sun 2004). Set so that intervals cover.
    private const double Memory = 0.2;

    /// <summary>Moves the members by one reading; several of one hour one after the other.</summary>
    /// <param name="now">Members at the hour of the reading.</param>
    /// <param name="reading">What was read.</param>
    /// <param name="scene">The scene that they are run with.</param>
    /// <exception cref="ArgumentException">The members stand at another hour.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The scene does not reach that hour.</exception>
    public static VesselUpdate With(VesselEnsemble now, VesselReading reading, VesselScene scene)
    {
        if (now.Hour != reading.Hour)
        {
            throw new ArgumentException(
                "The members must be run to the hour of the reading.",
                nameof(reading)
            );
        }

        // The water of the hour that has just run; at the very start, of the first.
        var at = Math.Max(0, now.Hour - 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(at, scene.Hours.Length, nameof(scene));
        var hour = scene.Hours[at];
        var scales = new UpdateScales(hour, scene.Site);
        var supposed = new double[now.Members];
        scales.Suppose(now, reading, supposed);
        return reading switch
        {
            VesselReading.Measured measured => Numbers(now, measured, scales, supposed),
            _ => Notes(now, reading, Levels.Of(reading), scales, supposed),
        };
    }

    private static VesselUpdate Numbers(
        VesselEnsemble now,
        VesselReading.Measured measured,
        UpdateScales scales,
        double[] supposed
    )
    {
        var read = UpdateScales.Scaled(measured, measured.Value);
        var error = UpdateScales.ErrorOf(measured);
        var below = 0.0;
        foreach (var value in supposed)
        {
            below += NormalTable.Below((read - value) / error);
        }

        below /= supposed.Length;
        var (mean, variance) = Moments(supposed);
        var known = variance + (error * error);
        var away = Math.Abs(read - mean) / Math.Sqrt(known);
        var doubt = Math.Max(0, away - Odd);
        // A reading beyond that moves them as far as one just there (Huber 1964).
        var noise = (error * error) + (known * doubt / Odd);
        var gain = variance > 0 ? variance / (variance + noise) : 0;
        return new(
            Moved(now, measured, scales, supposed, mean + (gain * (read - mean)), Math.Sqrt(1 - gain)),
            Probability.FromFraction(Math.Clamp(2 * Math.Min(below, 1 - below), 0, 1)),
            Probability.FromFraction(known / (variance + noise))
        );
    }

    private static VesselUpdate Notes(
        VesselEnsemble now,
        VesselReading reading,
        Levels levels,
        UpdateScales scales,
        double[] supposed
    )
    {
        var (mean, variance) = Moments(supposed);
        var chances = new double[levels.Count];
        double sum = 0,
            first = 0,
            second = 0;
        foreach (var value in supposed)
        {
            for (var level = 0; level < levels.Count; level++)
            {
                chances[level] += levels.Chance(level, value) / supposed.Length;
            }

            var weight = levels.Chance(levels.Seen, value);
            sum += weight;
            first += weight * (value - mean);
            second += weight * (value - mean) * (value - mean);
        }

        var tail = chances.Where(chance => chance <= chances[levels.Seen] + 1e-12).Sum();
        var shift = first / sum;
        var narrowed = Math.Max(0, (second / sum) - (shift * shift));
        // One glance never halves what is believed, and moves it by no more than it was wide.
        var squeeze = variance > 0 ? Math.Clamp(Math.Sqrt(narrowed / variance), 0.5, 1) : 1;
        var most = 1.5 * Math.Sqrt(variance);
        return new(
            Moved(now, reading, scales, supposed, mean + Math.Clamp(shift, -most, most), squeeze),
            Probability.FromFraction(Math.Clamp(tail, 0, 1)),
            Probability.FromFraction(1)
        );
    }

    private static VesselEnsemble Moved(
        VesselEnsemble now,
        VesselReading reading,
        UpdateScales scales,
        double[] supposed,
        double toMean,
        double squeeze
    )
    {
        var (mean, variance) = Moments(supposed);
        var after = new VesselEnsemble(
            now.Priors,
            now.Members,
            now.Hour,
            now.Litres,
            VesselEnsemble.Copied(now.Stocks),
            VesselEnsemble.Copied(now.Parameters),
            now.Seed
        );
        if (variance <= 0)
        {
            return after;
        }

        var kept = squeeze + (Memory * (1 - squeeze));
        var moves = new double[supposed.Length];
        for (var i = 0; i < moves.Length; i++)
        {
            moves[i] = toMean + (kept * (supposed[i] - mean)) - supposed[i];
        }

        var values = new double[supposed.Length];
        for (var i = 0; i < UpdateScales.Count; i++)
        {
            UpdateScales.Take(after, i, values);
            var (middle, spread) = Moments(values);
            if (spread <= 1e-18)
            {
                continue;
            }

            var together = 0.0;
            for (var member = 0; member < values.Length; member++)
            {
                together += (values[member] - middle) * (supposed[member] - mean);
            }

            together /= values.Length;
            var squared = together * together / (spread * variance);
            // What chance alone would show among so many members is taken off.
            var trust = Math.Max(0, 1 - ((1 - squared) / Math.Max(1e-12, squared * (values.Length - 2))));
            if (trust <= 0)
            {
                continue;
            }

            var slope = trust * together / variance;
            for (var member = 0; member < values.Length; member++)
            {
                values[member] += slope * moves[member];
            }

            scales.Put(after, i, values);
        }

        // What was read itself goes no further than its own scale says.
        for (var member = 0; member < values.Length; member++)
        {
            values[member] = supposed[member] + moves[member];
        }

        scales.PutRead(after, now, reading, values);
        scales.Settle(after, now);
        return after;
    }

    private static (double Mean, double Variance) Moments(double[] values)
    {
        var mean = 0.0;
        foreach (var value in values)
        {
            mean += value;
        }

        mean /= values.Length;
        var variance = 0.0;
        foreach (var value in values)
        {
            variance += (value - mean) * (value - mean);
        }

        return (mean, variance / values.Length);
    }
}
