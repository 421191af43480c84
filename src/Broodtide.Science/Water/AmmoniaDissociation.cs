using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// The pKa of ammonium in fresh and sea water, by four sources. Each belongs to a pH scale: the constants of
/// Hampson and of Bower and Bidwell go with electrodes set in NBS/NIST buffers, that of Clegg and Whitfield with the
/// total scale (Tris buffers in sea water).
/// </summary>
public static class AmmoniaDissociation
{
    /// <summary>
    /// Fresh water: pKa = 0.09018 + 2729.92/T. Emerson et al. 1975, J. Fish. Res. Board Can. 32:2379; 0 to 50 degC.
    /// </summary>
    public static Computed<double> Emerson(Temperature temperature) =>
        new(
            0.09018 + (2729.92 / Finite.Positive(temperature.Kelvin)),
            PublishedRange.Holds(temperature.Celsius, 0, 50)
        );

    /// <summary>
    /// Fresh to sea water: Hampson 1977 after Whitfield 1974, as in EPA 440/5-88-004 (1989); coefficients from memory,
    /// supported by Clegg and Whitfield moved to the free scale (within 0.012). S 0 to 40, 0 to 35 degC.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">A salinity of 994 or more, where the ionic strength ends.</exception>
    public static Computed<double> Hampson(Salinity salinity, Temperature temperature)
    {
        var s = Finite.Within(salinity.Practical, 0, 900);
        var ionicStrength = 19.9273 * s / (1000 - (1.005109 * s));
        return new(
            9.245 + (0.116 * ionicStrength) + (0.0324 * (298.15 - temperature.Kelvin)),
            PublishedRange.Holds(s, 0, 40) && PublishedRange.Holds(temperature.Celsius, 0, 35)
        );
    }

    /// <summary>
    /// Sea water of S 32 to 40: pKa = 9.35 + 0.0324 (25 - t), which the table of Bower and Bidwell 1978, J. Fish. Res.
    /// Board Can. 35:1012, follows within 0.5 % (own evaluation). Published for 10 to 25 degC, the part that was read.
    /// </summary>
    public static Computed<double> BowerBidwell(Salinity salinity, Temperature temperature) =>
        new(
            9.35 + (0.0324 * (25 - temperature.Celsius)),
            PublishedRange.Holds(salinity.Practical, 32, 40)
                && PublishedRange.Holds(temperature.Celsius, 10, 25)
        );

    /// <summary>
    /// Total hydrogen scale, mol per kg of water: Clegg and Whitfield 1995, Geochim. Cosmochim. Acta 59:2403, eq. 18;
    /// S 0 to 40, -2 to 40 degC; 5 % in K by its abstract.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">At absolute zero.</exception>
    public static Computed<double> CleggWhitfieldTotalScale(Salinity salinity, Temperature temperature)
    {
        var t = Finite.Positive(temperature.Kelvin);
        var s = salinity.Practical;
        var rootT = Math.Sqrt(t);
        var rootS = Math.Sqrt(s);
        var pka =
            9.244605
            - (2729.33 * ((1 / 298.15) - (1 / t)))
            + ((0.04203362 - (11.24742 / t)) * Math.Sqrt(rootS))
            + ((-13.6416 + (1.176949 * rootT) - (0.02860785 * t) + (545.4834 / t)) * rootS)
            + ((-0.1462507 + (0.0090226468 * rootT) - (0.0001471361 * t) + (10.5425 / t)) * s * rootS)
            + ((0.004669309 - (0.0001691742 * rootT) - (0.5677934 / t)) * s * s)
            + ((-2.354039e-5 + (0.009698623 / t)) * s * s * rootS);
        return new(
            Finite.Required(pka),
            PublishedRange.Holds(s, 0, 40) && PublishedRange.Holds(temperature.Celsius, -2, 40)
        );
    }
}
