using Broodtide.Units;

namespace Broodtide.Science.Development.Collecting;

/// <summary>Fixed points that fill a cube evenly, and the points of weighted values.</summary>
internal static class WeightedPoints
{
    /// <summary>The radical inverse of an index in a prime base, above 0 and below 1 (Halton 1960).</summary>
    internal static double Halton(int index, int prime)
    {
        var (value, share) = (0.0, 1.0);
        for (var rest = index; rest > 0; rest /= prime)
        {
            share /= prime;
            value += share * (rest % prime);
        }

        return value;
    }

    /// <summary>The 5, 50 and 95 % points: the least value at which the weight reaches them.</summary>
    internal static Interval Of((double Value, double Weight)[] values)
    {
        var ordered = values.OrderBy(pair => pair.Value).ToArray();
        var all = ordered.Sum(pair => pair.Weight);
        double At(double share)
        {
            var sum = 0.0;
            foreach (var (value, weight) in ordered)
            {
                sum += weight;
                if (sum >= share * all)
                {
                    return value;
                }
            }

            return ordered[^1].Value;
        }

        return Interval.FromPoints(At(0.05), At(0.5), At(0.95));
    }
}
