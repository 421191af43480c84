using Broodtide.Units;

namespace Broodtide.Science.Imaging.Pulses;

/// <summary>The share of larvae that moved during a burst.</summary>
public static class Swimming
{
    // One standard deviation of the number of those that moved, beside chance: that of a burst's count
    // (docs/science/looking.md).
    private const double OfCounting = 0.14;

    /// <summary>
    /// Of so many seen so many moved: on the logarithm of the odds, with half a larva more on both sides, the variance of
    /// chance (Agresti 2002, Categorical Data Analysis, section 3.1) and that of counting.
    /// </summary>
    /// <param name="moved">How many moved, 0 or more.</param>
    /// <param name="seen">How many there were, moving or not, at least one.</param>
    /// <returns>Percent, 5, 50 and 95 %; or none, with the code swimming-more-than-seen (moved, seen) where far more moved.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or outside its range.</exception>
    public static Parsed<Interval> Share(double moved, int seen)
    {
        Finite.NotNegative(moved);
        ArgumentOutOfRangeException.ThrowIfLessThan(seen, 1);
        // As many more as counting may err by.
        if (moved > (seen * (1 + (2 * OfCounting))) + 1)
        {
            return Parsed<Interval>.No(
                "swimming-more-than-seen",
                new Argument("moved", Math.Round(moved)),
                new Argument("seen", seen)
            );
        }

        var (yes, no) = (Math.Min(moved, seen) + 0.5, Math.Max(0, seen - moved) + 0.5);
        var share = yes / (yes + no);
        var middle = Math.Log(yes / no);
        var deviation = Math.Sqrt((1 / yes) + (1 / no) + Math.Pow(OfCounting / Math.Max(0.1, 1 - share), 2));
        var reach = Interval.StandardNormal95 * deviation;
        double Percent(double odds) => 100 / (1 + Math.Exp(-odds));
        return Parsed<Interval>.Of(
            Interval.FromPoints(Percent(middle - reach), Percent(middle), Percent(middle + reach))
        );
    }
}
