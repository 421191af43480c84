using Broodtide.Units;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Oracles.Chains;

/// <summary>A chain with Poisson counts that has run for ever: it starts from its stationary distribution.</summary>
/// <param name="Means">Mean count in each state.</param>
/// <param name="Transition">Probability to go from a state (row) to a state (column).</param>
public sealed record PoissonChain(IReadOnlyList<double> Means, double[,] Transition)
{
    /// <summary>The chain with what was counted.</summary>
    /// <exception cref="ArgumentException">Shapes differ, or numbers are none of their kind.</exception>
    public HiddenChain Seeing(IReadOnlyList<int> counts)
    {
        foreach (var mean in Means)
        {
            Finite.Positive(mean, nameof(Means));
        }

        return new(
            Stationary(),
            Transition,
            [.. counts.Select(count => Means.Select(mean => Poisson.PMF(mean, count)).ToArray())]
        );
    }

    /// <summary>Solves d (I - T + U) = 1 with U all ones (Zucchini and MacDonald, exercise 8 of chapter 1).</summary>
    public double[] Stationary()
    {
        var states = Means.Count;
        if (Transition.GetLength(0) != states || Transition.GetLength(1) != states)
        {
            throw new ArgumentException("As many rows and columns as means are wanted.", nameof(Transition));
        }

        var matrix = Matrix<double>.Build.Dense(
            states,
            states,
            (to, from) => (to == from ? 1 : 0) - Transition[from, to] + 1
        );
        return [.. matrix.Solve(Vector<double>.Build.Dense(states, 1.0))];
    }
}
