using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// A salt product as weighed: dry sea salt with the water bound in its crystals and caught from the air. The share
/// of water must be measured for each product, by one trial batch; from the Kester recipe with its hydrates it is
/// 0.149. The default is perfectly dry.
/// </summary>
public readonly record struct SaltMix
{
    private SaltMix(double waterShare) => WaterShare = waterShare;

    /// <summary>Share of the product's mass that is water, 0 to below 1.</summary>
    public double WaterShare { get; }

    /// <summary>Share of the product's mass that is dry salt, above 0 to 1.</summary>
    public double DryShare => 1 - WaterShare;

    /// <summary>A product with a known share of water.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside 0 to below 1.</exception>
    public static SaltMix WithWaterShare(double share) =>
        new(Finite.Within(share, 0, Math.BitDecrement(1.0)));

    /// <summary>
    /// A product found out by a trial batch: so much product in so much fresh water came to a salinity.
    /// </summary>
    /// <param name="product">Product weighed into the batch.</param>
    /// <param name="freshWater">Fresh water it was dissolved in.</param>
    /// <param name="measured">Salinity of the batch when all was dissolved.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// No product, no salt found, or more than perfectly dry salt could give.
    /// </exception>
    public static SaltMix FromTrial(Mass product, Mass freshWater, Salinity measured)
    {
        var dry = SalinityScales.AbsoluteGramsPerKilogram(measured) / 1000 * (product + freshWater).Grams;
        var share = 1 - (dry / Finite.Positive(product.Grams));
        // A perfectly dry product must not be refused for the rounding of its numbers.
        return WithWaterShare(share is < 0 and > -1e-9 ? 0 : share);
    }

    /// <summary>Dry salt in an amount of product.</summary>
    public Mass DryIn(Mass product) => DryShare * product;

    /// <summary>Product that holds an amount of dry salt.</summary>
    public Mass ProductFor(Mass dry) => Mass.FromGrams(dry.Grams / DryShare);
}
