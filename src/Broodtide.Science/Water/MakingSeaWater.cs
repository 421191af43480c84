using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// How much salt and water make sea water. Follows from the meaning of absolute salinity SA (g of dry salt in a kg
/// of solution) and, for volumes, from EOS-80 density, whose range it has.
/// </summary>
public static class MakingSeaWater
{
    /// <summary>Dry salt in a litre of finished sea water, rho SA / 1000.</summary>
    public static Computed<Concentration> DrySaltPerLitre(Salinity salinity, Temperature temperature) =>
        SeawaterDensity
            .Eos80(salinity, temperature)
            .Then(density =>
                Concentration.FromGramsPerLitre(density.KilogramsPerCubicMetre * Share(salinity))
            );

    /// <summary>Dry salt for each kilogram of fresh water, SA / (1 - SA/1000).</summary>
    /// <returns>Grams.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A salinity that is nothing but salt.</exception>
    public static double DryGramsPerKilogramOfWater(Salinity salinity) =>
        1000 * Share(salinity) / Finite.Positive(1 - Share(salinity));

    /// <summary>Product and fresh water for a volume of finished sea water.</summary>
    /// <param name="salinity">Salinity wanted.</param>
    /// <param name="finished">Volume of finished water.</param>
    /// <param name="temperature">Temperature at which that volume is meant.</param>
    /// <param name="mix">The salt product.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// So salty that the water in the product alone is too much.
    /// </exception>
    public static Computed<SeaWaterBatch> ForVolume(
        Salinity salinity,
        Volume finished,
        Temperature temperature,
        SaltMix mix
    ) =>
        SeawaterDensity
            .Eos80(salinity, temperature)
            .Then(density =>
            {
                var whole = finished * density;
                var product = mix.ProductFor(Share(salinity) * whole);
                return new SeaWaterBatch(product, Mass.FromGrams(whole.Grams - product.Grams));
            });

    /// <summary>Product to dissolve in an amount of fresh water.</summary>
    /// <exception cref="ArgumentOutOfRangeException">
    /// So salty that the water in the product alone is too much.
    /// </exception>
    public static SeaWaterBatch InFreshWater(Salinity salinity, Mass freshWater, SaltMix mix) =>
        new(ToRaise(freshWater, default, salinity, mix), freshWater);

    /// <summary>
    /// Product that brings water up to a higher salinity: m (SA1 - SA0) / (1000 (1 - h) - SA1).
    /// </summary>
    /// <param name="water">Mass of the water before, salt included.</param>
    /// <param name="from">Salinity before.</param>
    /// <param name="to">Salinity wanted, not below <paramref name="from"/>.</param>
    /// <param name="mix">The salt product.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The salinity wanted is lower, or so high that the product alone is not as salty.
    /// </exception>
    public static Mass ToRaise(Mass water, Salinity from, Salinity to, SaltMix mix) =>
        Mass.FromGrams(water.Grams * (Share(to) - Share(from)) / Finite.Positive(mix.DryShare - Share(to)));

    /// <summary>Salinity of a batch, all dissolved.</summary>
    /// <exception cref="ArgumentException">The batch is empty.</exception>
    public static Salinity SalinityOf(SeaWaterBatch batch, SaltMix mix)
    {
        var whole = (batch.Product + batch.FreshWater).Grams;
        return whole > 0
            ? SalinityScales.FromAbsolute(1000 * mix.DryIn(batch.Product).Grams / whole)
            : throw new ArgumentException("A batch needs water or salt.", nameof(batch));
    }

    /// <summary>Salinity of water told as product per litre of finished water.</summary>
    /// <param name="product">Grams of product in a litre of finished water.</param>
    /// <param name="temperature">Temperature at which the litre is meant.</param>
    /// <param name="mix">The salt product.</param>
    /// <exception cref="ArgumentOutOfRangeException">No salinity from 0 to 300 holds so much salt.</exception>
    public static Computed<Salinity> FromProductPerFinishedLitre(
        Concentration product,
        Temperature temperature,
        SaltMix mix
    )
    {
        var dry = mix.DryShare * product.GramsPerLitre;
        // Fixed point S = dry / (rho(S) k): rho changes by less than 0.1 % a unit of S, so each turn gains digits.
        var salinity = Salinity.FromPractical(Finite.Within(dry, 0, 350));
        for (var turn = 0; turn < 50; turn++)
        {
            var rho = SeawaterDensity.Eos80(salinity, temperature).Value.KilogramsPerCubicMetre;
            salinity = SalinityScales.FromAbsolute(1000 * dry / rho);
        }

        return new(salinity, SeawaterDensity.Eos80(salinity, temperature).WithinPublishedRange);
    }

    /// <summary>Salinity of water told as product per litre of fresh water.</summary>
    /// <param name="product">Grams of product put into a litre of fresh water.</param>
    /// <param name="temperature">Temperature of the fresh water when it was measured out.</param>
    /// <param name="mix">The salt product.</param>
    public static Computed<Salinity> FromProductPerLitreOfWater(
        Concentration product,
        Temperature temperature,
        SaltMix mix
    ) =>
        SeawaterDensity
            .PureWater(temperature)
            .Then(density =>
                SalinityOf(new(product * Volume.FromLitres(1), Volume.FromLitres(1) * density), mix)
            );

    // Dry salt by share of mass.
    private static double Share(Salinity salinity) =>
        SalinityScales.AbsoluteGramsPerKilogram(salinity) / 1000;
}
