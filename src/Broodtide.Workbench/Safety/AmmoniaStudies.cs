using System.Collections.Immutable;
using Broodtide.Domain.Readings;
using Broodtide.Units;

namespace Broodtide.Workbench.Safety;

/// <summary>
/// A published measurement of what ammonia does, with the total ammonia that was in the water: authors turn it into
/// un-ionised ammonia by different formulas, so it is turned again here by one.
/// </summary>
/// <param name="Animal">Species and stage.</param>
/// <param name="Effect">What happened, and after how long.</param>
/// <param name="TotalNitrogen">Total ammonia as nitrogen.</param>
/// <param name="Printed">Un-ionised ammonia as nitrogen, as the authors print it.</param>
/// <param name="Water">The water it was done in; pH by ordinary buffers is supposed where nothing is said.</param>
/// <param name="Source">Where it was read.</param>
public sealed record AmmoniaStudy(
    string Animal,
    string Effect,
    Concentration TotalNitrogen,
    Concentration Printed,
    AmmoniaWater Water,
    string Source
)
{
    /// <summary>Un-ionised ammonia as nitrogen, mg/L, by the constant used everywhere here.</summary>
    public Interval RecomputedMilligramsPerLitre =>
        AmmoniaMeaning
            .Of(new AmmoniaReading(AmmoniaForm.TotalAsNitrogen, TotalNitrogen), Water)
            .UnionisedNitrogenMilligramsPerLitre;
}

/// <summary>The studies whose total ammonia, pH, temperature and salinity are all told.</summary>
public static class AmmoniaStudies
{
    private const string Vannamei = "Cobo et al. 2012, Aquaculture Research (abstract read)";
    private const string Tenellum =
        "Figueroa-Lucero et al. 2012, Rev. Int. Contam. Ambient. 28(2):145-150 (abstract read)";

    private static readonly AmmoniaWater Hatchery = new(
        8.5,
        AcidityScale.Nbs,
        Salinity.FromPractical(34),
        Temperature.FromCelsius(26)
    );

    private static readonly AmmoniaWater Brackish = new(
        7.79,
        AcidityScale.Nbs,
        Salinity.FromPractical(20),
        Temperature.FromCelsius(28)
    );

    /// <summary>All of them.</summary>
    public static ImmutableArray<AmmoniaStudy> All { get; } =
    [
        Larva("zoea 1", 4.2, 0.6),
        Larva("zoea 2", 9.9, 1.5),
        Larva("zoea 3", 16.0, 2.4),
        Larva("mysis 1", 19.0, 2.8),
        Larva("mysis 2", 17.3, 2.5),
        Larva("mysis 3", 17.5, 2.6),
        Larva("post-larva 1", 13.2, 1.9),
        // The abstract prints the ends of the series of concentrations it tried.
        new(
            "Macrobrachium tenellum, larvae of five days",
            "least tried",
            Milligrams(2.89),
            Milligrams(0.103),
            Brackish,
            Tenellum
        ),
        new(
            "Macrobrachium tenellum, larvae of five days",
            "most tried",
            Milligrams(185.48),
            Milligrams(6.585),
            Brackish,
            Tenellum
        ),
    ];

    private static AmmoniaStudy Larva(string stage, double total, double printed) =>
        new(
            $"Litopenaeus vannamei, {stage}",
            "half dead after 24 h",
            Milligrams(total),
            Milligrams(printed),
            Hatchery,
            Vannamei
        );

    private static Concentration Milligrams(double value) => Concentration.FromMilligramsPerLitre(value);
}
