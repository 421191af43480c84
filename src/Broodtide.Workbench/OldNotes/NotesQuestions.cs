using Broodtide.Domain.Journal;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.OldNotes;

/// <summary>What has to be answered before a file can be read: nothing of it is guessed.</summary>
public static class NotesQuestions
{
    private const int LongestThinning = 7 * 24 * 60;

    /// <summary>The questions a mapping leaves open, and answers that cannot be; none where the file can be read.</summary>
    /// <param name="map">The mapping.</param>
    /// <param name="columns">How many columns the file has.</param>
    public static IReadOnlyList<Remark> Of(NotesMap map, int columns)
    {
        ArgumentNullException.ThrowIfNull(map);
        return [.. Asked(map, columns)];
    }

    private static IEnumerable<Remark> Asked(NotesMap map, int columns)
    {
        if (map.DateColumn is null)
        {
            yield return new("notes-ask-date");
        }

        if (map.Order is null)
        {
            yield return new("notes-ask-order");
        }

        if (map.Zone is null || DateTimeZoneProviders.Tzdb.GetZoneOrNull(map.Zone) is null)
        {
            yield return new("notes-ask-zone");
        }

        if (map.TwoDigitYearsFrom is < 1800 or > 2100)
        {
            yield return new("notes-ask-century");
        }

        if (map.OneInMinutes is < 1 or > LongestThinning)
        {
            yield return new("notes-thin-out-of-range", new Argument("allowedMinutes", LongestThinning));
        }

        if (map.Columns.Count == 0)
        {
            yield return new("notes-ask-columns");
        }

        if (map.Decimal is null && map.Columns.Any(column => column.Meaning is not ColumnMeaning.Note))
        {
            yield return new("notes-ask-decimal");
        }

        if (map.VesselColumn is null && !map.Vessels.ContainsKey(""))
        {
            yield return new("notes-ask-vessel");
        }

        foreach (var column in map.Columns)
        {
            if (column.Column < 0 || column.Column >= columns)
            {
                yield return new("notes-column-not-there", new Argument("column", column.Column + 1));
            }

            if (
                column.Meaning is ColumnMeaning.Reading
                && (column.Unit is null || UnitCode.Find(column.Unit) is null)
            )
            {
                yield return new(
                    "notes-ask-unit",
                    new("column", column.Column + 1),
                    new("typed", column.Unit ?? "")
                );
            }

            if (column.Meaning is ColumnMeaning.Count && column.Method is null)
            {
                yield return new("notes-ask-method", new Argument("column", column.Column + 1));
            }
        }
    }
}
