using Broodtide.Units;

namespace Broodtide.Checks.Quantities;

/// <summary>Inputs as quantities of the library.</summary>
internal static class InputUnits
{
    public static Salinity Salinity(this CheckInputs inputs, string key) =>
        Units.Salinity.FromPractical(inputs.Number(key));

    public static Temperature Celsius(this CheckInputs inputs, string key) =>
        Temperature.FromCelsius(inputs.Number(key));

    public static Temperature CelsiusIpts68(this CheckInputs inputs, string key) =>
        Temperature.FromCelsiusIpts68(inputs.Number(key));

    public static Mass Kilograms(this CheckInputs inputs, string key) =>
        Mass.FromKilograms(inputs.Number(key));

    public static Volume Litres(this CheckInputs inputs, string key) => Volume.FromLitres(inputs.Number(key));

    public static Conductivity MillisiemensPerCentimetre(this CheckInputs inputs, string key) =>
        Conductivity.FromMillisiemensPerCentimetre(inputs.Number(key));

    public static Concentration MilligramsPerLitre(this CheckInputs inputs, string key) =>
        Concentration.FromMilligramsPerLitre(inputs.Number(key));

    public static Concentration GramsPerLitre(this CheckInputs inputs, string key) =>
        Concentration.FromGramsPerLitre(inputs.Number(key));

    public static CellDensity Cells(this CheckInputs inputs, string key) =>
        CellDensity.FromPerMillilitre(inputs.Number(key));

    public static Probability Fraction(this CheckInputs inputs, string key) =>
        Probability.FromFraction(inputs.Number(key));

    /// <summary>The formulas hold at the surface: any other pressure is refused.</summary>
    public static void AtSurface(this CheckInputs inputs, string key) =>
        Finite.Within(inputs.Number(key), 0, 0, key);
}
