using System.Collections.Immutable;
using Broodtide.Units;

namespace Broodtide.Science.Food;

/// <summary>Which stock solution a substance is kept in.</summary>
public enum MediumStock
{
    /// <summary>Nitrate.</summary>
    Nitrate,

    /// <summary>Phosphate.</summary>
    Phosphate,

    /// <summary>Silicate: for diatoms alone, and last into the water.</summary>
    Silicate,

    /// <summary>Iron with its chelator, and the trace metals.</summary>
    Metals,

    /// <summary>Vitamins: kept cold and dark, put in when the water is cool.</summary>
    Vitamins,
}

/// <summary>A substance in a litre of finished medium.</summary>
/// <param name="Formula">As weighed, water of crystals included.</param>
/// <param name="Dissolved">Mass in a litre of finished medium.</param>
/// <param name="GramsPerMole">Molar mass as weighed, g/mol.</param>
/// <param name="Stock">The stock solution it is kept in.</param>
public sealed record MediumSubstance(
    string Formula,
    Concentration Dissolved,
    double GramsPerMole,
    MediumStock Stock
)
{
    /// <summary>umol/L in the finished medium.</summary>
    public double MicromolesPerLitre => CultureMedium.MicromolesPerLitre(Dissolved, GramsPerMole);
}

/// <summary>A medium to grow algae in: what is added to sea water.</summary>
/// <param name="Code">Its name, lower-case.</param>
/// <param name="Substances">What is in a litre.</param>
/// <param name="FromMemory">Whether the figures were recalled and not read in a source.</param>
public sealed record CultureMedia(string Code, ImmutableArray<MediumSubstance> Substances, bool FromMemory)
{
    private static readonly ImmutableArray<MediumSubstance> Guillard =
    [
        Of("NaNO3", 75, 84.995, MediumStock.Nitrate),
        Of("NaH2PO4.H2O", 5, 137.99, MediumStock.Phosphate),
        Of("Na2SiO3.9H2O", 30, 284.2, MediumStock.Silicate),
        Of("FeCl3.6H2O", 3.15, 270.3, MediumStock.Metals),
        Of("Na2EDTA.2H2O", 4.36, 372.24, MediumStock.Metals),
        Of("CuSO4.5H2O", 0.0098, 249.69, MediumStock.Metals),
        Of("Na2MoO4.2H2O", 0.0063, 241.95, MediumStock.Metals),
        Of("ZnSO4.7H2O", 0.022, 287.55, MediumStock.Metals),
        Of("CoCl2.6H2O", 0.01, 237.93, MediumStock.Metals),
        Of("MnCl2.4H2O", 0.18, 197.91, MediumStock.Metals),
        Of("thiamine.HCl", 0.1, 337.27, MediumStock.Vitamins),
        Of("biotin", 0.0005, 244.31, MediumStock.Vitamins),
        Of("cyanocobalamin", 0.0005, 1355.4, MediumStock.Vitamins),
    ];

    /// <summary>
    /// f/2 for diatoms: Guillard and Ryther 1962, Can. J. Microbiol. 8:229; Guillard 1975. Final concentrations in sea
    /// water as read in a culture collection's sheet.
    /// </summary>
    public static CultureMedia HalfF { get; } = new("f/2", Guillard, FromMemory: false);

    /// <summary>f/2 without silicate, for algae that build no shell of it.</summary>
    public static CultureMedia HalfFWithoutSilicate { get; } =
        new(
            "f/2-si",
            [.. Guillard.Where(substance => substance.Stock is not MediumStock.Silicate)],
            FromMemory: false
        );

    /// <summary>Half as strong as f/2, for cultures that are thinned often.</summary>
    public static CultureMedia QuarterF { get; } =
        new(
            "f/4",
            [
                .. HalfFWithoutSilicate.Substances.Select(substance =>
                    substance with
                    {
                        Dissolved = Concentration.FromMilligramsPerLitre(
                            substance.Dissolved.MilligramsPerLitre / 2
                        ),
                    }
                ),
            ],
            FromMemory: false
        );

    /// <summary>Walne's medium, much used in hatcheries; every figure from memory.</summary>
    public static CultureMedia Walne { get; } =
        new(
            "walne",
            [
                Of("NaNO3", 100, 84.995, MediumStock.Nitrate),
                Of("NaH2PO4.2H2O", 20, 156.01, MediumStock.Phosphate),
                Of("FeCl3.6H2O", 1.3, 270.3, MediumStock.Metals),
                Of("Na2EDTA.2H2O", 45, 372.24, MediumStock.Metals),
                Of("H3BO3", 33.6, 61.83, MediumStock.Metals),
                Of("MnCl2.4H2O", 0.36, 197.91, MediumStock.Metals),
                Of("ZnCl2", 0.021, 136.3, MediumStock.Metals),
                Of("CoCl2.6H2O", 0.02, 237.93, MediumStock.Metals),
                Of("(NH4)6Mo7O24.4H2O", 0.009, 1235.9, MediumStock.Metals),
                Of("CuSO4.5H2O", 0.02, 249.69, MediumStock.Metals),
                Of("thiamine.HCl", 0.2, 337.27, MediumStock.Vitamins),
                Of("cyanocobalamin", 0.01, 1355.4, MediumStock.Vitamins),
            ],
            FromMemory: true
        );

    /// <summary>Every medium that is known here.</summary>
    public static ImmutableArray<CultureMedia> All { get; } = [HalfF, HalfFWithoutSilicate, QuarterF, Walne];

    /// <summary>The medium of a code, in any case of letters; none if it is not known.</summary>
    public static CultureMedia? Find(string code) =>
        All.FirstOrDefault(medium => string.Equals(medium.Code, code, StringComparison.OrdinalIgnoreCase));

    /// <summary>Nitrogen of the nitrate in a litre, as N.</summary>
    public Concentration Nitrogen =>
        CultureMedium.MassOf(
            Substances
                .Where(substance => substance.Stock is MediumStock.Nitrate)
                .Sum(substance => substance.MicromolesPerLitre),
            NitrogenGramsPerMole
        );

    // Standard atomic weight, IUPAC 2021.
    private const double NitrogenGramsPerMole = 14.007;

    private static MediumSubstance Of(
        string formula,
        double milligramsPerLitre,
        double gramsPerMole,
        MediumStock stock
    ) => new(formula, Concentration.FromMilligramsPerLitre(milligramsPerLitre), gramsPerMole, stock);
}
