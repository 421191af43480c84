using System.Text;

namespace Broodtide.Checks;

/// <summary>A file of checks: a line of column names, then one check a line.</summary>
public static class CheckFile
{
    private static readonly string[] Needed = ["quantity", "inputs", "expected", "tolerance"];

    /// <summary>Reads a file from disk.</summary>
    /// <exception cref="CheckFormatException">It cannot be read, is no text, or has other columns.</exception>
    public static IReadOnlyList<ReadRow> Read(string path)
    {
        try
        {
            var bytes = File.ReadAllBytes(path);
            return Parse(new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes));
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            throw new CheckFormatException($"cannot be read: {problem.Message}", problem);
        }
        catch (DecoderFallbackException problem)
        {
            throw new CheckFormatException("is not text in UTF-8", problem);
        }
    }

    /// <summary>Reads the text of a file; a row that is malformed is kept with what is wrong about it.</summary>
    /// <exception cref="CheckFormatException">The first line has other columns.</exception>
    public static IReadOnlyList<ReadRow> Parse(string text)
    {
        var lines = text.TrimStart('\uFEFF').Split('\n');
        var columns = Columns(lines[0].TrimEnd('\r'));
        var rows = new List<ReadRow>();
        for (var i = 1; i < lines.Length; i++)
        {
            var line = lines[i].TrimEnd('\r');
            if (line.Length > 0)
            {
                rows.Add(Row(i + 1, line, columns));
            }
        }

        return rows;
    }

    private static Dictionary<string, int> Columns(string line)
    {
        var columns = new Dictionary<string, int>(StringComparer.Ordinal);
        var names = CsvLine.Split(line);
        for (var i = 0; i < names.Count; i++)
        {
            columns.TryAdd(names[i], i);
        }

        var missing = Needed.Where(name => !columns.ContainsKey(name)).ToArray();
        return missing.Length == 0
            ? columns
            : throw new CheckFormatException(
                $"line 1 lacks the column {string.Join(", ", missing)}: the first line of a check file names its columns, "
                    + "quantity,inputs,expected,unit,tolerance,source,provenance,note"
            );
    }

    private static ReadRow Row(int number, string line, Dictionary<string, int> columns)
    {
        try
        {
            var fields = CsvLine.Split(line);
            if (fields.Count != columns.Count)
            {
                throw new CheckFormatException(
                    $"{fields.Count} fields where the first line names {columns.Count} columns; a field with a comma stands in "
                        + "double quotes"
                );
            }

            string Field(string name) => columns.TryGetValue(name, out var at) ? fields[at] : "";
            var quantity = Field("quantity");
            if (quantity.Length == 0 || !CheckValue.IsWord(quantity))
            {
                throw new CheckFormatException(
                    $"`{quantity}` is no name of a quantity: lower_snake_case, groups separated by dots"
                );
            }

            return new(
                number,
                new(
                    number,
                    quantity,
                    CheckInputs.Parse(Field("inputs")),
                    CheckValue.ParseNumbers(Field("expected"), "expected"),
                    Tolerance(Field("tolerance")),
                    Field("source")
                ),
                null
            );
        }
        catch (CheckFormatException problem)
        {
            return new(number, null, problem.Message);
        }
    }

    private static double Tolerance(string text) =>
        CheckValue.TryNumber(text, out var tolerance) && double.IsFinite(tolerance) && tolerance >= 0
            ? tolerance
            : throw new CheckFormatException(
                $"`{text}` in the column tolerance: allowed is a number from 0 up"
            );
}

/// <summary>A line of a check file: a check, or what is wrong with the line.</summary>
/// <param name="Line">Line in the file, from 1.</param>
/// <param name="Check">The check, if the line holds one.</param>
/// <param name="Problem">What is wrong and what is allowed, if not.</param>
public sealed record ReadRow(int Line, CheckRow? Check, string? Problem);
