using Broodtide.Science.Statistics;

namespace Broodtide.Checks.Quantities;

/// <summary>Hatch date and simple posteriors.</summary>
internal static class BayesQuantities
{
    private const string NormalKeys = "prior_mean, prior_sd, observations, observation_sds";
    private const string TruncatedKeys = "mean, sd, above";
    private const string EyeSpotKeys =
        "prior_mean, prior_sd, ratio, log_sd, not_seen_day, seen_day, not_hatched_day";
    private const string GammaKeys = "shape, rate, count, exposure";

    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of("bayes.normal_normal.mean", NormalKeys, inputs => NormalAfter(inputs).Mean),
        Quantity.Of("bayes.normal_normal.sd", NormalKeys, inputs => NormalAfter(inputs).StandardDeviation),
        Quantity.Of("bayes.truncated_normal.mean", TruncatedKeys, inputs => Truncated(inputs).Mean),
        Quantity.Of(
            "bayes.truncated_normal.sd",
            TruncatedKeys,
            inputs => Truncated(inputs).StandardDeviation
        ),
        Quantity.Of("bayes.eyespot.mean", EyeSpotKeys, inputs => HatchDay(inputs).Mean),
        Quantity.Of("bayes.eyespot.sd", EyeSpotKeys, inputs => HatchDay(inputs).StandardDeviation),
        Quantity.Of(
            "bayes.eyespot.quantile",
            $"{EyeSpotKeys}, p",
            inputs => HatchDay(inputs).Quantile(inputs.Fraction("p"))
        ),
        Quantity.Of("bayes.gamma_poisson.mean", GammaKeys, inputs => GammaAfter(inputs).Mean),
        Quantity.Of(
            "bayes.gamma_poisson.quantile",
            $"{GammaKeys}, p",
            inputs => GammaAfter(inputs).Quantile(inputs.Fraction("p"))
        ),
    ];

    private static NormalBelief NormalAfter(CheckInputs inputs) =>
        new NormalBelief(inputs.Number("prior_mean"), inputs.Number("prior_sd")).After(
            inputs.Numbers("observations"),
            inputs.Numbers("observation_sds")
        );

    private static TruncatedNormal Truncated(CheckInputs inputs) =>
        new(new NormalBelief(inputs.Number("mean"), inputs.Number("sd")), inputs.Number("above"));

    private static GridDistribution HatchDay(CheckInputs inputs) =>
        EyeSpots.HatchDay(
            new NormalBelief(inputs.Number("prior_mean"), inputs.Number("prior_sd")),
            new EyeSpotRatio(inputs.Number("ratio"), inputs.Number("log_sd")),
            new EyeSpotEvidence(
                inputs.Number("not_seen_day"),
                inputs.Number("seen_day"),
                inputs.Number("not_hatched_day")
            )
        );

    private static GammaBelief GammaAfter(CheckInputs inputs) =>
        new GammaBelief(inputs.Number("shape"), inputs.Number("rate")).After(
            inputs.Number("count"),
            inputs.Number("exposure")
        );
}
