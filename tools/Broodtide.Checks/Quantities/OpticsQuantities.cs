using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Checks.Quantities;

/// <summary>Refractive index and refractometers.</summary>
internal static class OpticsQuantities
{
    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of("optics.refractive_index_seawater", "S, t_C, (wavelength_nm)", SeaWater),
        Quantity.Of("optics.refractive_index_quan_fry", "S, t_C, (wavelength_nm)", SeaWater),
        Quantity.Of("optics.refractive_index_nacl", "w_percent, t_C, (wavelength_nm)", SodiumChloride),
        Quantity.Of(
            "optics.nacl_percent_matching_seawater",
            "S, t_C",
            inputs =>
                SodiumChlorideSolution
                    .PercentMatchingIndexOf(inputs.Salinity("S"), inputs.Celsius("t_C"))
                    .Value
        ),
        Quantity.Of(
            "optics.brine_scale_reading",
            "S, t_C",
            inputs =>
                Refractometer
                    .BrineScaleShows(inputs.Salinity("S"), inputs.Celsius("t_C"), RefractometerZero.None)
                    .Value
        ),
        Quantity.Of(
            "optics.seawater_scale_reading",
            "S, t_C, scale_C, zeroed",
            inputs =>
                Refractometer
                    .SeaWaterScaleShows(
                        inputs.Salinity("S"),
                        inputs.Celsius("t_C"),
                        inputs.Celsius("scale_C"),
                        inputs.OneOf(
                            "zeroed",
                            ("yes", RefractometerZero.Water),
                            ("no", RefractometerZero.None)
                        )
                    )
                    .Value
        ),
    ];

    /// <summary>The sodium chloride tables hold at 20 degC only: any other temperature is refused.</summary>
    public static void AtTableTemperature(CheckInputs inputs) =>
        Finite.Within(
            inputs.Number("t_C"),
            SodiumChlorideSolution.TableCelsius - 0.01,
            SodiumChlorideSolution.TableCelsius + 0.01,
            "t_C"
        );

    private static double SeaWater(CheckInputs inputs) =>
        RefractiveIndex.Of(inputs.Salinity("S"), inputs.Celsius("t_C"), Wavelength(inputs)).Value;

    private static double SodiumChloride(CheckInputs inputs)
    {
        AtTableTemperature(inputs);
        // The table is for the sodium D line.
        Finite.Within(
            Wavelength(inputs),
            RefractiveIndex.SodiumLineNanometres - 1,
            RefractiveIndex.SodiumLineNanometres + 1,
            "wavelength_nm"
        );
        return SodiumChlorideSolution.RefractiveIndexAt20(inputs.Number("w_percent")).Value;
    }

    private static double Wavelength(CheckInputs inputs) =>
        inputs.NumberOr("wavelength_nm", RefractiveIndex.SodiumLineNanometres);
}
