using Broodtide.Science.Water;

namespace Broodtide.Checks.Quantities;

/// <summary>Osmolality.</summary>
internal static class OsmoticQuantities
{
    public static IReadOnlyList<Quantity> All { get; } =
    [
        // The printed examples are for some depth; the polynomial is for the surface and p_dbar is not used.
        Quantity.Of(
            "osmotic.coefficient",
            "SA_g_per_kg, t90_C, (p_dbar)",
            inputs =>
                Osmolality
                    .Coefficient(
                        SalinityScales.FromAbsolute(inputs.Number("SA_g_per_kg")),
                        inputs.Celsius("t90_C")
                    )
                    .Value
        ),
        Quantity.Of(
            "osmotic.osmolality",
            "S, t90_C",
            inputs =>
                Osmolality.MillimolesPerKilogramOfWater(inputs.Salinity("S"), inputs.Celsius("t90_C")).Value
        ),
    ];
}
