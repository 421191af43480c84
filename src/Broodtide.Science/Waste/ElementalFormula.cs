using Broodtide.Units;

namespace Broodtide.Science.Waste;

/// <summary>
/// Living matter as atoms of its elements, such as C106 H263 O110 N16 P for plankton or C H1.8 O0.5 N0.2 for yeast.
/// Atomic masses: IUPAC standard atomic weights, abridged (2021).
/// </summary>
public sealed record ElementalFormula
{
    private const double CarbonGrams = 12.011;
    private const double HydrogenGrams = 1.008;
    private const double OxygenGrams = 15.999;
    private const double NitrogenGrams = 14.007;
    private const double PhosphorusGrams = 30.974;

    /// <summary>Of so many atoms each; only their ratio matters.</summary>
    /// <param name="carbon">Atoms of carbon, above zero.</param>
    /// <param name="hydrogen">Atoms of hydrogen, 0 or more.</param>
    /// <param name="oxygen">Atoms of oxygen, 0 or more.</param>
    /// <param name="nitrogen">Atoms of nitrogen, 0 or more.</param>
    /// <param name="phosphorus">Atoms of phosphorus, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public ElementalFormula(
        double carbon,
        double hydrogen,
        double oxygen,
        double nitrogen,
        double phosphorus = 0
    )
    {
        Carbon = Finite.Positive(carbon);
        Hydrogen = Finite.NotNegative(hydrogen);
        Oxygen = Finite.NotNegative(oxygen);
        Nitrogen = Finite.NotNegative(nitrogen);
        Phosphorus = Finite.NotNegative(phosphorus);
    }

    /// <summary>Atoms of carbon.</summary>
    public double Carbon { get; }

    /// <summary>Atoms of hydrogen.</summary>
    public double Hydrogen { get; }

    /// <summary>Atoms of oxygen.</summary>
    public double Oxygen { get; }

    /// <summary>Atoms of nitrogen.</summary>
    public double Nitrogen { get; }

    /// <summary>Atoms of phosphorus.</summary>
    public double Phosphorus { get; }

    /// <summary>Mass of a mole of the formula, g/mol.</summary>
    public double GramsPerMole =>
        (Carbon * CarbonGrams)
        + (Hydrogen * HydrogenGrams)
        + (Oxygen * OxygenGrams)
        + (Nitrogen * NitrogenGrams)
        + (Phosphorus * PhosphorusGrams);

    /// <summary>Share of the mass that is nitrogen.</summary>
    public double NitrogenFraction => Nitrogen * NitrogenGrams / GramsPerMole;

    /// <summary>Mass that is built from a gram of nitrogen, g/g.</summary>
    /// <exception cref="InvalidOperationException">There is no nitrogen in it.</exception>
    public double GramsPerGramNitrogen =>
        Nitrogen > 0
            ? GramsPerMole / (Nitrogen * NitrogenGrams)
            : throw new InvalidOperationException("Without nitrogen there is no mass by its nitrogen.");

    /// <summary>
    /// Oxygen that the whole decay takes, g O2 a gram (theoretical oxygen demand): carbon to carbon dioxide, hydrogen to
    /// water, nitrogen to ammonia, or on to nitrate. Phosphorus is left out.
    /// </summary>
    /// <param name="nitrified">Whether the ammonia is turned into nitrate too, two O2 each.</param>
    public double OxygenDemand(bool nitrified)
    {
        var toAmmonia = Carbon + (Hydrogen / 4) - (Oxygen / 2) - (3 * Nitrogen / 4);
        return (toAmmonia + (nitrified ? 2 * Nitrogen : 0)) * 2 * OxygenGrams / GramsPerMole;
    }
}
