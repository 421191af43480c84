using Broodtide.Science.Statistics;

namespace Broodtide.Checks.Quantities;

/// <summary>Logarithms of the probabilities of counts.</summary>
internal static class PmfQuantities
{
    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "pmf.negbin_log",
            "x, mean, k",
            inputs =>
                LogProbability.NegativeBinomial(inputs.Whole("x"), inputs.Number("mean"), inputs.Number("k"))
        ),
        Quantity.Of(
            "pmf.betabinomial_log",
            "x, n, a, b",
            inputs =>
                LogProbability.BetaBinomial(
                    inputs.Whole("x"),
                    inputs.Number("n"),
                    new(inputs.Number("a"), inputs.Number("b"))
                )
        ),
        Quantity.Of(
            "pmf.dirichlet_multinomial_log",
            "counts, alpha",
            inputs => LogProbability.DirichletMultinomial(inputs.Wholes("counts"), inputs.Numbers("alpha"))
        ),
    ];
}
