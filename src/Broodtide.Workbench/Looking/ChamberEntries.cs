using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Science.Counting;
using Broodtide.Science.Imaging.Chambers;

namespace Broodtide.Workbench.Looking;

/// <summary>Cells counted in a picture of a chamber, as an entry.</summary>
public static class ChamberEntries
{
    /// <summary>
    /// The entry of a count: each square by itself, and the volume over one where it is not the chamber's own square that was
    /// counted.
    /// </summary>
    /// <param name="vessel">The vessel whose water it was.</param>
    /// <param name="told">What was counted.</param>
    /// <param name="way">How.</param>
    /// <exception cref="ArgumentException">The chamber is none that the journal knows.</exception>
    public static CellsCounted Of(VesselId vessel, ChamberTold told, ChamberWay way)
    {
        var usual = way.Chamber.Part(1).Microlitres;
        return new(
            vessel,
            Kind(way.Chamber),
            [.. told.Counted.Select(square => new SquaresCounted(square.Cells))],
            way.Dilution > 1 ? way.Dilution : null,
            Math.Abs((told.SquareMicrolitres / usual) - 1) < 1e-9
                ? null
                : TypedNumber.Of(told.SquareMicrolitres / 1_000, "mL")
        );
    }

    private static ChamberKind Kind(CountingChamber chamber) =>
        chamber.Code switch
        {
            "neubauer" => ChamberKind.Neubauer,
            "neubauer-middle" => ChamberKind.NeubauerMiddle,
            "fuchs-rosenthal" => ChamberKind.FuchsRosenthal,
            "sedgewick-rafter" => ChamberKind.SedgewickRafter,
            _ => throw new ArgumentException(
                $"The journal knows no chamber {chamber.Code}.",
                nameof(chamber)
            ),
        };
}
