using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Recording;

/// <summary>Cell densities that a journal tells, counted under the microscope or said by somebody.</summary>
public static class CellsSeen
{
    /// <summary>
    /// Volume over all squares, or of all drops, that were counted, uL. Neubauer: 1 mm2 under 0.1 mm, and 1/25 of it;
    /// Fuchs-Rosenthal: 1 mm2 under 0.2 mm; Sedgewick-Rafter: 1 mm2 under 1 mm (sizes of the trade; makers differ, so a
    /// volume that is said counts).
    /// </summary>
    /// <param name="counted">What was counted.</param>
    /// <returns>uL, above zero; none where no volume is known.</returns>
    public static double? Microlitres(CellsCounted counted)
    {
        double? one = counted.SquareVolume.AsVolume() is { Litres: > 0 } said
            ? said.Millilitres * 1000
            : counted.Chamber switch
            {
                ChamberKind.Neubauer => 0.1,
                ChamberKind.NeubauerMiddle => 0.004,
                ChamberKind.FuchsRosenthal => 0.2,
                ChamberKind.SedgewickRafter => 1,
                _ => null,
            };
        return one * counted.Squares.Sum(square => (double)(square.Number ?? 1)) is > 0 and var all
            ? all
            : null;
    }

    /// <summary>Cells counted in all squares.</summary>
    /// <param name="counted">What was counted.</param>
    public static int Cells(CellsCounted counted) =>
        (int)Math.Min(int.MaxValue, counted.Squares.Sum(square => (long)square.Cells));

    /// <summary>Density of the water the sample came from: cells over volume, times the dilution.</summary>
    /// <param name="counted">What was counted.</param>
    /// <returns>None where no volume is known.</returns>
    public static CellDensity? Density(CellsCounted counted) =>
        Microlitres(counted) is { } volume
            ? CellDensity.FromPerMillilitre(Cells(counted) / volume * 1000 * (counted.Dilution ?? 1))
            : null;

    /// <summary>Density of cells in a vessel that a fact tells.</summary>
    /// <param name="fact">The fact.</param>
    /// <param name="vessel">The vessel.</param>
    /// <returns>None where it tells none.</returns>
    public static CellDensity? In(Fact fact, VesselId vessel) =>
        fact switch
        {
            CellsCounted counted when counted.Vessel == vessel => Density(counted),
            ReadingTaken reading when reading.Vessel == vessel => Said(reading.Value),
            CultureHarvested harvested when harvested.Vessel == vessel => Said(harvested.Density),
            VesselFed fed when fed.From == vessel => Said(fed.Density),
            _ => null,
        };

    /// <summary>The newest density that was told of a vessel before an instant.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="vessel">The vessel.</param>
    /// <param name="before">The instant.</param>
    /// <returns>None where none was told.</returns>
    public static CellDensity? Last(House house, VesselId vessel, Instant before) =>
        house
            .Vessel(vessel)
            .CellDensities.Where(occurrence => occurrence.Happened.Earliest <= before)
            .Reverse()
            .Select(occurrence => In(occurrence.Fact, vessel))
            .FirstOrDefault(told => told is not null);

    private static CellDensity? Said(TypedNumber? number) =>
        number is { Unit: UnitCode.CellsPerMillilitre, Value: >= 0 and <= 1e12 }
            ? CellDensity.FromPerMillilitre(number.Value)
            : null;
}
