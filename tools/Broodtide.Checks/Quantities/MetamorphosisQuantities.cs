using Broodtide.Science.Development.Staging;
using Broodtide.Units;

namespace Broodtide.Checks.Quantities;

/// <summary>Days of metamorphosis.</summary>
internal static class MetamorphosisQuantities
{
    private const string CohortKeys = "cohort_days, weights, mean, cv";

    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "metamorphosis.quantile",
            $"{CohortKeys}, p",
            inputs => MetamorphosisDays.When(Cohorts(inputs), Period(inputs), inputs.Fraction("p"))
        ),
        Quantity.Of("metamorphosis.first_quantile", $"{CohortKeys}, n, number, p", First),
        Quantity.Of(
            "metamorphosis.survival",
            "mean, cv, hazard_per_d",
            inputs => Period(inputs).ShareReaching(inputs.Number("hazard_per_d"))
        ),
        Quantity.Of(
            "metamorphosis.quantile_among_survivors",
            "mean, cv, hazard_per_d, p",
            inputs =>
                Period(inputs).AmongSurvivors(inputs.Number("hazard_per_d")).AgeDaysWhen(inputs.Fraction("p"))
        ),
        Quantity.Of(
            "metamorphosis.thermal_quantile",
            "temperatures, days, repeat, base, requirement_median, requirement_cv, p",
            Thermal
        ),
    ];

    private static double First(CheckInputs inputs)
    {
        var (cohorts, period) = (Cohorts(inputs), Period(inputs));
        return inputs.OneOf("number", ("fixed", false), ("poisson", true))
            ? MetamorphosisDays.FirstOfPoisson(cohorts, period, inputs.Number("n"), inputs.Fraction("p"))
                ?? double.NaN
            : MetamorphosisDays.First(
                cohorts,
                period,
                CheckWhole.Of(inputs.Number("n"), "n"),
                inputs.Fraction("p")
            );
    }

    private static double Thermal(CheckInputs inputs) =>
        new ThermalRequirement(
            inputs.Number("requirement_median"),
            inputs.Number("requirement_cv"),
            inputs.Celsius("base")
        ).DayWhen(
            [
                .. inputs
                    .Numbers("temperatures")
                    .Zip(inputs.Numbers("days"))
                    .Select(pair => new TemperatureStretch(Temperature.FromCelsius(pair.First), pair.Second)),
            ],
            inputs.OneOf("repeat", ("yes", true), ("no", false)),
            inputs.Fraction("p")
        )
        ?? double.NaN;

    private static CohortShare[] Cohorts(CheckInputs inputs) =>
        [
            .. inputs
                .Numbers("cohort_days")
                .Zip(inputs.Numbers("weights"))
                .Select(pair => new CohortShare(pair.First, pair.Second)),
        ];

    private static LarvalPeriod Period(CheckInputs inputs) => new(inputs.Number("mean"), inputs.Number("cv"));
}
