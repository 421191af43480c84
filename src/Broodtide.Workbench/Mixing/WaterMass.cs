using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Workbench.Mixing;

/// <summary>
/// Water as the balance sees it: grams of water with its salt, grams of salt in it, and its heat above 0 degC in
/// gram degrees. All three add up when waters join, so a chain of pours keeps them to the last digits. Heat is
/// shared by mass; sea water holds 4 to 5 % less of it per gram than fresh, which is left out (see
/// <see cref="Science.Water.Mixing.OfTwo"/>).
/// </summary>
internal readonly record struct WaterMass(double Grams, double SaltGrams, double HeatGramDegrees)
{
    public double SalinityPractical =>
        Grams > 0 ? 1000 * SaltGrams / Grams / SalinityScales.AbsolutePerPractical : 0;

    public double Celsius => Grams > 0 ? HeatGramDegrees / Grams : 0;

    public double Litres => Grams > 0 ? Grams / GramsPerLitre(SalinityPractical, Celsius) : 0;

    public static WaterMass From(WaterBody water) =>
        Of(
            (water.Volume * SeawaterDensity.Eos80(water.Salinity, water.Temperature).Value).Grams,
            water.Salinity.Practical,
            water.Temperature.Celsius
        );

    public static WaterMass Of(double grams, double salinity, double celsius) =>
        new(grams, grams * salinity * SalinityScales.AbsolutePerPractical / 1000, grams * celsius);

    public static double GramsPerLitre(double salinity, double celsius) =>
        SeawaterDensity
            .Eos80(Salinity.FromPractical(Math.Max(0, salinity)), Temperature.FromCelsius(celsius))
            .Value.KilogramsPerCubicMetre;

    public static WaterMass operator +(WaterMass left, WaterMass right) =>
        new(
            left.Grams + right.Grams,
            left.SaltGrams + right.SaltGrams,
            left.HeatGramDegrees + right.HeatGramDegrees
        );

    /// <summary>So many grams of the same water.</summary>
    public WaterMass Part(double grams) =>
        Grams > 0 ? new(grams, SaltGrams * (grams / Grams), HeatGramDegrees * (grams / Grams)) : default;

    /// <summary>What is left of it after so many grams are drawn off.</summary>
    public WaterMass Without(double grams) => Part(Math.Max(0, Grams - grams));

    public WaterBody ToBody() =>
        new(
            Volume.FromLitres(Math.Max(0, Litres)),
            Salinity.FromPractical(Math.Max(0, SalinityPractical)),
            Temperature.FromCelsius(Celsius)
        );
}
