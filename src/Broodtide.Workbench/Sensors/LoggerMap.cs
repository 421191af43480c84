using System.Text.Json;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.OldNotes;
using NodaTime;

namespace Broodtide.Workbench.Sensors;

/// <summary>What the columns of a logger's files mean: the mapping of old notes, and which sensor each column is.</summary>
/// <param name="Notes">Delimiter, date, zone, decimal mark and the columns of readings.</param>
/// <param name="Sensors">The name of the sensor on its device, by the column's place.</param>
public sealed record LoggerMap(NotesMap Notes, IReadOnlyDictionary<int, string> Sensors)
{
    /// <summary>The mapping of a text; or what is wrong with it.</summary>
    /// <param name="utf8">A JSON file as docs/old-notes.md tells it, with <c>sensor</c> in each column.</param>
    /// <param name="headings">The headings of the file it is for.</param>
    public static Parsed<LoggerMap> Read(ReadOnlyMemory<byte> utf8, IReadOnlyList<string> headings)
    {
        ArgumentNullException.ThrowIfNull(headings);
        var notes = NotesMapText.Read(utf8, headings);
        if (!notes.Succeeded)
        {
            return Parsed<LoggerMap>.No(notes.Reason);
        }

        var map = notes.Value;
        if (Missing(map) is { } missing)
        {
            return Parsed<LoggerMap>.No("logger-map-lacks", new Argument("member", missing));
        }

        var sensors = SensorsOf(utf8, map, headings);
        return
            sensors.Count == map.Columns.Count
            && sensors.Values.Distinct(StringComparer.Ordinal).Count() == sensors.Count
            ? Parsed<LoggerMap>.Of(new(map, sensors))
            : Parsed<LoggerMap>.No("logger-map-lacks", new Argument("member", "sensor"));
    }

    private static string? Missing(NotesMap map) =>
        map.DateColumn is null ? "dateColumn"
        : map.Order is null ? "dateOrder"
        : map.Decimal is null ? "decimal"
        : map.Zone is null || DateTimeZoneProviders.Tzdb.GetZoneOrNull(map.Zone) is null ? "zone"
        : map.Columns.Count == 0
        || map.Columns.Any(column =>
            column.Meaning is not ColumnMeaning.Reading
            || column.Unit is not { } unit
            || UnitCode.Find(unit) is null
        )
            ? "columns"
        : null;

    private static Dictionary<int, string> SensorsOf(
        ReadOnlyMemory<byte> utf8,
        NotesMap map,
        IReadOnlyList<string> headings
    )
    {
        using var json = JsonDocument.Parse(utf8);
        var sensors = new Dictionary<int, string>();
        foreach (var column in json.RootElement.GetProperty("columns").EnumerateArray())
        {
            if (
                column.TryGetProperty("column", out var heading)
                && column.TryGetProperty("sensor", out var sensor)
                && sensor.ValueKind is JsonValueKind.String
                && sensor.GetString() is { } name
                && SensorId.IsPlain(name)
                && map.Columns.FirstOrDefault(mapped =>
                    string.Equals(
                        headings[mapped.Column].Trim(),
                        heading.GetString()?.Trim(),
                        StringComparison.OrdinalIgnoreCase
                    )
                )
                    is { } found
            )
            {
                sensors[found.Column] = name;
            }
        }

        return sensors;
    }
}
