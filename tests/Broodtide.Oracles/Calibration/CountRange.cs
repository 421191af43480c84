using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Oracles.Calibration;

/// <summary>Counts from a lower to an upper one, both included.</summary>
public readonly record struct CountRange(int Lower, int Upper)
{
    public bool Holds(int count) => count >= Lower && count <= Upper;

    /// <summary>
    /// The middle of a binomial: the smallest counts by which (1 - level) / 2 and (1 + level) / 2 have gathered.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Trials below one, or probabilities outside 0 to 1.</exception>
    public static CountRange OfBinomial(int trials, double chance, double level)
    {
        Whole.Within(trials, 1, int.MaxValue);
        Finite.Within(level, 0, 1);
        var law = new Binomial(Finite.Within(chance, 0, 1), trials);
        return new(Smallest(law, (1 - level) / 2), Smallest(law, (1 + level) / 2));
    }

    private static int Smallest(Binomial law, double probability)
    {
        var count = 0;
        while (count < law.N && law.CumulativeDistribution(count) < probability)
        {
            count++;
        }

        return count;
    }
}
