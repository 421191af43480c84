using System.Text;

namespace Broodtide.Workbench.Dossiers;

/// <summary>What stands in a column, in the words of the table schema standard.</summary>
public enum ColumnType
{
    /// <summary>Text.</summary>
    Text,

    /// <summary>A number with a decimal point.</summary>
    Number,

    /// <summary>A whole number.</summary>
    Integer,

    /// <summary>true or false.</summary>
    YesNo,

    /// <summary>An instant in UTC, to the second: 2026-03-01T21:05:00Z.</summary>
    Instant,
}

/// <summary>A column of a table.</summary>
/// <param name="Name">Its heading: lower-case words joined by underscores, with the unit at the end where it has one.</param>
/// <param name="Type">What stands in it.</param>
/// <param name="Description">What it means, in plain words.</param>
/// <param name="Unit">Its unit as a UCUM code; none where it has none or the row names it.</param>
/// <param name="Codes">The words that may stand in it, where the list is closed.</param>
/// <param name="Required">Whether it is filled in every row.</param>
public sealed record Column(
    string Name,
    ColumnType Type,
    string Description,
    string? Unit = null,
    IReadOnlyList<string>? Codes = null,
    bool Required = false
);

/// <summary>A table of a dossier: rows of texts under described columns. An empty cell is one that nobody filled in.</summary>
/// <param name="Name">Its name, also that of its file.</param>
/// <param name="Title">What it is called.</param>
/// <param name="Description">What a row is.</param>
/// <param name="Columns">The columns.</param>
/// <param name="Rows">The rows; each as long as there are columns.</param>
public sealed record DataTable(
    string Name,
    string Title,
    string Description,
    IReadOnlyList<Column> Columns,
    IReadOnlyList<IReadOnlyList<string>> Rows
)
{
    /// <summary>The table as comma-separated values by RFC 4180, in UTF-8, with a line of headings.</summary>
    public byte[] ToCsv()
    {
        var text = new StringBuilder();
        Line(text, Columns.Select(column => column.Name));
        foreach (var row in Rows)
        {
            Line(text, row);
        }

        return Encoding.UTF8.GetBytes(text.ToString());
    }

    private static void Line(StringBuilder text, IEnumerable<string> cells)
    {
        var first = true;
        foreach (var cell in cells)
        {
            if (!first)
            {
                text.Append(',');
            }

            first = false;
            if (cell.AsSpan().IndexOfAny(",\"\r\n") < 0)
            {
                text.Append(cell);
            }
            else
            {
                text.Append('"').Append(cell.Replace("\"", "\"\"", StringComparison.Ordinal)).Append('"');
            }
        }

        text.Append("\r\n");
    }
}
