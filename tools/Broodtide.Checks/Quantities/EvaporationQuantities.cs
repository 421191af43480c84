using Broodtide.Science.Water;

namespace Broodtide.Checks.Quantities;

/// <summary>Evaporation.</summary>
internal static class EvaporationQuantities
{
    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "evaporation.still_air",
            "water_C, air_C, RH, P_Pa, S",
            inputs =>
                Evaporation
                    .StillAir(
                        inputs.Salinity("S"),
                        inputs.Celsius("water_C"),
                        new RoomAir(inputs.Celsius("air_C"), inputs.Number("RH"), inputs.Number("P_Pa"))
                    )
                    .Value
        ),
        Quantity.Of(
            "evaporation.saturation_vapour_pressure",
            "t_C, S",
            inputs => VapourPressure.OverSeaWater(inputs.Salinity("S"), inputs.Celsius("t_C")).Value
        ),
        Quantity.Of(
            "evaporation.salinity_after",
            "S0, mass_kg, evaporated_kg",
            inputs =>
                Evaporation
                    .SalinityAfter(
                        inputs.Salinity("S0"),
                        inputs.Kilograms("mass_kg"),
                        inputs.Kilograms("evaporated_kg")
                    )
                    .Practical
        ),
    ];
}
