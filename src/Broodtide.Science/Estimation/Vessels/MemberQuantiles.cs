using Broodtide.Units;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>Points of a sample of equal weights, with straight lines between (type 7 of Hyndman and Fan 1996).</summary>
public static class MemberQuantiles
{
    /// <summary>The 5, 50 and 95 % points; sorts what it is given.</summary>
    /// <param name="values">One or more finite numbers.</param>
    /// <exception cref="ArgumentException">None are given.</exception>
    /// <exception cref="ArgumentOutOfRangeException">One is not finite.</exception>
    public static Interval Of(Span<double> values)
    {
        if (values.IsEmpty)
        {
            throw new ArgumentException("There is no number.", nameof(values));
        }

        values.Sort();
        return Interval.FromPoints(At(values, 0.05), At(values, 0.5), At(values, 0.95));
    }

    private static double At(ReadOnlySpan<double> sorted, double level)
    {
        var place = level * (sorted.Length - 1);
        var below = (int)place;
        var above = Math.Min(below + 1, sorted.Length - 1);
        return sorted[below] + ((place - below) * (sorted[above] - sorted[below]));
    }
}
