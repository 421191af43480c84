using Broodtide.Units;

namespace Broodtide.Oracles.Populations;

/// <summary>The number alive after a step.</summary>
/// <param name="Probabilities">Probability of each number from 0 up; they sum to one.</param>
/// <param name="LogLikelihood">Of all that was seen up to here, nat.</param>
public sealed record PopulationBelief(IReadOnlyList<double> Probabilities, double LogLikelihood)
{
    public double Mean => Probabilities.Select((probability, n) => probability * n).Sum();

    public double StandardDeviation
    {
        get
        {
            var mean = Mean;
            return Math.Sqrt(
                Probabilities.Select((probability, n) => probability * (n - mean) * (n - mean)).Sum()
            );
        }
    }

    /// <summary>The smallest number by which so much probability has gathered.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not from 0 to 1.</exception>
    public int Quantile(double probability)
    {
        Finite.Within(probability, 0, 1);
        var sum = 0.0;
        for (var n = 0; n < Probabilities.Count; n++)
        {
            sum += Probabilities[n];
            if (sum >= probability)
            {
                return n;
            }
        }

        return Probabilities.Count - 1;
    }
}
