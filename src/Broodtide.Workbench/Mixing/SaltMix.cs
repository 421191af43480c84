using Broodtide.Units;

namespace Broodtide.Workbench.Mixing;

/// <summary>
/// A salt mix of the trade: dry sea salt with water of crystallisation and moisture. The share of water is measured
/// for a product, or calibrated from a batch; an unmeasured product has a wide one.
/// </summary>
public sealed record SaltMix
{
    /// <summary>Most water a mix is taken to hold, as a share of the weighed mass: half. A bound against slips.</summary>
    public const double MostWaterShare = 0.5;

    private SaltMix(double waterShare, double waterShareSd, bool isMeasured)
    {
        WaterShare = waterShare;
        WaterShareSd = waterShareSd;
        IsMeasured = isMeasured;
    }

    /// <summary>
    /// A product nobody measured: 8 % water, standard deviation 4 %. Practice, no source. It spans the 5.6 % that
    /// follows from 37 g/L read as 34 ppt at 26 degC in one breeding report, and reaches towards the 14.9 % of the
    /// recipe of Kester et al. 1967 weighed with its hydrated salts.
    /// </summary>
    public static SaltMix Unmeasured { get; } = new(0.08, 0.04, isMeasured: false);

    /// <summary>Water as a share of the weighed mass, 0 to 0.5.</summary>
    public double WaterShare { get; }

    /// <summary>Standard deviation of the share.</summary>
    public double WaterShareSd { get; }

    /// <summary>Whether the share was measured or calibrated for this product.</summary>
    public bool IsMeasured { get; }

    /// <summary>From a measured share of water and its standard deviation, both as fractions of the weighed mass.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The share lies outside 0 to 0.5, or the deviation outside 0 to 0.2.</exception>
    public static SaltMix FromWaterShare(double waterShare, double standardDeviation) =>
        new(
            Finite.Within(waterShare, 0, MostWaterShare),
            Finite.Within(standardDeviation, 0, 0.2),
            isMeasured: true
        );

    /// <summary>Weighed mix that brings a mass of dry sea salt.</summary>
    public Mass ToWeigh(Mass drySalt) => Mass.FromGrams(drySalt.Grams / (1 - WaterShare));

    /// <summary>Dry sea salt in a weighed mass of mix.</summary>
    public Mass DrySaltIn(Mass weighed) => Mass.FromGrams(weighed.Grams * (1 - WaterShare));
}
