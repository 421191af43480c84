using Broodtide.Units;

namespace Broodtide.Oracles.Chains;

/// <summary>A chain of which only a sign is seen or not seen.</summary>
public static class BinaryChain
{
    /// <param name="prior">Probability of each state one step before the first look.</param>
    /// <param name="transition">Probability to go from a state (row) to a state (column).</param>
    /// <param name="chanceSeen">Chance to see the sign in each state.</param>
    /// <param name="seen">Whether it was seen at each look.</param>
    /// <exception cref="ArgumentException">Shapes differ, or probabilities are none.</exception>
    public static HiddenChain Of(
        IReadOnlyList<double> prior,
        double[,] transition,
        IReadOnlyList<double> chanceSeen,
        IReadOnlyList<bool> seen
    )
    {
        foreach (var chance in chanceSeen)
        {
            Finite.Within(chance, 0, 1, nameof(chanceSeen));
        }

        return new(
            HiddenChain.Moved(prior, transition),
            transition,
            [.. seen.Select(sign => chanceSeen.Select(chance => sign ? chance : 1 - chance).ToArray())]
        );
    }
}
