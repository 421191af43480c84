using Broodtide.Science.Development.Staging;

namespace Broodtide.Checks.Quantities;

/// <summary>Stages by thermal age, ordered categories and durations of stages.</summary>
internal static class StageQuantities
{
    private const string FitKeys = "data, time, counts, link, variance";
    private const string StraightKeys = "data, time, counts, link";
    private const string OrdinalKeys =
        "data, (counts), (x), (x_scale), model, link, sign, (response), (frequency), (factors)";

    public static IReadOnlyList<Quantity> All { get; } =
    [
        Fitted(
            "stage.dkb_fit.cut_point",
            $"{FitKeys}, stage",
            (inputs, fit) => Numbered(fit.Boundaries.CutPoints, inputs, "stage")
        ),
        Fitted("stage.dkb_fit.b2", FitKeys, (_, fit) => fit.Boundaries.VarianceFactor),
        Fitted("stage.dkb_fit.scale", FitKeys, (_, fit) => Math.Sqrt(fit.Boundaries.VarianceFactor)),
        Fitted("stage.dkb_fit.loglik_kernel", FitKeys, (_, fit) => fit.LogLikelihoodKernel),
        Fitted("stage.dkb_fit.loglik_full", FitKeys, (_, fit) => fit.LogLikelihood),
        Fitted("stage.dkb_fit.deviance", FitKeys, (_, fit) => fit.Deviance),
        Quantity.WithData(
            "stage.constant_fit.alpha",
            $"{StraightKeys}, stage",
            (inputs, around) => [Numbered(Straight(inputs, around).Thresholds, inputs, "stage")]
        ),
        Quantity.WithData(
            "stage.constant_fit.beta",
            StraightKeys,
            (inputs, around) => [Straight(inputs, around).Coefficients[0]]
        ),
        Quantity.Of(
            "stage.dkb_prob",
            "a, b2, t, stage",
            inputs =>
                Numbered(
                    new StageBoundaries(inputs.Numbers("a"), inputs.Number("b2")).Shares(inputs.Number("t")),
                    inputs,
                    "stage"
                )
        ),
        Quantity.Of(
            "stage.dkb_quantile",
            "cut_point, b2, p",
            inputs =>
                new StageBoundaries([inputs.Number("cut_point")], inputs.Number("b2")).ThermalAgeWhen(
                    0,
                    inputs.Fraction("p")
                )
        ),
        Quantity.Of(
            "stage.development_index",
            "counts",
            inputs =>
                new StageSample(
                    1,
                    [.. inputs.Numbers("counts").Select(count => CheckWhole.Of(count, "counts"))]
                ).DevelopmentIndex
        ),
        Quantity.WithData(
            "stage.ordinal_fit.theta",
            $"{OrdinalKeys}, index",
            (inputs, around) => [Numbered(OrdinalData.Fit(inputs, around).Thresholds, inputs, "index")]
        ),
        Quantity.WithData(
            "stage.ordinal_fit.coef",
            $"{OrdinalKeys}, coef",
            (inputs, around) => [OrdinalData.Coefficient(inputs, around)]
        ),
        Quantity.WithData(
            "stage.ordinal_fit.deviance",
            OrdinalKeys,
            (inputs, around) => [OrdinalData.Fit(inputs, around).Deviance]
        ),
        Quantity.Of(
            "stage.occupancy",
            "shapes, scales, age, stage",
            inputs =>
                Numbered(
                    StageDurations.Occupancy(
                        [
                            .. inputs
                                .Numbers("shapes")
                                .Zip(inputs.Numbers("scales"))
                                .Select(pair => new StageDuration(pair.First, pair.Second)),
                        ],
                        inputs.Number("age")
                    ),
                    inputs,
                    "stage"
                )
        ),
    ];

    private static Quantity Fitted(string name, string keys, Func<CheckInputs, StageFit, double> read) =>
        Quantity.WithData(name, keys, (inputs, around) => [read(inputs, Fit(inputs, around))]);

    private static StageFit Fit(CheckInputs inputs, CheckSurroundings around)
    {
        var table = around.Table(inputs.Word("data"));
        var counts = OrdinalData.Counts(inputs, table);
        return StageFitting.Fit(
            [.. table.Numbers(inputs.Word("time")).Select((age, row) => new StageSample(age, counts[row]))],
            inputs.OneOf(
                "variance",
                ("proportional", StageVariance.Proportional),
                ("constant", StageVariance.Constant)
            ),
            OrdinalData.Link(inputs)
        );
    }

    private static OrdinalFit Straight(CheckInputs inputs, CheckSurroundings around)
    {
        var table = around.Table(inputs.Word("data"));
        var counts = OrdinalData.Counts(inputs, table);
        return OrdinalModel.Fit(
            [.. table.Numbers(inputs.Word("time")).Select((age, row) => new OrdinalRow([age], counts[row]))],
            OrdinalKind.Cumulative,
            OrdinalData.Link(inputs)
        );
    }

    private static double Numbered(IReadOnlyList<double> values, CheckInputs inputs, string key)
    {
        var number = CheckWhole.Of(inputs.Number(key), key);
        return number >= 1 && number <= values.Count
            ? values[number - 1]
            : throw new ArgumentException($"{key}={number}: there are {values.Count}", nameof(inputs));
    }
}
