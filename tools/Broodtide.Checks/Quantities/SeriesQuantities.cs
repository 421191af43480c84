using Broodtide.Science.Series;

namespace Broodtide.Checks.Quantities;

/// <summary>Series of readings: trends, control charts, changes, spikes, thinning.</summary>
internal static class SeriesQuantities
{
    private const string Sums = "data, column, target, slack";
    private const string Pairs = "(data), x, y";

    public static IReadOnlyList<Quantity> All { get; } =
    [
        OfTrend("trend.sen_slope", Pairs, (trend, _) => trend.Slope),
        OfTrend(
            "trend.sen_slope_ci.lower",
            $"{Pairs}, level",
            (trend, inputs) => trend.Limits(inputs.Number("level")).Lower
        ),
        OfTrend(
            "trend.sen_slope_ci.upper",
            $"{Pairs}, level",
            (trend, inputs) => trend.Limits(inputs.Number("level")).Upper
        ),
        OfTrend("trend.mann_kendall_z", Pairs, (trend, _) => trend.Z),
        OfTrend("trend.mann_kendall_s", Pairs, (trend, _) => trend.Score),
        Quantity.WithData("control.ewma", "data, column, lambda, start, t", Average),
        Quantity.Of(
            "control.ewma_limit.upper",
            "start, sigma, lambda, width, (t)",
            inputs => LimitsOf(inputs).Upper
        ),
        Quantity.Of(
            "control.ewma_limit.lower",
            "start, sigma, lambda, width, (t)",
            inputs => LimitsOf(inputs).Lower
        ),
        Quantity.WithData(
            "control.cusum.high",
            $"{Sums}, t",
            (inputs, around) => [SumsAt(inputs, around).High]
        ),
        Quantity.WithData(
            "control.cusum.low",
            $"{Sums}, t",
            (inputs, around) => [SumsAt(inputs, around).Low]
        ),
        Quantity.WithData("control.cusum.first_signal", $"{Sums}, threshold", FirstSignal),
        Quantity.Of("control.cusum_arl", "method, sides, k, h, shift", MeanRun),
        OfChange("change.pettitt.u", change => change.Statistic),
        OfChange("change.pettitt.location", change => change.Before),
        OfChange("change.pettitt.p", change => change.ChanceOfNone.Value),
        Quantity.ListOf(
            "outlier.hampel_indices",
            "x, half_width, threshold",
            inputs =>
                [
                    .. Spikes
                        .In(
                            inputs.Numbers("x"),
                            inputs.WholeNumber("half_width", 1),
                            inputs.Number("threshold")
                        )
                        .Select(place => (double)place),
                ]
        ),
        Quantity.ListOf(
            "plot.lttb_indices",
            "x, y, keep",
            inputs =>
                [
                    .. Thinning
                        .ByTriangles(inputs.Numbers("x"), inputs.Numbers("y"), inputs.WholeNumber("keep", 3))
                        .Select(place => (double)place),
                ]
        ),
    ];

    private static Quantity OfTrend(string name, string keys, Func<Trend, CheckInputs, double> answer) =>
        Quantity.WithData(
            name,
            keys,
            (inputs, around) =>
                [answer(Trend.Of(Column(inputs, around, "x"), Column(inputs, around, "y")), inputs)]
        );

    private static Quantity OfChange(string name, Func<ChangePoint, double> answer) =>
        Quantity.WithData(
            name,
            "data, column",
            (inputs, around) => [answer(ChangePoint.Of(Readings(inputs, around)))]
        );

    private static double[] Column(CheckInputs inputs, CheckSurroundings around, string key) =>
        inputs.Has("data")
            ? around.Table(inputs.Word("data")).Numbers(inputs.Word(key))
            : inputs.Numbers(key);

    private static double[] Readings(CheckInputs inputs, CheckSurroundings around) =>
        around.Table(inputs.Word("data")).Numbers(inputs.Word("column"));

    private static IReadOnlyList<double> Average(CheckInputs inputs, CheckSurroundings around)
    {
        var readings = Readings(inputs, around);
        var chart = new MovingAverageChart(inputs.Number("start"), 1, inputs.Number("lambda"), 3);
        return [chart.Of(readings)[inputs.Place("t", readings.Length)]];
    }

    private static (double Lower, double Upper) LimitsOf(CheckInputs inputs) =>
        new MovingAverageChart(
            inputs.Number("start"),
            inputs.Number("sigma"),
            inputs.Number("lambda"),
            inputs.Number("width")
        ).Limits(inputs.Has("t") ? inputs.WholeNumber("t", 1) : null);

    private static CumulativeSums SumsAt(CheckInputs inputs, CheckSurroundings around)
    {
        var readings = Readings(inputs, around);
        var chart = new CumulativeSumChart(inputs.Number("target"), inputs.Number("slack"), 1);
        return chart.Of(readings)[inputs.Place("t", readings.Length)];
    }

    private static IReadOnlyList<double> FirstSignal(CheckInputs inputs, CheckSurroundings around) =>
        new CumulativeSumChart(
            inputs.Number("target"),
            inputs.Number("slack"),
            inputs.Number("threshold")
        ).FirstSignal(Readings(inputs, around))
            is { } place
            ? [place + 1]
            : [];

    private static double MeanRun(CheckInputs inputs)
    {
        var both = inputs.WholeNumber("sides", 1) switch
        {
            1 => false,
            2 => true,
            var other => throw new ArgumentException($"sides: 1 or 2, not {other}", nameof(inputs)),
        };
        var run = inputs.OneOf<Func<double, double, double, double>>(
            "method",
            ("siegmund", both ? RunLength.TwoSidedRoughly : RunLength.OneSidedRoughly),
            ("exact", both ? RunLength.TwoSided : RunLength.OneSided)
        );
        return run(inputs.Number("k"), inputs.Number("h"), inputs.Number("shift"));
    }
}
