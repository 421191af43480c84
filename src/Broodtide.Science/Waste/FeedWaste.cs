using Broodtide.Units;

namespace Broodtide.Science.Waste;

/// <summary>
/// Total ammonia (TAN: NH3 and NH4+ together, always as nitrogen) that feed and animals give off.
/// </summary>
public static class FeedWaste
{
    /// <summary>
    /// TAN by the protein of the feed, as a share: nitrogen in protein 0.16, times what is taken in, times what is given
    /// off, times the part that is ammonia (Timmons and Ebeling, Recirculating Aquaculture). It supposes that the animals
    /// eat the feed; of uneaten powder all the nitrogen decays.
    /// </summary>
    public const double TanOfEatenProtein = 0.092;

    /// <summary>TAN a day in a volume.</summary>
    /// <param name="feedPerDay">Feed a day.</param>
    /// <param name="protein">Share of the feed that is protein.</param>
    /// <param name="vessel">Water, above zero.</param>
    /// <returns>mg/L/d as nitrogen.</returns>
    /// <exception cref="ArgumentOutOfRangeException">No water.</exception>
    public static double TanOfEatenMilligramsPerLitreDay(
        Mass feedPerDay,
        Probability protein,
        Volume vessel
    ) =>
        feedPerDay.Milligrams
        * protein.Value
        * TanOfEatenProtein
        / Finite.Positive(vessel.Litres, nameof(vessel));

    /// <summary>A share made of several, one after the other.</summary>
    /// <param name="shares">From 0 to 1 each; one or more.</param>
    /// <exception cref="ArgumentException">None.</exception>
    public static double Coefficient(params ReadOnlySpan<Probability> shares)
    {
        if (shares.IsEmpty)
        {
            throw new ArgumentException("There is no share.", nameof(shares));
        }

        var product = 1.0;
        foreach (var share in shares)
        {
            product *= share.Value;
        }

        return product;
    }

    /// <summary>
    /// TAN that larvae give off in a day. Zoeae of <em>Macrobrachium amazonicum</em>: 0.65 +- 0.25 ug N a milligram and
    /// hour at the fifth stage (abstract of a thesis, University of Sao Paulo).
    /// </summary>
    /// <param name="larvae">How many, 0 or more.</param>
    /// <param name="dryMassEach">Dry mass of one.</param>
    /// <param name="microgramsPerMilligramHour">Excretion, ug N a milligram dry and hour, 0 or more.</param>
    /// <param name="vessel">Water, above zero.</param>
    /// <returns>mg/L/d as nitrogen.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static double TanOfLarvaeMilligramsPerLitreDay(
        double larvae,
        Mass dryMassEach,
        double microgramsPerMilligramHour,
        Volume vessel
    ) =>
        Finite.NotNegative(larvae)
        * dryMassEach.Milligrams
        * Finite.NotNegative(microgramsPerMilligramHour)
        * 24
        / 1000
        / Finite.Positive(vessel.Litres, nameof(vessel));

    /// <summary>TAN from matter that decays in the water.</summary>
    /// <param name="dry">Dry mass in the water.</param>
    /// <param name="nitrogen">Share of it that is nitrogen.</param>
    /// <param name="mineralised">Share of the nitrogen that has become ammonia.</param>
    public static Concentration TanOfDecay(
        Concentration dry,
        Probability nitrogen,
        Probability mineralised
    ) => Concentration.FromMilligramsPerLitre(dry.MilligramsPerLitre * nitrogen.Value * mineralised.Value);
}
