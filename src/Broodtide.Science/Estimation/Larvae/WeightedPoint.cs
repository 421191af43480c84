using Broodtide.Units;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>Points of weighted values.</summary>
internal static class WeightedPoint
{
    /// <summary>
    /// 5, 50 and 95 % points: each value stands in the middle of its weight, with straight lines between.
    /// </summary>
    /// <param name="values">At least one, in any order.</param>
    /// <param name="weights">As many, sum 1.</param>
    internal static Interval Interval(double[] values, double[] weights)
    {
        var sorted = (double[])values.Clone();
        var shares = (double[])weights.Clone();
        Array.Sort(sorted, shares);
        return Units.Interval.FromPoints(
            At(sorted, shares, 0.05),
            At(sorted, shares, 0.5),
            At(sorted, shares, 0.95)
        );
    }

    private static double At(double[] sorted, double[] shares, double probability)
    {
        var before = 0.0;
        var middleBefore = 0.0;
        for (var i = 0; i < sorted.Length; i++)
        {
            var middle = before + (shares[i] / 2);
            if (middle >= probability)
            {
                return i == 0 || middle <= middleBefore
                    ? sorted[i]
                    : sorted[i - 1]
                        + (
                            (probability - middleBefore)
                            / (middle - middleBefore)
                            * (sorted[i] - sorted[i - 1])
                        );
            }

            before += shares[i];
            middleBefore = middle;
        }

        return sorted[^1];
    }
}
