using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Workbench.Mixing;

/// <summary>One scale with what the water is on it; no number outside the published range of a formula.</summary>
/// <param name="Scale">The scale.</param>
/// <param name="Reference">Reference temperatures of a specific gravity.</param>
/// <param name="Value">The number, or none.</param>
public sealed record ScaleValue(SalinityScale Scale, ReferencePair? Reference, double? Value);

/// <summary>
/// The same water on other scales, as definitions and published formulas have it. What an instrument shows, with its
/// faults, is the business of <see cref="ReadingMeanings"/>.
/// </summary>
public static class OtherScales
{
    private static readonly Temperature TwentyFive = Temperature.FromCelsius(25);

    // Bounds beyond which no water is and the formulas need not be asked.
    private const double MostConductivity = 1000;
    private const double MostGramsPerLitre = 350;

    /// <summary>What water of a salinity is on a scale.</summary>
    /// <param name="salinity">Practical salinity.</param>
    /// <param name="temperature">Temperature of the water.</param>
    /// <param name="scale">The scale.</param>
    /// <param name="product">The salt mix, for scales that count it.</param>
    /// <param name="reference">Reference temperatures, for specific gravity.</param>
    /// <returns>The number, or null outside a published range or without the reference.</returns>
    public static double? On(
        Salinity salinity,
        Temperature temperature,
        SalinityScale scale,
        SaltProduct product,
        ReferencePair? reference = null
    )
    {
        ArgumentNullException.ThrowIfNull(product);
        if (salinity.Practical > 42 || !SeawaterDensity.Eos80(salinity, temperature).WithinPublishedRange)
        {
            return null;
        }

        return scale switch
        {
            SalinityScale.Practical => salinity.Practical,
            SalinityScale.Absolute => SalinityScales.AbsoluteGramsPerKilogram(salinity),
            SalinityScale.PercentOfSeaWater => SalinityScales.PercentOfSeaWater(salinity),
            SalinityScale.Chlorinity => SalinityScales.ChlorinityGramsPerKilogram(salinity),
            SalinityScale.MixPerLitreFinished => MakingSeaWater
                .DrySaltPerLitre(salinity, temperature)
                .Value.GramsPerLitre / product.Mix.DryShare,
            SalinityScale.MixPerLitreWater => PerLitreOfWater(salinity, temperature, product),
            SalinityScale.BrineGramsPerKilogram => Refractometer
                .BrineScaleShows(salinity, temperature, RefractometerZero.Water)
                .OrNone,
            SalinityScale.ConductivityRaw => PracticalSalinity
                .ConductivityOf(salinity, temperature)
                .OrNone?.MillisiemensPerCentimetre,
            SalinityScale.ConductivityAt25 => PracticalSalinity
                .ConductivityOf(salinity, TwentyFive)
                .OrNone?.MillisiemensPerCentimetre,
            SalinityScale.SpecificGravity => reference is { } pair
                ? SpecificGravity.Of(salinity, pair).OrNone
                : null,
            _ => throw new ArgumentOutOfRangeException(nameof(scale), scale, "Unknown scale."),
        };
    }

    /// <summary>The same water on every scale, specific gravity against each usual reference.</summary>
    public static IReadOnlyList<ScaleValue> All(
        Salinity salinity,
        Temperature temperature,
        SaltProduct product
    ) =>
        [
            .. Enum.GetValues<SalinityScale>()
                .Where(scale => scale != SalinityScale.SpecificGravity)
                .Select(scale => new ScaleValue(scale, null, On(salinity, temperature, scale, product))),
            .. ScaledSalinity.UsualReferences.Select(pair => new ScaleValue(
                SalinityScale.SpecificGravity,
                pair,
                On(salinity, temperature, SalinityScale.SpecificGravity, product, pair)
            )),
        ];

    /// <summary>The practical salinity a scale's number stands for, taken at its word.</summary>
    /// <param name="said">The number with its scale.</param>
    /// <param name="temperature">Temperature of the water.</param>
    /// <param name="product">The salt mix, for scales that count it.</param>
    /// <returns>
    /// The salinity with the formula's verdict, or null where no salinity belongs to the number or a specific
    /// gravity lacks its reference.
    /// </returns>
    public static Computed<Salinity>? ToPractical(
        ScaledSalinity said,
        Temperature temperature,
        SaltProduct product
    )
    {
        ArgumentNullException.ThrowIfNull(product);
        if (!double.IsFinite(said.Value) || said.Value < 0)
        {
            return null;
        }

        return said.Scale switch
        {
            SalinityScale.Practical => Certain(Salinity.FromPractical(said.Value)),
            SalinityScale.Absolute when said.Value <= 1000 => Certain(
                SalinityScales.FromAbsolute(said.Value)
            ),
            SalinityScale.PercentOfSeaWater when said.Value <= 1000 => Certain(
                SalinityScales.FromPercentOfSeaWater(said.Value)
            ),
            SalinityScale.Chlorinity when said.Value <= 500 => Certain(
                SalinityScales.FromChlorinity(said.Value)
            ),
            SalinityScale.MixPerLitreFinished when product.Mix.DryShare * said.Value <= MostGramsPerLitre =>
                MakingSeaWater.FromProductPerFinishedLitre(
                    Concentration.FromGramsPerLitre(said.Value),
                    temperature,
                    product.Mix
                ),
            SalinityScale.MixPerLitreWater when product.Mix.DryShare * said.Value <= MostGramsPerLitre =>
                MakingSeaWater.FromProductPerLitreOfWater(
                    Concentration.FromGramsPerLitre(said.Value),
                    temperature,
                    product.Mix
                ),
            SalinityScale.BrineGramsPerKilogram when said.Value <= 260 => Refractometer.FromBrineScale(
                said.Value,
                temperature,
                RefractometerZero.Water
            ),
            SalinityScale.ConductivityRaw when said.Value <= MostConductivity =>
                PracticalSalinity.FromConductivity(
                    Conductivity.FromMillisiemensPerCentimetre(said.Value),
                    temperature
                ),
            SalinityScale.ConductivityAt25 when said.Value <= MostConductivity =>
                PracticalSalinity.FromConductivity(
                    Conductivity.FromMillisiemensPerCentimetre(said.Value),
                    TwentyFive
                ),
            SalinityScale.SpecificGravity
                when said.Reference is { } pair
                    && said.Value is > 0 and < 2000
                    && SpecificGravity.TrySalinityAt(said.Value, pair, out var salinity) => salinity,
            _ => null,
        };
    }

    private static Computed<Salinity> Certain(Salinity salinity) => new(salinity, true);

    private static double? PerLitreOfWater(Salinity salinity, Temperature temperature, SaltProduct product)
    {
        var litre = Volume.FromLitres(1) * SeawaterDensity.PureWater(temperature).Value;
        return MakingSeaWater.InFreshWater(salinity, litre, product.Mix).Product.Grams;
    }
}
