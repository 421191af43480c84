using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Development.Staging;

/// <summary>A stage that lasts a gamma-distributed time.</summary>
public sealed record StageDuration
{
    /// <summary>By shape and scale.</summary>
    /// <param name="shape">Shape, above zero; its inverse is the squared coefficient of variation.</param>
    /// <param name="scale">Scale, above zero, in the unit of age; the mean is shape times scale.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or not positive.</exception>
    public StageDuration(double shape, double scale)
    {
        Shape = Finite.Positive(shape);
        Scale = Finite.Positive(scale);
    }

    /// <summary>Shape.</summary>
    public double Shape { get; }

    /// <summary>Scale.</summary>
    public double Scale { get; }
}

/// <summary>
/// Shares in each stage at an age where every stage lasts its own independent gamma time: the share in a stage is
/// the share that has entered it less the share that has left it. Stages of one scale add to a gamma; others by the
/// series of Moschopoulos (1985, Ann. Inst. Stat. Math. 37:541), a mixture of gammas of the smallest scale. A larva
/// that is slow in every stage makes the whole more variable than this.
/// </summary>
public static class StageDurations
{
    /// <summary>The largest ratio of scales that the series is trusted with here.</summary>
    public const double WidestScales = 50;

    private const double Rest = 1e-13;
    private const int MostTerms = 20_000;

    /// <summary>Shares of the stages and, last, of those beyond all of them; together 1.</summary>
    /// <param name="stages">One or more stages, scales at most 50-fold apart.</param>
    /// <param name="age">Age, not negative.</param>
    /// <exception cref="ArgumentException">No stage, or durations beyond the series.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An age not finite or negative, or scales too far apart.</exception>
    public static IReadOnlyList<double> Occupancy(IReadOnlyList<StageDuration> stages, double age)
    {
        Finite.NotNegative(age);
        if (stages.Count == 0)
        {
            throw new ArgumentException("At least one stage is needed.", nameof(stages));
        }

        var shares = new double[stages.Count + 1];
        var entered = 1.0;
        for (var j = 0; j < stages.Count; j++)
        {
            // Never more can have left than entered; the series knows the two to its last digits only.
            var left = Math.Min(entered, Through(stages.Take(j + 1), age));
            shares[j] = entered - left;
            entered = left;
        }

        shares[^1] = entered;
        return shares;
    }

    /// <summary>Share that has gone through all of some stages at an age.</summary>
    private static double Through(IEnumerable<StageDuration> stages, double age)
    {
        var parts = stages
            .GroupBy(stage => stage.Scale)
            .OrderBy(group => group.Key)
            .Select(group => (Shape: group.Sum(stage => stage.Shape), Scale: group.Key))
            .ToArray();
        var smallest = parts[0].Scale;
        var shape = parts.Sum(part => part.Shape);
        Finite.Within(parts[^1].Scale / smallest, 1, WidestScales, nameof(stages));
        if (age <= 0)
        {
            return 0;
        }

        // Weights of gammas of shape + k: w_0 = prod (b1/b_i)^a_i, and a recursion for the next.
        var weights = new List<double>
        {
            Math.Exp(parts.Sum(part => part.Shape * Math.Log(smallest / part.Scale))),
        };
        var powers = new List<double>();
        var sum = weights[0];
        var share = weights[0] * Gamma.CDF(shape, 1 / smallest, age);
        while (1 - sum > Rest)
        {
            var k = weights.Count;
            powers.Add(parts.Sum(part => part.Shape * Math.Pow(1 - (smallest / part.Scale), k)));
            var next = 0.0;
            for (var i = 1; i <= k; i++)
            {
                next += powers[i - 1] * weights[k - i];
            }

            next /= k;
            weights.Add(next);
            sum += next;
            share += next * Gamma.CDF(shape + k, 1 / smallest, age);
            if (weights.Count > MostTerms || weights[0] < 1e-280)
            {
                throw new ArgumentException(
                    "These durations are beyond the series: shapes too large for scales so far apart.",
                    nameof(stages)
                );
            }

            // What is left cannot weigh more than the last gamma's share, which falls with k.
            if (next < Rest * Rest && sum > 0.5)
            {
                break;
            }
        }

        return Math.Clamp(share, 0, 1);
    }
}
