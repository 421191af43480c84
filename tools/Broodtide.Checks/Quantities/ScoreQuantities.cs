using Broodtide.Science.Statistics;

namespace Broodtide.Checks.Quantities;

/// <summary>Forecast scores and probability integral transforms.</summary>
internal static class ScoreQuantities
{
    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "score.crps_normal",
            "y, mean, sd",
            inputs =>
                RankedProbabilityScore.Normal(
                    new NormalBelief(inputs.Number("mean"), inputs.Number("sd")),
                    inputs.Number("y")
                )
        ),
        Quantity.Of(
            "score.crps_gamma",
            "y, shape, rate",
            inputs =>
                RankedProbabilityScore.Gamma(
                    new GammaBelief(inputs.Number("shape"), inputs.Number("rate")),
                    inputs.Number("y")
                )
        ),
        Quantity.Of(
            "score.crps_lognormal",
            "y, meanlog, sdlog",
            inputs =>
                RankedProbabilityScore.LogNormal(
                    new NormalBelief(inputs.Number("meanlog"), inputs.Number("sdlog")),
                    inputs.Number("y")
                )
        ),
        Quantity.Of(
            "score.crps_negbin",
            "y, size, prob",
            inputs =>
                CountScore.NegativeBinomial(
                    inputs.Number("size"),
                    inputs.Fraction("prob"),
                    inputs.Number("y")
                )
        ),
        Quantity.Of(
            "score.crps_poisson",
            "y, mean",
            inputs => CountScore.Poisson(inputs.Number("mean"), inputs.Number("y"))
        ),
        Quantity.Of(
            "score.crps_ensemble",
            "members, y, fair",
            inputs =>
                RankedProbabilityScore.Ensemble(
                    inputs.Numbers("members"),
                    inputs.Number("y"),
                    inputs.OneOf("fair", ("yes", true), ("no", false))
                )
        ),
        Quantity.Of(
            "score.interval",
            "lower, upper, y, alpha",
            inputs =>
                IntervalScore.Of(
                    new CentralInterval(
                        inputs.Number("lower"),
                        inputs.Number("upper"),
                        inputs.Number("alpha")
                    ),
                    inputs.Number("y")
                )
        ),
        Quantity.Of(
            "score.weighted_interval",
            "median, levels, lowers, uppers, y",
            inputs => IntervalScore.Weighted(inputs.Number("median"), Intervals(inputs), inputs.Number("y"))
        ),
        Quantity.Of(
            "score.pinball",
            "tau, q, y",
            inputs => IntervalScore.Pinball(inputs.Fraction("tau"), inputs.Number("q"), inputs.Number("y"))
        ),
        Quantity.Of(
            "pit.ks_d",
            "values",
            inputs => ProbabilityIntegralTransform.DistanceFromEven(inputs.Numbers("values"))
        ),
    ];

    private static CentralInterval[] Intervals(CheckInputs inputs)
    {
        var levels = inputs.Numbers("levels");
        var lowers = inputs.Numbers("lowers");
        var uppers = inputs.Numbers("uppers");
        return levels.Length == lowers.Length && levels.Length == uppers.Length
            ? [.. levels.Select((level, i) => new CentralInterval(lowers[i], uppers[i], 1 - level))]
            : throw new ArgumentException(
                "levels, lowers and uppers need as many items each",
                nameof(inputs)
            );
    }
}
