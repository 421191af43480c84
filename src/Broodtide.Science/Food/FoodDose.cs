using Broodtide.Units;

namespace Broodtide.Science.Food;

/// <summary>
/// Culture poured into a vessel to bring the food to a density: balances of cells. What the culture brings beside its
/// cells (medium, salt, pH) is not told by this.
/// </summary>
public static class FoodDose
{
    /// <summary>Culture to add, the volume growing by it, (Ct - C0) V / (Cc - Ct); none where enough is there.</summary>
    /// <param name="target">Wanted in the vessel.</param>
    /// <param name="present">In the vessel now.</param>
    /// <param name="vessel">Water in the vessel before.</param>
    /// <param name="culture">In the culture, above the target.</param>
    /// <exception cref="ArgumentOutOfRangeException">The culture is not denser than the target: it cannot be reached.</exception>
    public static Volume Added(CellDensity target, CellDensity present, Volume vessel, CellDensity culture) =>
        Lacking(target, present, culture) / (culture.PerMillilitre - target.PerMillilitre) * vessel;

    /// <summary>Culture that takes the place of water drawn off, (Ct - C0) V / (Cc - C0); none where enough is there.</summary>
    /// <param name="target">Wanted in the vessel.</param>
    /// <param name="present">In the vessel now.</param>
    /// <param name="vessel">Water in the vessel before and after.</param>
    /// <param name="culture">In the culture, above the target.</param>
    /// <exception cref="ArgumentOutOfRangeException">The culture is not denser than the target: it cannot be reached.</exception>
    public static Volume InExchange(
        CellDensity target,
        CellDensity present,
        Volume vessel,
        CellDensity culture
    ) =>
        Lacking(target, present, culture)
        / (culture.PerMillilitre - Math.Min(present.PerMillilitre, target.PerMillilitre))
        * vessel;

    /// <summary>Cells lost a day from a vessel held at a density, grazed, settled or dead, without growth.</summary>
    /// <param name="vessel">Water in the vessel.</param>
    /// <param name="held">Density held.</param>
    /// <param name="lostPerDay">Share lost a day.</param>
    public static double CellsPerDay(Volume vessel, CellDensity held, Probability lostPerDay) =>
        vessel.Millilitres * held.PerMillilitre * lostPerDay.Value;

    private static double Lacking(CellDensity target, CellDensity present, CellDensity culture) =>
        culture > target
            ? Math.Max(0, target.PerMillilitre - present.PerMillilitre)
            : throw new ArgumentOutOfRangeException(
                nameof(culture),
                culture,
                "A culture must be denser than what is to be reached with it."
            );
}
