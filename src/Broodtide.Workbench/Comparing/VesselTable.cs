using System.Globalization;
using System.Text;
using Broodtide.Units;

namespace Broodtide.Workbench.Comparing;

/// <summary>Which columns of a table say what.</summary>
/// <param name="Factors">Columns that name the treatment, one or more.</param>
/// <param name="Vessel">Column that names the vessel; rows are numbered where it is left out or not there.</param>
/// <param name="Alive">Column with how many lived.</param>
/// <param name="Of">Column with how many there were at the beginning; left out where the dead are told.</param>
/// <param name="Dead">Column with how many died; left out where the beginning is told.</param>
public sealed record TableColumns(
    IReadOnlyList<string> Factors,
    string? Vessel,
    string Alive,
    string? Of,
    string? Dead
)
{
    /// <summary>The columns a table has if nothing else is said: treatment, vessel, alive, dead.</summary>
    public static TableColumns Usual { get; } = new(["treatment"], "vessel", "alive", null, "dead");
}

/// <summary>One vessel of a table.</summary>
/// <param name="Levels">The level of each factor.</param>
/// <param name="Vessel">Its name.</param>
/// <param name="Alive">How many lived.</param>
/// <param name="Started">How many there were at the beginning.</param>
/// <param name="Block">The block within which treatments were dealt, from 1.</param>
public sealed record TableVessel(
    IReadOnlyList<string> Levels,
    string Vessel,
    int Alive,
    int Started,
    int Block = 1
)
{
    /// <summary>Its treatment in one name.</summary>
    public string Treatment => string.Join(" / ", Levels);
}

/// <summary>A table of values with a head line; lines that begin with # and empty ones are passed over.</summary>
/// <param name="Heads">The names of the columns.</param>
/// <param name="Rows">The cells of each row with its line, from 1.</param>
public sealed record CellTable(IReadOnlyList<string> Heads, IReadOnlyList<(int Line, string[] Cells)> Rows)
{
    /// <summary>More rows than any keeper has vessels are no table of vessels.</summary>
    public const int MostRows = 100_000;

    private static readonly char[] Marks = [',', ';', '\t'];

    /// <summary>Reads a table whose cells are parted by commas, semicolons or tabs, with or without quotation marks.</summary>
    /// <param name="text">The text.</param>
    /// <returns>The table, or why it is none.</returns>
    public static (CellTable? Table, Remark? Why) Read(string text)
    {
        string[]? heads = null;
        var rows = new List<(int, string[])>();
        var mark = ',';
        var number = 0;
        foreach (var raw in text.Split('\n'))
        {
            number++;
            var line = raw.TrimEnd('\r').TrimStart('\uFEFF');
            if (string.IsNullOrWhiteSpace(line) || line.StartsWith('#'))
            {
                continue;
            }

            if (heads is null)
            {
                mark = Marks.MaxBy(one => line.Count(letter => letter == one));
                heads = Cut(line, mark);
                if (heads.Distinct(StringComparer.OrdinalIgnoreCase).Count() < heads.Length)
                {
                    return (null, new Remark("table-column-twice"));
                }

                continue;
            }

            var cells = Cut(line, mark);
            if (cells.Length != heads.Length)
            {
                return (
                    null,
                    new Remark(
                        "table-row-cells",
                        new Argument("line", number),
                        new Argument("cells", cells.Length),
                        new Argument("wantedCells", heads.Length)
                    )
                );
            }

            rows.Add((number, cells));
            if (rows.Count > MostRows)
            {
                return (null, new Remark("table-too-long", new Argument("allowedRows", MostRows)));
            }
        }

        return heads is null || rows.Count == 0
            ? (null, new Remark("table-empty"))
            : (new(heads, rows), null);
    }

    /// <summary>The place of a column.</summary>
    /// <returns>Its place, or why there is none.</returns>
    public (int Place, Remark? Why) Column(string name)
    {
        for (var place = 0; place < Heads.Count; place++)
        {
            if (string.Equals(Heads[place], name, StringComparison.OrdinalIgnoreCase))
            {
                return (place, null);
            }
        }

        return (
            -1,
            new Remark(
                "table-no-column",
                new Argument("typed", name),
                new Argument("known", string.Join(", ", Heads))
            )
        );
    }

    /// <summary>Whether a column is there.</summary>
    public bool Has(string name) => Column(name).Why is null;

    private static string[] Cut(string line, char mark)
    {
        var cells = new List<string>();
        var cell = new StringBuilder();
        var quoted = false;
        for (var i = 0; i < line.Length; i++)
        {
            var letter = line[i];
            if (quoted && letter == '"' && i + 1 < line.Length && line[i + 1] == '"')
            {
                cell.Append(letter);
                i++;
            }
            else if (letter == '"')
            {
                quoted = !quoted;
            }
            else if (letter == mark && !quoted)
            {
                cells.Add(cell.ToString().Trim());
                cell.Clear();
            }
            else
            {
                cell.Append(letter);
            }
        }

        cells.Add(cell.ToString().Trim());
        return [.. cells];
    }

    /// <summary>A number of a cell.</summary>
    /// <returns>The number, or why it is none.</returns>
    internal static (double Value, Remark? Why) Number(string column, int line, string cell) =>
        double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out var value)
        && double.IsFinite(value)
            ? (value, null)
            : (
                0,
                new Remark(
                    "table-no-number",
                    new Argument("column", column),
                    new Argument("line", line),
                    new Argument("typed", cell)
                )
            );
}

/// <summary>Vessels of a table.</summary>
public static class VesselTable
{
    /// <summary>Reads the vessels of a table: one row a vessel.</summary>
    /// <param name="table">The table.</param>
    /// <param name="columns">Which columns say what.</param>
    /// <returns>The vessels, or what is wrong with the table.</returns>
    public static (IReadOnlyList<TableVessel> Vessels, Remark? Why) Of(CellTable table, TableColumns columns)
    {
        var factors = new List<int>();
        foreach (var name in columns.Factors)
        {
            var (place, why) = table.Column(name);
            if (why is not null)
            {
                return ([], why);
            }

            factors.Add(place);
        }

        var (alive, noAlive) = table.Column(columns.Alive);
        var other = columns.Of ?? columns.Dead ?? "dead";
        var (rest, noRest) = table.Column(other);
        if ((noAlive ?? noRest) is { } missing)
        {
            return ([], missing);
        }

        var vessel = columns.Vessel is { } named && table.Has(named) ? table.Column(named).Place : -1;
        var vessels = new List<TableVessel>();
        foreach (var (line, cells) in table.Rows)
        {
            var (lived, noLived) = Whole(columns.Alive, line, cells[alive]);
            var (second, noSecond) = Whole(other, line, cells[rest]);
            if ((noLived ?? noSecond) is { } wrong)
            {
                return ([], wrong);
            }

            var started = columns.Of is null ? lived + second : second;
            if (started < 1 || lived > started)
            {
                return (
                    [],
                    new Remark(
                        started < 1 ? "table-nobody" : "table-more-alive",
                        new Argument("line", line),
                        new Argument("alive", lived),
                        new Argument("started", started)
                    )
                );
            }

            vessels.Add(
                new(
                    [.. factors.Select(place => cells[place])],
                    vessel >= 0 ? cells[vessel] : line.ToString(CultureInfo.InvariantCulture),
                    lived,
                    started
                )
            );
        }

        return (vessels, null);
    }

    private static (int Value, Remark? Why) Whole(string column, int line, string cell)
    {
        var (value, why) = CellTable.Number(column, line, cell);
        return why is not null ? (0, why)
            : value is >= 0 and <= 1e8 && Math.Floor(value).Equals(value) ? ((int)value, null)
            : (
                0,
                new Remark(
                    "table-not-whole",
                    new Argument("column", column),
                    new Argument("line", line),
                    new Argument("typed", cell)
                )
            );
    }
}
