using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Workbench.Mixing;

/// <summary>
/// Bleach into water and out of it again. No bleach and no thiosulfate goes into water with animals (100 mg/L
/// thiosulfate killed first-stage Macrobrachium larvae: New and Valenti, eds, 2000); thiosulfate follows a measured
/// residual; a test that shows zero is the gate to animals.
/// </summary>
public static class Sterilising
{
    /// <summary>
    /// Usual dose, 5 mg/L of available chlorine for a day: the upper end of the 2 to 5 mg/L active chlorine of New
    /// and Valenti (eds) 2000.
    /// </summary>
    public static Concentration UsualDose { get; } = Concentration.FromMilligramsPerLitre(5);

    /// <summary>
    /// Chlorine at or below this counts as none, mg/L: the finest step common test kits show is 0.02, and larvae of
    /// Penaeus monodon need less than 0.05 (Guo et al. 2007, Taiwan Fish. Res. 15(2):73).
    /// </summary>
    public const double ZeroMilligramsPerLitre = 0.02;

    /// <summary>Bleach for a volume of water.</summary>
    /// <param name="water">Volume to treat.</param>
    /// <param name="dose">Available chlorine wanted.</param>
    /// <param name="strength">Available chlorine of the bleach.</param>
    /// <param name="animalsInside">Whether anything lives in it.</param>
    public static MixingAnswer<Volume> Bleach(
        Volume water,
        Concentration dose,
        Concentration strength,
        bool animalsInside
    )
    {
        if (animalsInside)
        {
            return MixingAnswer<Volume>.No(MixingRefusalCode.AnimalsInside, 0);
        }

        if (Wishes.OfVolume(water) is { } no)
        {
            return new MixingAnswer<Volume>.Refused(no);
        }

        return strength <= dose
            ? MixingAnswer<Volume>.No(
                MixingRefusalCode.BleachWithoutStrength,
                strength.GramsPerLitre,
                dose.GramsPerLitre
            )
            : new MixingAnswer<Volume>.Found(Chlorine.BleachFor(dose, water, strength));
    }

    /// <summary>Thiosulfate (pentahydrate crystals) for the chlorine that a test found after the contact time.</summary>
    /// <param name="water">Volume of the water.</param>
    /// <param name="measuredResidual">What the test showed; none where none was made. The dose is no measure of it.</param>
    /// <param name="animalsInside">Whether anything lives in it.</param>
    /// <returns>Grams to dissolve, 0 where the test shows none; or why not.</returns>
    public static MixingAnswer<Mass> Thiosulfate(
        Volume water,
        Concentration? measuredResidual,
        bool animalsInside
    )
    {
        if (animalsInside)
        {
            return MixingAnswer<Mass>.No(MixingRefusalCode.AnimalsInside, 0);
        }

        if (Wishes.OfVolume(water) is { } no)
        {
            return new MixingAnswer<Mass>.Refused(no);
        }

        return measuredResidual is { } residual
            ? new MixingAnswer<Mass>.Found(
                residual.MilligramsPerLitre <= ZeroMilligramsPerLitre
                    ? default
                    : Chlorine.ThiosulfateFor(residual, water)
            )
            : MixingAnswer<Mass>.No(MixingRefusalCode.ResidualNotMeasured, 0);
    }

    /// <summary>The gate: whether animals may go in, after the last test.</summary>
    /// <param name="lastTest">Chlorine the last test showed; none where none was made since the last bleach.</param>
    /// <returns>Null where they may; else why not.</returns>
    public static MixingRefusal? GateToAnimals(Concentration? lastTest) =>
        lastTest is not { } shown ? new(MixingRefusalCode.ResidualNotMeasured, 0, ZeroMilligramsPerLitre)
        : shown.MilligramsPerLitre <= ZeroMilligramsPerLitre ? null
        : new(MixingRefusalCode.ChlorineLeft, shown.MilligramsPerLitre, ZeroMilligramsPerLitre);
}
