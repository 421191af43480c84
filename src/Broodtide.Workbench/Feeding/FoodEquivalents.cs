using Broodtide.Science.Food;
using Broodtide.Units;

namespace Broodtide.Workbench.Feeding;

/// <summary>A food that holds as much dry mass.</summary>
/// <param name="Alga">The alga.</param>
/// <param name="Density">Cells that hold it.</param>
/// <param name="CellsForOne">Cells of it for one cell of the food asked about; none where that was no alga.</param>
public sealed record FoodEquivalent(AlgaKind Alga, CellDensity Density, double? CellsForOne);

/// <summary>Foods of the same dry mass: a first step from one food to another, never a promise that it feeds as well.</summary>
/// <param name="Dry">Dry mass in a litre.</param>
/// <param name="Others">The algae, largest cell first.</param>
/// <param name="Remarks">What to mind.</param>
public sealed record FoodEquivalents(
    Concentration Dry,
    IReadOnlyList<FoodEquivalent> Others,
    IReadOnlyList<Remark> Remarks
)
{
    /// <summary>The same dry mass as a density of an alga.</summary>
    /// <param name="alga">The alga.</param>
    /// <param name="density">Its density.</param>
    public static FoodEquivalents Of(AlgaKind alga, CellDensity density)
    {
        ArgumentNullException.ThrowIfNull(alga);
        return Of(DryMass.Of(density, alga.DryPicogramsPerCell), alga);
    }

    /// <summary>The same dry mass as a dry food.</summary>
    /// <param name="dry">Its dry mass in a litre.</param>
    /// <param name="alga">The alga it came of, if it is one.</param>
    public static FoodEquivalents Of(Concentration dry, AlgaKind? alga = null) =>
        new(
            dry,
            [
                .. AlgaKind
                    .All.OrderByDescending(other => other.DryPicogramsPerCell)
                    .Select(other => new FoodEquivalent(
                        other,
                        DryMass.Cells(dry, other.DryPicogramsPerCell),
                        alga is null ? null : alga.DryPicogramsPerCell / other.DryPicogramsPerCell
                    )),
            ],
            [new Remark("equivalents-from-memory"), new Remark("equivalents-not-as-good")]
        );
}
