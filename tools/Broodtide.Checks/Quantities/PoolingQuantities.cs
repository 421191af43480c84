using Broodtide.Science.Pooling;
using Broodtide.Science.Statistics;

namespace Broodtide.Checks.Quantities;

/// <summary>Pooling of runs.</summary>
internal static class PoolingQuantities
{
    private const string Data = "(data), (measure), (effects), (variances)";

    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.WithData("meta_analysis.tau2", $"{Data}, method", (i, a) => [Pooled(i, a).BetweenVariance]),
        Quantity.WithData("meta_analysis.mu", $"{Data}, method", (i, a) => [Pooled(i, a).Mean]),
        Quantity.WithData("meta_analysis.se", $"{Data}, method", (i, a) => [Pooled(i, a).StandardError]),
        Quantity.WithData("meta_analysis.i2", $"{Data}, method", (i, a) => [100 * Pooled(i, a).ShareBetween]),
        Quantity.WithData(
            "meta_analysis.q",
            Data,
            (inputs, around) => [PooledRuns.Of(Effects(inputs, around), BetweenRuns.None).Q]
        ),
        .. Both(
            "meta_analysis.tau2_ci_qprofile",
            $"{Data}, level",
            (inputs, around) =>
                PooledRuns.Of(Effects(inputs, around)).BetweenVarianceWithin(inputs.Fraction("level"))
        ),
        .. Both(
            "meta_analysis.mu_ci_knapp_hartung",
            $"{Data}, method, level",
            (inputs, around) => Pooled(inputs, around).MeanWithin(inputs.Fraction("level"))
        ),
        .. Both(
            "meta_analysis.prediction_interval",
            $"{Data}, method, level",
            (inputs, around) => Pooled(inputs, around).NextByNormal(inputs.Fraction("level"))
        ),
        Quantity.WithData(
            "meta_analysis.regression.slope",
            "data, measure, method, moderator",
            (inputs, around) => [Slope(inputs, around)]
        ),
    ];

    private static Quantity[] Both(
        string name,
        string keys,
        Func<CheckInputs, CheckSurroundings, Limits> limits
    ) =>
        [
            Quantity.WithData($"{name}.lower", keys, (inputs, around) => [limits(inputs, around).Lower]),
            Quantity.WithData($"{name}.upper", keys, (inputs, around) => [limits(inputs, around).Upper]),
        ];

    private static PooledRuns Pooled(CheckInputs inputs, CheckSurroundings around) =>
        PooledRuns.Of(Effects(inputs, around), Method(inputs));

    private static double Slope(CheckInputs inputs, CheckSurroundings around)
    {
        var effects = Effects(inputs, around);
        var moderator = around.Table(inputs.Word("data")).Numbers(inputs.Word("moderator"));
        var design = RegressionDesign.OneMean(effects.Count).With("slope", moderator);
        return RunsRegression.Fit(effects, design, Method(inputs)).Coefficients[1];
    }

    private static BetweenRuns Method(CheckInputs inputs) =>
        inputs.OneOf(
            "method",
            ("reml", BetweenRuns.RestrictedLikelihood),
            ("ml", BetweenRuns.Likelihood),
            ("dl", BetweenRuns.DerSimonianLaird),
            ("pm", BetweenRuns.PauleMandel),
            ("fixed", BetweenRuns.None)
        );

    private static List<RunEffect> Effects(CheckInputs inputs, CheckSurroundings around)
    {
        if (!inputs.Has("data"))
        {
            return
            [
                .. inputs.Numbers("effects").Zip(inputs.Numbers("variances"), (y, v) => new RunEffect(y, v)),
            ];
        }

        var table = around.Table(inputs.Word("data"));
        var treated = table.Numbers("tpos").Zip(table.Numbers("tneg"), Tally);
        var control = table.Numbers("cpos").Zip(table.Numbers("cneg"), Tally);
        var measure = inputs.OneOf<Func<Tally, Tally, RunEffect?>>(
            "measure",
            ("log_risk_ratio", RunEffect.LogRiskRatio),
            ("log_odds_ratio", RunEffect.LogOddsRatio)
        );
        return
        [
            .. treated.Zip(
                control,
                (one, other) =>
                    measure(one, other)
                    ?? throw new ArgumentException("A row has no finite effect.", nameof(inputs))
            ),
        ];
    }

    private static Tally Tally(double happened, double didNot) =>
        new((int)happened, (int)(happened + didNot));
}
