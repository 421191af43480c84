using System.Text.Json.Serialization;
using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Domain.Readings;

/// <summary>What cells or small animals were counted in.</summary>
[JsonConverter(typeof(Words<ChamberKind>))]
public enum ChamberKind
{
    /// <summary>Improved Neubauer; a square is one of the nine large ones, 1 mm2 under 0.1 mm: 0.1 uL.</summary>
    Neubauer,

    /// <summary>Improved Neubauer; a square is one of the 25 in the middle of the large ones: 0.004 uL.</summary>
    NeubauerMiddle,

    /// <summary>Fuchs-Rosenthal; a square is one of the sixteen large ones, 1 mm2 under 0.2 mm: 0.2 uL.</summary>
    FuchsRosenthal,

    /// <summary>Sedgewick-Rafter; a square is one of the thousand, 1 mm2 under 1 mm: 1 uL.</summary>
    SedgewickRafter,

    /// <summary>Drops of a known volume.</summary>
    Drops,

    /// <summary>Any other, with the volume over one square.</summary>
    Other,
}

/// <summary>Cells seen in some squares, or in some drops.</summary>
/// <param name="Cells">How many.</param>
/// <param name="Number">In how many squares; one if left out.</param>
public sealed record SquaresCounted(int Cells, int? Number = null);

/// <summary>
/// Cells were counted under the microscope: what was seen is kept, and the density and its error are worked out.
/// A density that somebody else worked out is a <see cref="ReadingTaken"/>.
/// </summary>
/// <param name="Vessel">The vessel whose water it was.</param>
/// <param name="Chamber">What they were counted in.</param>
/// <param name="Squares">What was seen; squares counted one by one tell how clumped the cells are.</param>
/// <param name="Dilution">How many times the sample was diluted, fixative included; 1 if left out, below 1 if it was concentrated.</param>
/// <param name="SquareVolume">Volume over one square, or of one drop, if it is not the chamber's usual one.</param>
public sealed record CellsCounted(
    VesselId Vessel,
    ChamberKind Chamber,
    IReadOnlyList<SquaresCounted> Squares,
    double? Dilution = null,
    TypedNumber? SquareVolume = null
) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.Of(Vessel)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, TypedNumber? Number, Dimension Dimension)> Numbers() =>
        [("squareVolume", SquareVolume, Dimension.Volume)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, long? Count)> Counts() =>
        Squares.SelectMany(square =>
            new[] { ("squares.cells", (long?)square.Cells), ("squares.number", square.Number) }
        );

    /// <inheritdoc/>
    public override IEnumerable<(string Name, double? Value, double Lowest, double Highest)> Plain() =>
        [("dilution", Dilution, 1e-6, 1e9)];

    /// <inheritdoc/>
    public override IEnumerable<(string Name, IEnumerable<object?>? List)> Lists() => [("squares", Squares)];

    /// <inheritdoc/>
    private protected override Remark? Amiss() =>
        Squares.Count == 0 || Squares.Any(square => square.Number == 0)
            ? new Remark("no-square-counted", new Argument("field", "squares"))
        : SquareVolume is null
            ? Chamber is ChamberKind.Drops or ChamberKind.Other
                    ? new Remark("square-volume-needed", new Argument("field", "squareVolume"))
                : null
        : SquareVolume.Value == 0 ? new Remark("square-volume-needed", new Argument("field", "squareVolume"))
        : null;
}
