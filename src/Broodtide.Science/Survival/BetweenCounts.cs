using Broodtide.Science.Statistics;
using Broodtide.Units;

namespace Broodtide.Science.Survival;

/// <summary>Survival between two visits from numbers: complete counts, or two samples of known fractions.</summary>
public static class BetweenCounts
{
    /// <summary>
    /// Limits of the share that survived between two samples, each of a known fraction of the water, by the exact
    /// ratio of two Poisson rates. It may exceed 1: two poor counts can say no more, and nothing is clipped.
    /// Clumped larvae make it too narrow.
    /// </summary>
    /// <param name="earlier">Counted at the earlier visit, above zero.</param>
    /// <param name="earlierFraction">Fraction of the water it was counted in, above 0, at most 1.</param>
    /// <param name="later">Counted at the later visit.</param>
    /// <param name="laterFraction">Its fraction.</param>
    /// <param name="level">Nominal level, above 0 and below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the limits given.</exception>
    public static CentralInterval Survival(
        int earlier,
        double earlierFraction,
        int later,
        double laterFraction,
        Probability level
    ) =>
        RateRatio.Exact(
            later,
            Finite.Within(laterFraction, double.Epsilon, 1),
            earlier,
            Finite.Within(earlierFraction, double.Epsilon, 1),
            level
        );

    /// <summary>Hazard between two complete counts, per day: -ln(n2/n1) over the days.</summary>
    /// <param name="first">Count and day of the first.</param>
    /// <param name="second">Count and day of the second: later, not larger, and above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double HazardPerDay(CompleteCount first, CompleteCount second) =>
        -Math.Log(Share(first, second)) / (second.Day - first.Day);

    /// <summary>Its standard error, per day: sqrt((1 - s)/(n1 s)) over the days, by the delta method.</summary>
    /// <inheritdoc cref="HazardPerDay"/>
    public static double HazardStandardErrorPerDay(CompleteCount first, CompleteCount second)
    {
        var share = Share(first, second);
        return Math.Sqrt((1 - share) / (first.Alive * share)) / (second.Day - first.Day);
    }

    /// <summary>Share alive at the last of complete counts: the product of the shares from count to count.</summary>
    /// <param name="counts">Two or more, in order of days, none larger than the one before, all but the last above zero.</param>
    /// <exception cref="ArgumentException">Fewer than two.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double Cumulative(IReadOnlyList<CompleteCount> counts)
    {
        if (counts.Count < 2)
        {
            throw new ArgumentException("Survival needs two counts.", nameof(counts));
        }

        var share = 1.0;
        for (var i = 1; i < counts.Count; i++)
        {
            Finite.Within(counts[i].Day, Math.BitIncrement(counts[i - 1].Day), double.MaxValue);
            var before = Finite.Positive(counts[i - 1].Alive);
            share *= Finite.Within(counts[i].Alive, 0, before) / before;
        }

        return share;
    }

    /// <summary>
    /// Deaths due to a treatment where some die without it: (p - c)/(1 - c) (Abbott 1925). Below zero where fewer
    /// died under treatment; for showing, not for inference.
    /// </summary>
    /// <param name="treated">Share dead under treatment.</param>
    /// <param name="control">Share dead in the control, below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The control is 1.</exception>
    public static double Abbott(Probability treated, Probability control) =>
        (treated.Value - control.Value) / Finite.Positive(control.Opposite, nameof(control));

    private static double Share(CompleteCount first, CompleteCount second)
    {
        Finite.Within(second.Day, Math.BitIncrement(first.Day), double.MaxValue);
        return Finite.Within(second.Alive, 1, Finite.Positive(first.Alive)) / first.Alive;
    }
}

/// <summary>Everything alive in a vessel was counted.</summary>
public readonly record struct CompleteCount
{
    /// <summary>A count with its day.</summary>
    /// <param name="alive">How many were alive, 0 or more.</param>
    /// <param name="day">Day, any finite number.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public CompleteCount(int alive, double day)
    {
        Alive = (int)Finite.NotNegative(alive);
        Day = Finite.Required(day);
    }

    /// <summary>How many were alive.</summary>
    public int Alive { get; }

    /// <summary>The day.</summary>
    public double Day { get; }
}
