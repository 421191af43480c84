using Broodtide.Domain.Larvae;

namespace Broodtide.Workbench.OldNotes;

/// <summary>In which order the figures of a date stand.</summary>
public enum DateOrder
{
    /// <summary>31.12.2025</summary>
    DayMonthYear,

    /// <summary>12/31/2025</summary>
    MonthDayYear,

    /// <summary>2025-12-31</summary>
    YearMonthDay,
}

/// <summary>What stands between the whole of a number and its fraction.</summary>
public enum DecimalMark
{
    /// <summary>24.5</summary>
    Point,

    /// <summary>24,5</summary>
    Comma,
}

/// <summary>What the cells of a column become.</summary>
public enum ColumnMeaning
{
    /// <summary>A reading, in the unit that the column names.</summary>
    Reading,

    /// <summary>Larvae seen in a look, by the way of counting that the column names.</summary>
    Count,

    /// <summary>Dead larvae taken out.</summary>
    Dead,

    /// <summary>A note.</summary>
    Note,
}

/// <summary>What is done with rows that say what was said already, in the file or in the journal.</summary>
public enum DoubleRows
{
    /// <summary>Nothing is written until somebody decides.</summary>
    Refuse,

    /// <summary>They are left out.</summary>
    LeaveOut,

    /// <summary>They are written all the same.</summary>
    Keep,
}

/// <summary>A column that becomes entries.</summary>
/// <param name="Column">Its place, from 0.</param>
/// <param name="Meaning">What its cells become.</param>
/// <param name="Unit">Unit of its readings, as a code of the journal; needed for a reading, and never guessed.</param>
/// <param name="Method">How its larvae were counted; needed for a count.</param>
public sealed record MappedColumn(
    int Column,
    ColumnMeaning Meaning,
    string? Unit = null,
    CountMethod? Method = null
);

/// <summary>
/// What the rows of a file mean, as its keeper answered. What could be read in two ways has no answer of its own here: a
/// file is not read before it is given one.
/// </summary>
public sealed record NotesMap
{
    /// <summary>The sign between cells.</summary>
    public char Delimiter { get; init; } = ',';

    /// <summary>How many lines at the beginning are headings.</summary>
    public int HeaderRows { get; init; } = 1;

    /// <summary>Whether the file is written in Latin-1; else in UTF-8.</summary>
    public bool IsLatin1 { get; init; }

    /// <summary>The column of the date, from 0; it may hold the time too.</summary>
    public int? DateColumn { get; init; }

    /// <summary>The column of the time of day, where it stands apart.</summary>
    public int? TimeColumn { get; init; }

    /// <summary>In which order the figures of a date stand.</summary>
    public DateOrder? Order { get; init; }

    /// <summary>The first of the hundred years that years of two figures lie in, such as 2000; none where years have four.</summary>
    public int? TwoDigitYearsFrom { get; init; }

    /// <summary>IANA name of the zone that the times are in.</summary>
    public string? Zone { get; init; }

    /// <summary>What stands before the fraction of a number.</summary>
    public DecimalMark? Decimal { get; init; }

    /// <summary>The column that names the vessel; none where all rows are about one.</summary>
    public int? VesselColumn { get; init; }

    /// <summary>Names of vessels in the file and in the journal; the name for all rows stands under an empty text.</summary>
    public IReadOnlyDictionary<string, string> Vessels { get; init; } =
        new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);

    /// <summary>The columns that become entries.</summary>
    public IReadOnlyList<MappedColumn> Columns { get; init; } = [];

    /// <summary>Of a logger's rows keep one in so many minutes, the first; none keeps all.</summary>
    public int? OneInMinutes { get; init; }

    /// <summary>What is done with rows that say what was said already.</summary>
    public DoubleRows Doubles { get; init; }

    /// <summary>Whether rows that cannot be read are left out; else nothing is written while there are any.</summary>
    public bool LeaveOutUnreadable { get; init; }
}
