using Broodtide.Units;

namespace Broodtide.Oracles.Particles;

/// <summary>Particles chosen by one random number (Kitagawa 1996).</summary>
public static class SystematicResampling
{
    /// <summary>
    /// As many places as weights, from 0: for each i the first whose weights so far reach the share (u + i) / n of all.
    /// </summary>
    /// <param name="weights">Not negative, some above zero; need not sum to one.</param>
    /// <param name="u">From 0 to 1.</param>
    /// <exception cref="ArgumentException">Other numbers.</exception>
    public static int[] Indices(IReadOnlyList<double> weights, double u)
    {
        Finite.Within(u, 0, 1);
        var sum = Weights.Sum(weights);
        var chosen = new int[weights.Count];
        var at = 0;
        var soFar = weights[0];
        for (var i = 0; i < chosen.Length; i++)
        {
            while (soFar < (u + i) / chosen.Length * sum && at < weights.Count - 1)
            {
                soFar += weights[++at];
            }

            chosen[i] = at;
        }

        return chosen;
    }
}
