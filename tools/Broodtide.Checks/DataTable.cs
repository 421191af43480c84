namespace Broodtide.Checks;

/// <summary>
/// A data file: lines that start with # are comments, the next line names the columns, a blank field is a missing
/// value and Inf is infinity.
/// </summary>
public sealed class DataTable
{
    private readonly IReadOnlyList<string> _columns;
    private readonly IReadOnlyList<IReadOnlyList<string>> _rows;

    private DataTable(IReadOnlyList<string> columns, IReadOnlyList<IReadOnlyList<string>> rows)
    {
        _columns = columns;
        _rows = rows;
    }

    /// <summary>Reads the text of a data file.</summary>
    /// <exception cref="CheckFormatException">There is no line of column names, or a line has other fields.</exception>
    public static DataTable Parse(string text)
    {
        var lines = text.TrimStart('\uFEFF')
            .Split('\n')
            .Select(line => line.TrimEnd('\r'))
            .Where(line => line.Length > 0 && line[0] != '#')
            .Select(CsvLine.Split)
            .ToArray();
        if (lines.Length == 0)
        {
            throw new CheckFormatException("a data file needs a line of column names");
        }

        var odd = lines.FirstOrDefault(line => line.Count != lines[0].Count);
        return odd is null
            ? new(lines[0], lines[1..])
            : throw new CheckFormatException(
                $"the data line `{string.Join(",", odd)}` has {odd.Count} fields, the column names are {lines[0].Count}"
            );
    }

    /// <summary>A column as text.</summary>
    /// <exception cref="CheckFormatException">There is no such column.</exception>
    public IReadOnlyList<string> Texts(string column)
    {
        var at = _columns.ToList().IndexOf(column);
        return at >= 0
            ? [.. _rows.Select(row => row[at])]
            : throw new CheckFormatException(
                $"there is no column {column} in the data: it has {string.Join(", ", _columns)}"
            );
    }

    /// <summary>A column as numbers; a missing value is NaN.</summary>
    /// <exception cref="CheckFormatException">There is no such column, or a field is no number.</exception>
    public double[] Numbers(string column) =>
        [
            .. Texts(column)
                .Select(text =>
                    text.Length == 0 ? double.NaN
                    : CheckValue.TryNumber(text, out var number) ? number
                    : throw new CheckFormatException($"`{text}` in the data column {column} is no number")
                ),
        ];

    /// <summary>The rows whose field equals a text.</summary>
    public DataTable Where(string column, string value)
    {
        var texts = Texts(column);
        return new(
            _columns,
            [.. _rows.Where((_, i) => string.Equals(texts[i], value, StringComparison.Ordinal))]
        );
    }
}
