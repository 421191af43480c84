using Broodtide.Science.Survival;

namespace Broodtide.Checks.Quantities;

/// <summary>Distributions of lives.</summary>
internal static class HazardQuantities
{
    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "hazard.weibull_survival",
            "t, scale, shape",
            inputs => Weibull(inputs, "").Survival(inputs.Number("t"))
        ),
        Quantity.Of(
            "hazard.weibull_rate",
            "t, scale, shape",
            inputs => Weibull(inputs, "").Hazard(inputs.Number("t"))
        ),
        Quantity.Of(
            "hazard.gompertz_survival",
            "t, a, b",
            inputs => new GompertzLife(inputs.Number("a"), inputs.Number("b")).Survival(inputs.Number("t"))
        ),
        Quantity.Of(
            "hazard.bathtub_survival",
            "t, scale1, shape1, scale2, shape2",
            inputs => new BathtubLife(Weibull(inputs, "1"), Weibull(inputs, "2")).Survival(inputs.Number("t"))
        ),
    ];

    private static WeibullLife Weibull(CheckInputs inputs, string which) =>
        new(inputs.Number($"scale{which}"), inputs.Number($"shape{which}"));
}
