using System.Text.Json;
using Broodtide.Domain.Larvae;
using Broodtide.Units;

namespace Broodtide.Workbench.OldNotes;

/// <summary>A mapping as a JSON file that a person writes.</summary>
public static class NotesMapText
{
    private const int MostColumns = 200;

    /// <summary>The mapping of a text, its columns by their headings; or what is wrong with it.</summary>
    /// <param name="utf8">The file.</param>
    /// <param name="headings">The headings of the file it is for.</param>
    public static Parsed<NotesMap> Read(ReadOnlyMemory<byte> utf8, IReadOnlyList<string> headings)
    {
        ArgumentNullException.ThrowIfNull(headings);
        try
        {
            using var json = JsonDocument.Parse(utf8);
            return Read(json.RootElement, headings);
        }
        catch (Exception wrong) when (wrong is JsonException or InvalidOperationException or FormatException)
        {
            return Parsed<NotesMap>.No("map-unreadable", new Argument("message", wrong.Message));
        }
    }

    private static Parsed<NotesMap> Read(JsonElement json, IReadOnlyList<string> headings)
    {
        Remark? wrong = null;
        int? Column(string? name)
        {
            if (name is null)
            {
                return null;
            }

            for (var at = 0; at < headings.Count; at++)
            {
                if (string.Equals(headings[at].Trim(), name.Trim(), StringComparison.OrdinalIgnoreCase))
                {
                    return at;
                }
            }

            wrong ??= new Remark(
                "map-column-not-there",
                new("typed", name),
                new("allowed", string.Join(", ", headings))
            );
            return null;
        }

        T? Word<T>(JsonElement at, string member)
            where T : struct, Enum
        {
            if (Text(at, member) is not { } text)
            {
                return null;
            }

            if (
                Enum.TryParse<T>(
                    text.Replace("-", "", StringComparison.Ordinal),
                    ignoreCase: true,
                    out var word
                ) && Enum.IsDefined(word)
            )
            {
                return word;
            }

            wrong ??= new Remark(
                "word-not-on-the-list",
                new("field", member),
                new("typed", text),
                new("allowed", string.Join(", ", Dossiers.Cell.Words<T>()))
            );
            return null;
        }

        var columns = new List<MappedColumn>();
        if (json.TryGetProperty("columns", out var list))
        {
            foreach (var column in list.EnumerateArray().Take(MostColumns))
            {
                if (
                    Column(Text(column, "column")) is { } place
                    && Word<ColumnMeaning>(column, "as") is { } meaning
                )
                {
                    columns.Add(
                        new(place, meaning, Text(column, "unit"), Word<CountMethod>(column, "method"))
                    );
                }
            }
        }

        var vessels = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        if (json.TryGetProperty("vessels", out var named))
        {
            foreach (var vessel in named.EnumerateObject())
            {
                vessels[vessel.Name] = vessel.Value.GetString() ?? "";
            }
        }

        if (Text(json, "vessel") is { } one)
        {
            vessels[""] = one;
        }

        var map = new NotesMap
        {
            Delimiter = Text(json, "delimiter") is [var sign] ? sign : ',',
            HeaderRows = Number(json, "headerRows") ?? 1,
            IsLatin1 = Text(json, "encoding") is "latin-1",
            DateColumn = Column(Text(json, "dateColumn")),
            TimeColumn = Column(Text(json, "timeColumn")),
            Order = Word<DateOrder>(json, "dateOrder"),
            TwoDigitYearsFrom = Number(json, "twoDigitYearsFrom"),
            Zone = Text(json, "zone"),
            Decimal = Word<DecimalMark>(json, "decimal"),
            VesselColumn = Column(Text(json, "vesselColumn")),
            Vessels = vessels,
            Columns = columns,
            OneInMinutes = Number(json, "oneInMinutes"),
            Doubles = Word<DoubleRows>(json, "doubles") ?? DoubleRows.Refuse,
            LeaveOutUnreadable =
                json.TryGetProperty("leaveOutUnreadable", out var leave) && leave.GetBoolean(),
        };
        return wrong is null ? Parsed<NotesMap>.Of(map) : Parsed<NotesMap>.No(wrong);
    }

    /// <summary>The sign between cells that a mapping names, before its columns can be known.</summary>
    public static char DelimiterOf(ReadOnlyMemory<byte> utf8)
    {
        try
        {
            using var json = JsonDocument.Parse(utf8);
            return Text(json.RootElement, "delimiter") is [var sign] ? sign : ',';
        }
        catch (JsonException)
        {
            return ',';
        }
    }

    private static string? Text(JsonElement json, string member) =>
        json.TryGetProperty(member, out var value) ? value.GetString() : null;

    private static int? Number(JsonElement json, string member) =>
        json.TryGetProperty(member, out var value) ? value.GetInt32() : null;
}
