using Broodtide.Science.Waste;
using Broodtide.Units;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>What dry food is made of, as far as its decay matters.</summary>
public sealed record FeedComposition
{
    /// <summary>A food by its nitrogen and the oxygen its decay takes.</summary>
    /// <param name="nitrogen">Share of the dry mass that is nitrogen, 0 to 0.25.</param>
    /// <param name="oxygenGramsPerGram">Oxygen for the decay of a gram down to ammonia, g, 0 to 4.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public FeedComposition(double nitrogen, double oxygenGramsPerGram)
    {
        NitrogenShare = Finite.Within(nitrogen, 0, 0.25);
        OxygenGramsPerGram = Finite.Within(oxygenGramsPerGram, 0, 4);
    }

    /// <summary>Share of the dry mass that is nitrogen.</summary>
    public double NitrogenShare { get; }

    /// <summary>Oxygen for the decay of a gram down to ammonia, g.</summary>
    public double OxygenGramsPerGram { get; }

    /// <summary>
    /// Dry yeast: nitrogen 8 % of the mass (fodder yeast holds 6.4 to 9.6 %), oxygen by the formula CH1.8O0.5N0.2 of yeast
    /// without ash, 1.36 g/g, times 0.93 for the ash (from memory).
    /// </summary>
    public static FeedComposition Yeast { get; } =
        new(0.08, new ElementalFormula(1, 1.8, 0.5, 0.2).OxygenDemand(nitrified: false) * 0.93);

    /// <summary>
    /// A powder by its protein: nitrogen 16 % of protein; oxygen 1.2 g/g, as proteins, fats and starch in usual shares
    /// make it (this project's estimate).
    /// </summary>
    /// <param name="protein">Share of the dry mass that is protein.</param>
    public static FeedComposition Powder(Probability protein) => new(0.16 * protein.Value, 1.2);

    /// <summary>Starch, as in rice water: no nitrogen, 1.18 g of oxygen a gram, by C6H10O5.</summary>
    public static FeedComposition Starch { get; } =
        new(0, new ElementalFormula(6, 10, 5, 0).OxygenDemand(nitrified: false));
}
