using Broodtide.Science.Development.ThermalTime;
using Broodtide.Units;

namespace Broodtide.Checks.Quantities;

/// <summary>
/// Degree-days, laws of development and the spread of times. Rows of degree-days are in one unit each, Celsius or
/// Fahrenheit; the sums are the same in both, so every row is taken as Celsius.
/// </summary>
internal static class ThermalTimeQuantities
{
    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "degree_days.single_triangle",
            "tmin, tmax, lower, upper",
            Single(DegreeDays.SingleTriangle)
        ),
        Quantity.Of(
            "degree_days.double_triangle",
            "tmin, tmax, next_tmin, lower, upper",
            Double(DegreeDays.DoubleTriangle)
        ),
        Quantity.Of("degree_days.single_sine", "tmin, tmax, lower, (upper)", Single(DegreeDays.SingleSine)),
        Quantity.Of(
            "degree_days.double_sine",
            "tmin, tmax, next_tmin, lower, upper",
            Double(DegreeDays.DoubleSine)
        ),
        Quantity.Of(
            "degree_days.average",
            "tmin, tmax, lower, method",
            inputs =>
                DegreeDays.Average(
                    inputs.Celsius("tmin"),
                    inputs.Celsius("tmax"),
                    inputs.Celsius("lower"),
                    inputs.OneOf("method", ("1", false), ("2", true))
                )
        ),
        Quantity.Of(
            "degree_days.logged",
            "temperatures, step_h, lower, (upper)",
            inputs =>
                DegreeDays.Logged(
                    [.. inputs.Numbers("temperatures").Select(Temperature.FromCelsius)],
                    inputs.Number("step_h"),
                    Thresholds(inputs)
                )
        ),
        Quantity.Of(
            "degree_days.from_mean",
            "mean, lower",
            inputs => DegreeDays.OfMean(inputs.Celsius("mean"), inputs.Celsius("lower"))
        ),
        Quantity.Of(
            "development.briere1_rate",
            "a, t0, tl, t",
            inputs => Briere(inputs).PerDay(inputs.Celsius("t"))
        ),
        Quantity.Of("development.briere1_duration", "a, t0, tl, t", inputs => Days(Briere(inputs), inputs)),
        Quantity.Of(
            "development.briere1_optimum",
            "t0, tl",
            inputs => new BriereRate(1, inputs.Celsius("t0"), inputs.Celsius("tl")).Optimum.Celsius
        ),
        Quantity.Of(
            "development.lactin1_rate",
            "rho, t_max, delta, t",
            inputs => Lactin(inputs).PerDay(inputs.Celsius("t"))
        ),
        Quantity.Of(
            "development.lactin2_rate",
            "rho, t_max, delta, lambda, t",
            inputs => Lactin(inputs).PerDay(inputs.Celsius("t"))
        ),
        Quantity.Of(
            "development.schoolfield_rate",
            "p25, ha, hl, tl, hh, th, t",
            inputs =>
                new SchoolfieldRate(
                    inputs.Number("p25"),
                    inputs.Number("ha"),
                    inputs.Number("hl"),
                    inputs.Number("tl"),
                    inputs.Number("hh"),
                    inputs.Number("th")
                ).PerDay(inputs.Celsius("t"))
        ),
        Quantity.Of("development.sharpe_demichele_rate", "constants, t", SharpeDeMichele),
        Quantity.Of(
            "development.belehradek_duration",
            "a, alpha, b, t",
            inputs =>
                Days(
                    new BelehradekRate(inputs.Number("a"), inputs.Celsius("alpha"), inputs.Number("b")),
                    inputs
                )
        ),
        Quantity.Of(
            "development.linear_fit.t0",
            "temperatures, durations",
            inputs => ThermalFit.ByRates(Trials(inputs)).Threshold.Celsius
        ),
        Quantity.Of(
            "development.linear_fit.k",
            "temperatures, durations",
            inputs => ThermalFit.ByRates(Trials(inputs)).DegreeDays
        ),
        Quantity.Of(
            "development.ikemoto_takai.t0",
            "temperatures, durations",
            inputs => ThermalFit.ByProducts(Trials(inputs)).Threshold.Celsius
        ),
        Quantity.Of(
            "development.linear_duration",
            "t0, k, t",
            inputs => Days(new LinearRate(inputs.Celsius("t0"), inputs.Number("k")), inputs)
        ),
        Quantity.Of(
            "development.weibull_cdf",
            "x, gamma, eta, beta",
            inputs =>
                StageSpread
                    .WeibullDone(
                        inputs.Number("x"),
                        inputs.Number("gamma"),
                        inputs.Number("eta"),
                        inputs.Number("beta")
                    )
                    .Value
        ),
        Quantity.Of(
            "development.weibull_quantile",
            "p, gamma, eta, beta",
            inputs =>
                StageSpread.WeibullTime(
                    inputs.Fraction("p"),
                    inputs.Number("gamma"),
                    inputs.Number("eta"),
                    inputs.Number("beta")
                )
        ),
        Quantity.Of(
            "development.lognormal_quantile",
            "mean, cv, p",
            inputs =>
                StageSpread.LogNormalTime(inputs.Number("mean"), inputs.Number("cv"), inputs.Fraction("p"))
        ),
        Quantity.Of(
            "development.erlang_substages",
            "cv",
            inputs => StageSpread.ErlangSteps(inputs.Number("cv"))
        ),
        Quantity.Of(
            "development.erlang_cdf",
            "k, mean, t",
            inputs =>
                StageSpread.ErlangDone(inputs.Whole("k"), inputs.Number("mean"), inputs.Number("t")).Value
        ),
    ];

    private static DevelopmentThresholds Thresholds(CheckInputs inputs) =>
        new(inputs.Celsius("lower"), inputs.Has("upper") ? inputs.Celsius("upper") : null);

    private static Func<CheckInputs, double> Single(
        Func<Temperature, Temperature, DevelopmentThresholds, double> method
    ) => inputs => method(inputs.Celsius("tmin"), inputs.Celsius("tmax"), Thresholds(inputs));

    private static Func<CheckInputs, double> Double(
        Func<Temperature, Temperature, Temperature, DevelopmentThresholds, double> method
    ) =>
        inputs =>
            method(
                inputs.Celsius("tmin"),
                inputs.Celsius("tmax"),
                inputs.Celsius("next_tmin"),
                Thresholds(inputs)
            );

    private static BriereRate Briere(CheckInputs inputs) =>
        new(inputs.Number("a"), inputs.Celsius("t0"), inputs.Celsius("tl"));

    private static LactinRate Lactin(CheckInputs inputs) =>
        new(
            inputs.Number("rho"),
            inputs.Celsius("t_max"),
            inputs.Number("delta"),
            inputs.NumberOr("lambda", 0)
        );

    private static double Days(IDevelopmentRate rate, CheckInputs inputs) =>
        1 / rate.PerDay(inputs.Celsius("t"));

    private static double SharpeDeMichele(CheckInputs inputs) =>
        inputs.Numbers("constants") is [var a, var b, var c, var d, var f, var g]
            ? new SharpeDeMicheleRate(a, b, c, d, f, g).At(inputs.Celsius("t"))
            : throw new ArgumentException("constants: six are wanted, a b c d f g");

    private static (Temperature Temperature, double Days)[] Trials(CheckInputs inputs) =>
        [
            .. inputs
                .Numbers("temperatures")
                .Zip(inputs.Numbers("durations"), (t, d) => (Temperature.FromCelsius(t), d)),
        ];
}
