using Broodtide.Units;

namespace Broodtide.Oracles.Particles;

/// <summary>Weights of particles.</summary>
public static class Weights
{
    /// <summary>(sum w)^2 / sum w^2: how many equal ones they are worth (Kong, Liu and Wong 1994).</summary>
    /// <exception cref="ArgumentException">A weight is negative, or none is above zero.</exception>
    public static double EffectiveSampleSize(IReadOnlyList<double> weights)
    {
        var sum = Sum(weights);
        return sum * sum / weights.Sum(weight => weight * weight);
    }

    internal static double Sum(IReadOnlyList<double> weights)
    {
        var sum = 0.0;
        foreach (var weight in weights)
        {
            sum += Finite.NotNegative(weight, nameof(weights));
        }

        return Finite.Positive(sum, nameof(weights));
    }
}
