using Broodtide.Units;

namespace Broodtide.Science.Heat;

/// <summary>The 5, 50 and 95 % points of weighted values.</summary>
internal static class WeightedQuantiles
{
    public static Interval Of(IEnumerable<(double Value, double Weight)> values)
    {
        var sorted = values.OrderBy(one => one.Value).ToList();
        var sum = sorted.Sum(one => one.Weight);
        return Interval.FromPoints(At(0.05), At(0.5), At(0.95));

        double At(double share)
        {
            var passed = 0.0;
            foreach (var (value, weight) in sorted)
            {
                passed += weight;
                if (passed >= share * sum * (1 - 1e-12))
                {
                    return value;
                }
            }

            return sorted[^1].Value;
        }
    }
}
