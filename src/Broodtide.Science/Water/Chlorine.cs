using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>
/// Bleach to sterilise and thiosulfate to end it. Thiosulfate follows a MEASURED residual, after the contact time and
/// never with animals inside; a test that shows zero comes before any larva.
/// From IUPAC standard atomic weights: Cl2 70.90, NaOCl 74.44, Na2S2O3 158.11, Na2S2O3.5H2O 248.18 g/mol.
/// </summary>
public static class Chlorine
{
    /// <summary>
    /// Grams of pentahydrate for a gram of chlorine, 7.0: the rule of a water-test maker, equal to the reaction that
    /// needs most (2 thiosulfate for each Cl2).
    /// </summary>
    public const double UsualThiosulfateGramsPerGram = 7.0;

    private const double ChlorineMolarMass = 70.90;
    private const double HypochloriteMolarMass = 74.44;
    private const double ThiosulfateMolarMass = 158.11;
    private const double PentahydrateMolarMass = 248.18;

    /// <summary>Available chlorine of bleach of so much sodium hypochlorite.</summary>
    public static Concentration AvailableIn(Concentration sodiumHypochlorite) =>
        Concentration.FromMilligramsPerLitre(
            ChlorineMolarMass / HypochloriteMolarMass * sodiumHypochlorite.MilligramsPerLitre
        );

    /// <summary>Bleach that brings water to a dose.</summary>
    /// <param name="dose">Available chlorine wanted in the water.</param>
    /// <param name="water">Volume to treat.</param>
    /// <param name="strength">Available chlorine of the bleach, measured: it fades with time and warmth.</param>
    /// <exception cref="ArgumentOutOfRangeException">The bleach has no strength.</exception>
    public static Volume BleachFor(Concentration dose, Volume water, Concentration strength) =>
        Volume.FromLitres((dose * water).Milligrams / Finite.Positive(strength.MilligramsPerLitre));

    /// <summary>Thiosulfate for a measured residual.</summary>
    /// <param name="measuredResidual">Chlorine found by a test after the contact time.</param>
    /// <param name="water">Volume of the water.</param>
    /// <param name="gramsPerGram">Grams of thiosulfate for a gram of chlorine, above 0 to 20.</param>
    /// <exception cref="ArgumentOutOfRangeException">The ratio is outside its limits.</exception>
    public static Mass ThiosulfateFor(
        Concentration measuredResidual,
        Volume water,
        double gramsPerGram = UsualThiosulfateGramsPerGram
    ) => Finite.Within(gramsPerGram, double.Epsilon, 20) * (measuredResidual * water);

    /// <summary>Grams of thiosulfate that take up a gram of chlorine.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A form or reaction that does not exist.</exception>
    public static double ThiosulfatePerGram(ThiosulfateForm form, ThiosulfateReaction reaction) =>
        MoleculesPerChlorine(reaction) * MolarMass(form) / ChlorineMolarMass;

    private static double MolarMass(ThiosulfateForm form) =>
        form switch
        {
            ThiosulfateForm.Pentahydrate => PentahydrateMolarMass,
            ThiosulfateForm.Anhydrous => ThiosulfateMolarMass,
            _ => throw new ArgumentOutOfRangeException(nameof(form), form, "Unknown form."),
        };

    private static double MoleculesPerChlorine(ThiosulfateReaction reaction) =>
        reaction switch
        {
            ThiosulfateReaction.Tetrathionate => 2,
            ThiosulfateReaction.Sulfur => 1,
            ThiosulfateReaction.Sulfate => 0.25,
            _ => throw new ArgumentOutOfRangeException(nameof(reaction), reaction, "Unknown reaction."),
        };
}

/// <summary>The form sodium thiosulfate is sold in.</summary>
public enum ThiosulfateForm
{
    /// <summary>Na2S2O3.5H2O, the usual crystals.</summary>
    Pentahydrate,

    /// <summary>Na2S2O3, without water.</summary>
    Anhydrous,
}

/// <summary>How far thiosulfate is oxidised by chlorine.</summary>
public enum ThiosulfateReaction
{
    /// <summary>To tetrathionate: 2 thiosulfate take up one Cl2.</summary>
    Tetrathionate,

    /// <summary>To sulfate and sulfur: one for one.</summary>
    Sulfur,

    /// <summary>Wholly to sulfate: one takes up 4 Cl2.</summary>
    Sulfate,
}
