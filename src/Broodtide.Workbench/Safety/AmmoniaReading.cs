using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Workbench.Safety;

/// <summary>As what an amount of ammonia is said. Kits, papers and forums mean four different things.</summary>
public enum AmmoniaForm
{
    /// <summary>Ammonia and ammonium together, as nitrogen (TAN).</summary>
    TotalAsNitrogen,

    /// <summary>Ammonia and ammonium together, as the ion NH4+.</summary>
    TotalAsAmmonium,

    /// <summary>Un-ionised ammonia alone, as nitrogen.</summary>
    UnionisedAsNitrogen,

    /// <summary>Un-ionised ammonia alone, as NH3.</summary>
    UnionisedAsAmmonia,
}

/// <summary>An amount of ammonia with as what it is said.</summary>
/// <param name="Form">As what.</param>
/// <param name="Amount">How much, in that form.</param>
public sealed record AmmoniaReading(AmmoniaForm Form, Concentration Amount)
{
    /// <summary>An amount typed in a unit of the journal.</summary>
    /// <param name="typed">The number.</param>
    /// <returns>None where the unit is none of ammonia, or the number is none.</returns>
    public static AmmoniaReading? Of(TypedNumber typed)
    {
        AmmoniaForm? form = typed.Unit switch
        {
            "mg/L{TAN-N}" => AmmoniaForm.TotalAsNitrogen,
            "mg/L{NH4}" => AmmoniaForm.TotalAsAmmonium,
            "mg/L{NH3-N}" => AmmoniaForm.UnionisedAsNitrogen,
            "mg/L{NH3}" => AmmoniaForm.UnionisedAsAmmonia,
            _ => null,
        };
        return form is { } known && typed.Value is >= 0 and <= 1e6
            ? new(known, Concentration.FromMilligramsPerLitre(typed.Value))
            : null;
    }
}

/// <summary>The water in which ammonia parts into the ion and the gas that poisons.</summary>
/// <param name="PH">pH as the meter shows it, 0 to 14.</param>
/// <param name="Scale">The scale of the buffers the meter is set with.</param>
/// <param name="Salinity">Salinity.</param>
/// <param name="Temperature">Temperature.</param>
public sealed record AmmoniaWater(double PH, AcidityScale Scale, Salinity Salinity, Temperature Temperature);

/// <summary>What an amount of ammonia means.</summary>
/// <param name="TotalNitrogen">Ammonia and ammonium, as nitrogen (TAN).</param>
/// <param name="UnionisedShare">Share of it that is un-ionised.</param>
/// <param name="UnionisedNitrogenMilligramsPerLitre">
/// Un-ionised ammonia as nitrogen, mg/L, with the tenth by which published constants differ, both ways; exact where it was said itself.
/// </param>
/// <param name="UnionisedAmmonia">The same, said as NH3.</param>
/// <param name="WithinPublishedRange">Whether salinity and temperature lie where the constant was measured.</param>
public sealed record AmmoniaMeaning(
    Concentration TotalNitrogen,
    Probability UnionisedShare,
    Interval UnionisedNitrogenMilligramsPerLitre,
    Concentration UnionisedAmmonia,
    bool WithinPublishedRange
)
{
    // IUPAC standard atomic weights: NH4+ 18.039, N 14.007.
    internal const double NitrogenOfAmmonium = 14.007 / 18.039;

    /// <summary>
    /// What an amount means in a water. Hampson's constant, of the EPA's criteria, where the meter is set with ordinary
    /// buffers; that of Clegg and Whitfield where it is set on the total scale. In sea water the wrong one is wrong by a quarter.
    /// </summary>
    /// <param name="reading">The amount.</param>
    /// <param name="water">The water.</param>
    /// <exception cref="ArgumentOutOfRangeException">The pH is outside 0 to 14.</exception>
    public static AmmoniaMeaning Of(AmmoniaReading reading, AmmoniaWater water)
    {
        var share = Share(water);
        var said = reading.Amount;
        var isTotal = reading.Form is AmmoniaForm.TotalAsNitrogen or AmmoniaForm.TotalAsAmmonium;
        var nitrogen = reading.Form switch
        {
            AmmoniaForm.TotalAsNitrogen or AmmoniaForm.UnionisedAsNitrogen => said,
            AmmoniaForm.TotalAsAmmonium => Concentration.FromMilligramsPerLitre(
                NitrogenOfAmmonium * said.MilligramsPerLitre
            ),
            _ => Ammonia.AsNitrogen(said),
        };
        var poison = isTotal ? Ammonia.UnionisedNitrogen(nitrogen, share.Value) : nitrogen;
        var total =
            isTotal ? nitrogen
            : share.Value.Value > 0
                ? Concentration.FromMilligramsPerLitre(nitrogen.MilligramsPerLitre / share.Value.Value)
            : nitrogen;
        var middle = poison.MilligramsPerLitre;
        var doubt = isTotal ? Ammonia.RelativeDoubt : 0;
        return new(
            total,
            share.Value,
            Interval.FromPoints(middle * (1 - doubt), middle, middle * (1 + doubt)),
            Ammonia.AsAmmonia(poison),
            share.WithinPublishedRange
        );
    }

    /// <summary>Share of ammonia that is un-ionised in a water.</summary>
    /// <param name="water">The water.</param>
    /// <exception cref="ArgumentOutOfRangeException">The pH is outside 0 to 14.</exception>
    public static Computed<Probability> Share(AmmoniaWater water) =>
        water.Scale is AcidityScale.Total
            ? Ammonia.FractionOnTotalScale(water.Salinity, water.Temperature, water.PH)
            : Ammonia.Fraction(water.Salinity, water.Temperature, water.PH);
}
