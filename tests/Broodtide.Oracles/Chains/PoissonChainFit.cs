using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;

namespace Broodtide.Oracles.Chains;

/// <summary>The likeliest chain of Poisson counts, started from its stationary distribution.</summary>
/// <param name="Chain">With its states in order of rising mean.</param>
/// <param name="LogLikelihood">Of the counts, nat.</param>
public sealed record PoissonChainFit(PoissonChain Chain, double LogLikelihood)
{
    private const int MostSteps = 20_000;

    /// <summary>
    /// Maximum likelihood by a simplex (Nelder and Mead 1965) over logarithms of the means and log ratios of each row
    /// of the transition to its diagonal, begun again where it ended until nothing is gained.
    /// </summary>
    /// <exception cref="ArgumentException">No counts, negative ones, or fewer than one state.</exception>
    public static PoissonChainFit Of(IReadOnlyList<int> counts, int states)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(states, 1);
        if (counts.Count == 0 || counts.Min() < 0 || counts.Max() == 0)
        {
            throw new ArgumentException("Counts above zero are wanted.", nameof(counts));
        }

        double Loss(Vector<double> point) => -LogLikelihoodOf(Unpacked(point, states), counts);

        var point = Start(counts, states);
        var best = Loss(point);
        while (true)
        {
            var found = NelderMeadSimplex.Minimum(
                ObjectiveFunction.Value(Loss),
                point,
                Vector<double>.Build.Dense(point.Count, 0.3),
                1e-11,
                MostSteps
            );
            point = found.MinimizingPoint;
            var value = found.FunctionInfoAtMinimum.Value;
            if (value > best - 1e-9)
            {
                break;
            }

            best = value;
        }

        var chain = Ordered(Unpacked(point, states));
        return new(chain, LogLikelihoodOf(chain, counts));
    }

    private static double LogLikelihoodOf(PoissonChain chain, IReadOnlyList<int> counts) =>
        chain.Seeing(counts).Filter().LogLikelihood;

    // Means at spread quantiles; states that keep themselves four times in five.
    private static Vector<double> Start(IReadOnlyList<int> counts, int states)
    {
        var ordered = counts.Order().ToArray();
        var start = Vector<double>.Build.Dense(states * states, Math.Log(0.25 / Math.Max(1, states - 1)));
        for (var state = 0; state < states; state++)
        {
            var at = (int)((state + 0.5) / states * ordered.Length);
            start[state] = Math.Log(Math.Max(0.5, ordered[at]));
        }

        return start;
    }

    private static PoissonChain Unpacked(Vector<double> point, int states)
    {
        var transition = new double[states, states];
        var at = states;
        for (var from = 0; from < states; from++)
        {
            var sum = 1.0;
            transition[from, from] = 1;
            for (var to = 0; to < states; to++)
            {
                if (to != from)
                {
                    transition[from, to] = Math.Exp(Math.Clamp(point[at++], -30, 30));
                    sum += transition[from, to];
                }
            }

            for (var to = 0; to < states; to++)
            {
                transition[from, to] /= sum;
            }
        }

        return new([.. point.Take(states).Select(log => Math.Exp(Math.Clamp(log, -30, 30)))], transition);
    }

    private static PoissonChain Ordered(PoissonChain chain)
    {
        var order = Enumerable.Range(0, chain.Means.Count).OrderBy(state => chain.Means[state]).ToArray();
        var transition = new double[order.Length, order.Length];
        for (var from = 0; from < order.Length; from++)
        {
            for (var to = 0; to < order.Length; to++)
            {
                transition[from, to] = chain.Transition[order[from], order[to]];
            }
        }

        return new([.. order.Select(state => chain.Means[state])], transition);
    }
}
