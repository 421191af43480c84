using Broodtide.Science.Water;

namespace Broodtide.Checks.Quantities;

/// <summary>Density and specific gravity.</summary>
internal static class DensityQuantities
{
    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "density.eos80",
            "S, t68_C",
            inputs =>
                SeawaterDensity
                    .Eos80(inputs.Salinity("S"), inputs.CelsiusIpts68("t68_C"))
                    .Value.KilogramsPerCubicMetre
        ),
        // The library has EOS-80 only; these rows are the outside judge of it. SA follows from S and is not used.
        Quantity.Of(
            "density.teos10",
            "S, t90_C, (SA_g_per_kg)",
            inputs =>
                SeawaterDensity
                    .Eos80(inputs.Salinity("S"), inputs.Celsius("t90_C"))
                    .Value.KilogramsPerCubicMetre
        ),
        Quantity.Of(
            "density.specific_gravity",
            "S, t_C, reference_water_C",
            inputs =>
                SpecificGravity
                    .Of(inputs.Salinity("S"), new(inputs.Celsius("t_C"), inputs.Celsius("reference_water_C")))
                    .Value
        ),
        Quantity.Of(
            "density.hydrometer_reduced",
            "reading, t_C, calibrated_C, reference_water_C",
            inputs =>
                new GlassHydrometer(inputs.Celsius("calibrated_C"), inputs.Celsius("reference_water_C"))
                    .Reduced(inputs.Number("reading"), inputs.Celsius("t_C"))
                    .Value
        ),
        Quantity.Of("density.nacl", "w_percent, t_C", SodiumChloride),
    ];

    private static double SodiumChloride(CheckInputs inputs)
    {
        OpticsQuantities.AtTableTemperature(inputs);
        return SodiumChlorideSolution.DensityAt20(inputs.Number("w_percent")).Value.GramsPerCubicCentimetre;
    }
}
