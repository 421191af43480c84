using System.Globalization;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Units;
using Broodtide.Workbench.Recording;

namespace Broodtide.Workbench.OldNotes;

/// <summary>What a cell becomes. A number is read with the decimal mark that was named and no other; a unit that stands in the
/// cell must be the one that was named for its column.</summary>
internal static class NotesCells
{
    /// <summary>The fact of a cell; a reason where it cannot be read; neither where it says nothing.</summary>
    public static (Fact? Fact, Remark? Wrong) Read(
        MappedColumn column,
        DecimalMark mark,
        VesselId vessel,
        ReadOnlySpan<char> cell
    )
    {
        cell = cell.Trim();
        if (cell.IsEmpty || cell is "-" or "–" or "—")
        {
            return (null, null);
        }

        if (column.Meaning is ColumnMeaning.Note)
        {
            return (new NoteWritten(cell.ToString(), vessel), null);
        }

        var end = cell.Length;
        while (end > 0 && !char.IsAsciiDigit(cell[end - 1]))
        {
            end--;
        }

        var figures = cell[..end];
        var unit = cell[end..].Trim();
        if (Value(figures, mark) is not { } value)
        {
            return (
                null,
                Wrong(figures.ContainsAny('.', ',') ? "notes-number-mark" : "notes-number-unreadable", cell)
            );
        }

        var fact =
            column.Meaning is ColumnMeaning.Reading
                ? Reading(column, vessel, cell, unit, value)
                : Counted(column, vessel, cell, unit, value);
        return fact.Fact?.Impossible() is { } impossible ? (null, impossible) : fact;
    }

    private static (Fact? Fact, Remark? Wrong) Reading(
        MappedColumn column,
        VesselId vessel,
        ReadOnlySpan<char> cell,
        ReadOnlySpan<char> unit,
        double value
    )
    {
        var code = UnitCode.Find(column.Unit!)!;
        if (
            !unit.IsEmpty
            && !UnitWords
                .Meanings(unit.ToString(), code.Dimension)
                .Any(word => word.Code == code.Code && word.Factor == 1)
        )
        {
            return (null, Wrong("notes-unit-differs", cell, new Argument("unit", column.Unit!)));
        }

        return (new ReadingTaken(new TypedNumber(cell.ToString(), code.Code, value), vessel), null);
    }

    private static (Fact? Fact, Remark? Wrong) Counted(
        MappedColumn column,
        VesselId vessel,
        ReadOnlySpan<char> cell,
        ReadOnlySpan<char> unit,
        double value
    ) =>
        !unit.IsEmpty || value != Math.Floor(value) || Math.Abs(value) > int.MaxValue
            ? (null, Wrong("notes-count-not-whole", cell))
        : column.Meaning is ColumnMeaning.Dead ? (new DeadRemoved(vessel, (int)value), null)
        : (new CountMade(vessel, column.Method!.Value, [new Aliquot((int)value)]), null);

    // Groups of thousands are not taken: 1.234 may be a thousand or one and a bit.
    private static double? Value(ReadOnlySpan<char> figures, DecimalMark mark)
    {
        const NumberStyles plain = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint;
        if (mark is DecimalMark.Point)
        {
            return double.TryParse(figures, plain, CultureInfo.InvariantCulture, out var value)
                ? value
                : null;
        }

        if (figures.Length > NumberText.Longest || figures.Contains('.'))
        {
            return null;
        }

        Span<char> pointed = stackalloc char[figures.Length];
        figures.Replace(pointed, ',', '.');
        return double.TryParse(pointed, plain, CultureInfo.InvariantCulture, out var number) ? number : null;
    }

    private static Remark Wrong(string code, ReadOnlySpan<char> cell, params ReadOnlySpan<Argument> more) =>
        new(code, [new("typed", (cell.Length > 40 ? cell[..40] : cell).ToString()), .. more]);
}
