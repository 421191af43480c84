using Broodtide.Science.Water;

namespace Broodtide.Checks.Quantities;

/// <summary>Oxygen saturation.</summary>
internal static class OxygenQuantities
{
    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "oxygen.saturation",
            "S, t_C, P_atm",
            inputs =>
                OxygenSaturation
                    .At(inputs.Salinity("S"), inputs.Celsius("t_C"), inputs.Number("P_atm"))
                    .Value.MilligramsPerLitre
        ),
        Quantity.Of(
            "oxygen.solubility_garcia_gordon",
            "S, t90_C",
            inputs =>
                OxygenSaturation
                    .GarciaGordonMicromolesPerKilogram(inputs.Salinity("S"), inputs.Celsius("t90_C"))
                    .Value
        ),
    ];
}
