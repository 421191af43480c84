using System.Globalization;

namespace Broodtide.Scoring;

/// <summary>
/// Rows of a small comma-separated file with named columns. Order of columns and further columns do not matter;
/// quotes around a field, empty lines and a byte order mark are borne. Numbers have a decimal point.
/// </summary>
public sealed class Table
{
    private readonly int[] _places;

    private Table(string file, int[] places, IReadOnlyList<(int Line, string[] Fields)> rows)
    {
        File = file;
        _places = places;
        Rows = rows;
    }

    public string File { get; }

    public IReadOnlyList<(int Line, string[] Fields)> Rows { get; }

    public static Table Read(string file, params string[] columns)
    {
        if (!System.IO.File.Exists(file))
        {
            throw new FileTroubleException(
                $"{file}: not there; a run is a folder with events.csv and truth.csv."
            );
        }

        var lines = System.IO.File.ReadAllLines(file);
        var header = lines.Length == 0 ? [] : Split(lines[0].TrimStart('\uFEFF'));
        var places = columns
            .Select(column =>
                Array.FindIndex(header, h => h.Equals(column, StringComparison.OrdinalIgnoreCase))
            )
            .ToArray();
        if (places.Any(place => place < 0))
        {
            throw FileTroubleException.At(
                file,
                1,
                $"the first line must name the columns {string.Join(',', columns)}."
            );
        }

        var rows = lines
            .Select((text, i) => (Line: i + 1, Text: text))
            .Skip(1)
            .Where(row => !string.IsNullOrWhiteSpace(row.Text))
            .Select(row => (row.Line, Split(row.Text)))
            .ToArray();
        return new(file, places, rows);
    }

    public string Text((int Line, string[] Fields) row, int column) =>
        _places[column] < row.Fields.Length ? row.Fields[_places[column]] : "";

    public FileTroubleException Trouble((int Line, string[] Fields) row, string what) =>
        FileTroubleException.At(File, row.Line, what);

    /// <summary>A finite number, or none if the text is none.</summary>
    public static double? Number(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value)
        && double.IsFinite(value)
            ? value
            : null;

    /// <summary>Fields between commas; a comma inside quotes belongs to the field.</summary>
    private static string[] Split(string line)
    {
        List<string> fields = [];
        var start = 0;
        var quoted = false;
        for (var i = 0; i <= line.Length; i++)
        {
            if (i == line.Length || (line[i] == ',' && !quoted))
            {
                fields.Add(line[start..i].Trim().Trim('"').Trim());
                start = i + 1;
            }
            else if (line[i] == '"')
            {
                quoted = !quoted;
            }
        }

        return [.. fields];
    }
}
