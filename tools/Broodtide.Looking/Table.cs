using System.Globalization;

namespace Broodtide.Looking;

/// <summary>A file of comma-separated values with a heading; no value holds a comma.</summary>
public sealed class Table
{
    private readonly string[] _names;

    private Table(string path, string[] names, IReadOnlyList<string[]> rows)
    {
        Path = path;
        _names = names;
        Rows = rows;
    }

    public string Path { get; }

    public IReadOnlyList<string[]> Rows { get; }

    public static Table Read(string path)
    {
        var lines = File.ReadAllLines(path)
            .Where(line => line.Length > 0)
            .Select(line => line.Split(','))
            .ToList();
        return new(path, lines[0], lines[1..]);
    }

    public string Text(string[] row, string name) =>
        Array.IndexOf(_names, name) is >= 0 and var at && at < row.Length
            ? row[at]
            : throw new InvalidDataException($"{Path} has no column {name}.");

    public double Number(string[] row, string name) =>
        double.Parse(Text(row, name), CultureInfo.InvariantCulture);
}
