using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// Specific gravity: density of the sample at its temperature over density of pure water at the reference
/// temperature, both by EOS-80. The reference pair must be known: 1.026 at 25 degC is S = 34.5 against water of
/// 25 degC and 38.1 against water of 4 degC. Range as <see cref="SeawaterDensity"/>.
/// </summary>
public static class SpecificGravity
{
    /// <summary>Specific gravity of water of a salinity, without unit.</summary>
    /// <param name="salinity">Practical salinity.</param>
    /// <param name="pair">Temperatures of the sample and of the reference water.</param>
    /// <exception cref="ArgumentOutOfRangeException">So far outside that a density has no value.</exception>
    public static Computed<double> Of(Salinity salinity, ReferencePair pair)
    {
        var sample = SeawaterDensity.Eos80(salinity, pair.Sample);
        var water = SeawaterDensity.PureWater(pair.Water);
        return new(
            sample.Value.KilogramsPerCubicMetre / water.Value.KilogramsPerCubicMetre,
            sample.WithinPublishedRange && water.WithinPublishedRange
        );
    }

    /// <summary>Salinity of water of a specific gravity.</summary>
    /// <param name="specificGravity">Ratio without unit, such as 1.026.</param>
    /// <param name="pair">Temperatures of the sample and of the reference water.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// Not positive, or no salinity has this specific gravity: the water is lighter than fresh water.
    /// </exception>
    public static Computed<Salinity> SalinityAt(double specificGravity, ReferencePair pair)
    {
        var water = SeawaterDensity.PureWater(pair.Water);
        var salinity = SeawaterDensity.SalinityAt(
            Density.FromKilogramsPerCubicMetre(
                Finite.Positive(specificGravity) * water.Value.KilogramsPerCubicMetre
            ),
            pair.Sample
        );
        return new(salinity.Value, salinity.WithinPublishedRange && water.WithinPublishedRange);
    }

    /// <summary>The trying form of <see cref="SalinityAt"/>.</summary>
    /// <returns>Whether a salinity from 0 to 500 has this specific gravity.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or not positive.</exception>
    public static bool TrySalinityAt(
        double specificGravity,
        ReferencePair pair,
        out Computed<Salinity> salinity
    )
    {
        var water = SeawaterDensity.PureWater(pair.Water);
        var found = SeawaterDensity.TrySalinityAt(
            Density.FromKilogramsPerCubicMetre(
                Finite.Positive(specificGravity) * water.Value.KilogramsPerCubicMetre
            ),
            pair.Sample,
            out var computed
        );
        salinity = computed with
        {
            WithinPublishedRange = computed.WithinPublishedRange && water.WithinPublishedRange,
        };
        return found;
    }
}
