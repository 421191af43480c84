using Broodtide.Units;

namespace Broodtide.Science.Development.Collecting;

/// <summary>
/// Share of the larvae that is alive when it is gathered, where each hour in the hatching box costs a constant
/// share. Whatever hatches after the last gathering is lost.
/// </summary>
public static class CollectionYield
{
    /// <summary>Share gathered alive by some moments.</summary>
    /// <param name="hatch">The hatching.</param>
    /// <param name="lossPerHour">Hazard in the box, per hour, not negative.</param>
    /// <param name="atHours">Moments of gathering, hours, ascending.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, negative, or not ascending.</exception>
    public static double Of(NormalHatch hatch, double lossPerHour, ReadOnlySpan<double> atHours)
    {
        Finite.NotNegative(lossPerHour);
        var sum = 0.0;
        var before = double.NegativeInfinity;
        foreach (var at in atHours)
        {
            Finite.Within(at, Math.Max(before, double.MinValue), double.MaxValue, nameof(atHours));
            sum += hatch.Alive(before, at, lossPerHour);
            before = at;
        }

        return Math.Min(1, sum);
    }

    /// <summary>
    /// Share gathered alive where hatching is even and gatherings follow each other at equal gaps:
    /// (1 - exp(-u d))/(u d).
    /// </summary>
    /// <param name="lossPerHour">Hazard, per hour, not negative.</param>
    /// <param name="gapHours">Gap, hours, not negative.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public static double OfEvenHatching(double lossPerHour, double gapHours)
    {
        var lost = Finite.Required(Finite.NotNegative(lossPerHour) * Finite.NotNegative(gapHours));
        // Near nothing the difference of two numbers next to 1 loses its digits; the series does not.
        return lost < 1e-3
            ? 1 - (lost / 2) + (lost * lost / 6) - (lost * lost * lost / 24)
            : (1 - Math.Exp(-lost)) / lost;
    }

    /// <summary>
    /// The moments at which a number of gatherings yields most, one moment after the other bettered between its
    /// neighbours until none moves.
    /// </summary>
    /// <param name="hatch">The hatching.</param>
    /// <param name="lossPerHour">Hazard in the box, per hour, above zero: without loss the best is to wait.</param>
    /// <param name="collections">How many, 1 to 24.</param>
    /// <returns>Moments in hours, ascending.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Outside the limits given.</exception>
    public static IReadOnlyList<double> BestTimes(NormalHatch hatch, double lossPerHour, int collections)
    {
        Finite.Positive(lossPerHour);
        var times = new double[(int)Finite.Within(collections, 1, 24)];
        var earliest = hatch.MeanHours - (9 * hatch.SdHours);
        // Later than this only losses are left: the hatching is over, and waiting costs.
        var latest = hatch.MeanHours + (9 * hatch.SdHours);
        for (var k = 0; k < times.Length; k++)
        {
            times[k] = hatch.MeanHours + (hatch.SdHours * (-1.5 + (3.5 * (k + 1) / times.Length)));
        }

        for (var round = 0; round < 2000; round++)
        {
            var moved = 0.0;
            for (var k = 0; k < times.Length; k++)
            {
                var before = k == 0 ? double.NegativeInfinity : times[k - 1];
                var after = k + 1 < times.Length ? times[k + 1] : (double?)null;
                var best = Best(
                    at =>
                        hatch.Alive(before, at, lossPerHour)
                        + (after is { } next ? hatch.Alive(at, next, lossPerHour) : 0),
                    Math.Max(earliest, before),
                    after ?? latest
                );
                moved = Math.Max(moved, Math.Abs(best - times[k]));
                times[k] = best;
            }

            if (moved < 1e-6)
            {
                break;
            }
        }

        return times;
    }

    // Golden section around the best of a coarse row of moments.
    private static double Best(Func<double, double> yield, double low, double high)
    {
        const int Row = 48;
        var step = (high - low) / Row;
        var top = 0;
        for (var i = 1; i <= Row; i++)
        {
            top = yield(low + (i * step)) > yield(low + (top * step)) ? i : top;
        }

        var (a, b) = (low + (Math.Max(0, top - 1) * step), low + (Math.Min(Row, top + 1) * step));
        var golden = (Math.Sqrt(5) - 1) / 2;
        while (b - a > 1e-7)
        {
            var (left, right) = (b - (golden * (b - a)), a + (golden * (b - a)));
            (a, b) = yield(left) > yield(right) ? (a, right) : (left, b);
        }

        return 0.5 * (a + b);
    }
}
