using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Workbench.Mixing;

/// <summary>
/// A salt mix of the trade as a keeper knows it: its share of water with the doubt in it. The share is measured for
/// a product, or found from a batch; an unmeasured product has a wide one.
/// </summary>
public sealed record SaltProduct
{
    private SaltProduct(SaltMix mix, double waterShareSd, bool isMeasured)
    {
        Mix = mix;
        WaterShareSd = waterShareSd;
        IsMeasured = isMeasured;
    }

    /// <summary>
    /// A product nobody measured: 8 % water, standard deviation 4 %. Practice, no source. It spans the 5.6 % that
    /// follows from 37 g/L read as 34 ppt at 26 degC in one breeding report, and reaches towards the 14.9 % of the
    /// recipe of Kester et al. 1967 weighed with its hydrated salts.
    /// </summary>
    public static SaltProduct Unmeasured { get; } =
        new(SaltMix.WithWaterShare(0.08), 0.04, isMeasured: false);

    /// <summary>The product with its most likely share of water.</summary>
    public SaltMix Mix { get; }

    /// <summary>Standard deviation of the share of water, as a fraction of the weighed mass.</summary>
    public double WaterShareSd { get; }

    /// <summary>Whether the share was measured or found from a batch for this product.</summary>
    public bool IsMeasured { get; }

    /// <summary>From a measured share of water and its standard deviation, both as fractions of the weighed mass.</summary>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The share lies outside 0 to 0.9, or the deviation outside 0 to 0.2.
    /// </exception>
    public static SaltProduct FromWaterShare(double waterShare, double standardDeviation) =>
        new(SaltMix.WithWaterShare(waterShare), Finite.Within(standardDeviation, 0, 0.2), isMeasured: true);

    /// <summary>
    /// From the grams of mix that make a litre of finished water of a salinity, as calibrated with a batch or as
    /// the keeper has found.
    /// </summary>
    /// <param name="gramsPerLitre">Grams of mix in a litre of finished water.</param>
    /// <param name="salinity">The salinity it gave.</param>
    /// <param name="temperature">Temperature at which the litre was measured.</param>
    /// <param name="standardDeviation">Doubt in the share of water that follows, as a fraction.</param>
    /// <returns>The product, or null where less mix was weighed than dry salt would be needed, or over ten times as much.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The deviation lies outside 0 to 0.2.</exception>
    public static SaltProduct? FromGramsPerLitre(
        Concentration gramsPerLitre,
        Salinity salinity,
        Temperature temperature,
        double standardDeviation
    )
    {
        Finite.Within(standardDeviation, 0, 0.2);
        var dry = MakingSeaWater.DrySaltPerLitre(salinity, temperature).Value.GramsPerLitre;
        var share = gramsPerLitre.GramsPerLitre > 0 ? 1 - (dry / gramsPerLitre.GramsPerLitre) : -1;
        return share is >= 0 and <= 0.9 ? FromWaterShare(share, standardDeviation) : null;
    }
}
