using Broodtide.Units;

namespace Broodtide.Science.Series;

/// <summary>
/// Whether and where the level of a series changed once, looked for afterwards, by ranks alone
/// (Pettitt 1979, Appl. Stat. 28:126).
/// </summary>
/// <param name="Statistic">Largest rank sum of a division, without its sign.</param>
/// <param name="Before">How many readings lie before the change.</param>
/// <param name="ChanceOfNone">
/// How often a series without a change gives as much, about; the approximation is good below 0.5 and capped at 1.
/// </param>
public sealed record ChangePoint(double Statistic, int Before, Probability ChanceOfNone)
{
    /// <summary>The likeliest single change.</summary>
    /// <param name="readings">Two or more in order of time, independent but for the change.</param>
    /// <exception cref="ArgumentException">Fewer than two.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public static ChangePoint Of(ReadOnlySpan<double> readings)
    {
        var count = readings.Length;
        if (count < 2)
        {
            throw new ArgumentException("A change lies between two readings at least.", nameof(readings));
        }

        var ranks = Ranks(readings);
        var (sum, largest, before) = (0.0, -1.0, 1);
        for (var i = 0; i < count - 1; i++)
        {
            sum += ranks[i];
            var statistic = Math.Abs((2 * sum) - ((i + 1.0) * (count + 1)));
            if (statistic > largest)
            {
                (largest, before) = (statistic, i + 1);
            }
        }

        var size = (double)count;
        var chance = 2 * Math.Exp(-6 * largest * largest / ((size * size * size) + (size * size)));
        return new(largest, before, Probability.FromFraction(Math.Min(1, chance)));
    }

    // Equal readings share the mean of their ranks.
    private static double[] Ranks(ReadOnlySpan<double> readings)
    {
        var values = readings.ToArray();
        foreach (var value in values)
        {
            Finite.Required(value, nameof(readings));
        }

        var order = Enumerable.Range(0, values.Length).ToArray();
        Array.Sort((double[])values.Clone(), order);
        var ranks = new double[values.Length];
        for (var first = 0; first < order.Length; )
        {
            var last = first;
            while (last + 1 < order.Length && values[order[last + 1]].Equals(values[order[first]]))
            {
                last++;
            }

            for (var i = first; i <= last; i++)
            {
                ranks[order[i]] = 1 + ((first + last) / 2.0);
            }

            first = last + 1;
        }

        return ranks;
    }
}
