using Broodtide.Science.Water;

namespace Broodtide.Checks.Quantities;

/// <summary>Salinity and conductivity.</summary>
internal static class SalinityQuantities
{
    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of("salinity.from_conductivity_ratio", "R, t68_C, p_dbar", FromRatio),
        Quantity.Of("salinity.conductivity_ratio", "S, t68_C, p_dbar", Ratio),
        Quantity.Of("salinity.from_conductivity", "C_mS_per_cm, t90_C, p_dbar", FromConductivity),
        Quantity.Of("salinity.conductivity", "S, t90_C, p_dbar", Conductivity),
        Quantity.Of(
            "salinity.specific_conductance_25",
            "C_mS_per_cm, t90_C",
            inputs =>
                PracticalSalinity
                    .ReferredTo25(inputs.MillisiemensPerCentimetre("C_mS_per_cm"), inputs.Celsius("t90_C"))
                    .Value.MillisiemensPerCentimetre
        ),
        Quantity.Of(
            "salinity.from_hydrometer",
            "reading, t_C, calibrated_C, reference_water_C, gamma_per_C",
            inputs =>
                new GlassHydrometer(
                    inputs.Celsius("calibrated_C"),
                    inputs.Celsius("reference_water_C"),
                    inputs.Number("gamma_per_C")
                )
                    .SalinityFrom(inputs.Number("reading"), inputs.Celsius("t_C"))
                    .Value.Practical
        ),
        Quantity.Of(
            "salinity.from_brine_scale",
            "reading_g_NaCl_per_kg, t_C, zero",
            inputs =>
                Refractometer
                    .FromBrineScale(
                        inputs.Number("reading_g_NaCl_per_kg"),
                        inputs.Celsius("t_C"),
                        inputs.OneOf(
                            "zero",
                            ("water", RefractometerZero.Water),
                            ("no", RefractometerZero.None)
                        )
                    )
                    .Value.Practical
        ),
        Quantity.Of(
            "salinity.of_mixture",
            "S1, m1_kg, S2, m2_kg",
            inputs =>
                Mixing
                    .ByMass(
                        (inputs.Kilograms("m1_kg"), inputs.Salinity("S1")),
                        (inputs.Kilograms("m2_kg"), inputs.Salinity("S2"))
                    )
                    .Practical
        ),
    ];

    private static double FromRatio(CheckInputs inputs)
    {
        inputs.AtSurface("p_dbar");
        return PracticalSalinity
            .FromConductivityRatio(inputs.Number("R"), inputs.CelsiusIpts68("t68_C"))
            .Value.Practical;
    }

    private static double Ratio(CheckInputs inputs)
    {
        inputs.AtSurface("p_dbar");
        return PracticalSalinity
            .ConductivityRatioOf(inputs.Salinity("S"), inputs.CelsiusIpts68("t68_C"))
            .Value;
    }

    private static double FromConductivity(CheckInputs inputs)
    {
        inputs.AtSurface("p_dbar");
        return PracticalSalinity
            .FromConductivity(inputs.MillisiemensPerCentimetre("C_mS_per_cm"), inputs.Celsius("t90_C"))
            .Value.Practical;
    }

    private static double Conductivity(CheckInputs inputs)
    {
        inputs.AtSurface("p_dbar");
        return PracticalSalinity
            .ConductivityOf(inputs.Salinity("S"), inputs.Celsius("t90_C"))
            .Value.MillisiemensPerCentimetre;
    }
}
