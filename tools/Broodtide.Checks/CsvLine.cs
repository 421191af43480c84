using System.Text;

namespace Broodtide.Checks;

/// <summary>One line of comma-separated fields, quoted with double quotes where needed; a quote is doubled.</summary>
public static class CsvLine
{
    /// <summary>The fields of a line.</summary>
    /// <exception cref="CheckFormatException">A quote is not closed, or stands where none may stand.</exception>
    public static IReadOnlyList<string> Split(string line)
    {
        var fields = new List<string>();
        var at = 0;
        while (true)
        {
            fields.Add(at < line.Length && line[at] == '"' ? Quoted(line, ref at) : Plain(line, ref at));
            if (at == line.Length)
            {
                return fields;
            }

            // Past the comma.
            at++;
        }
    }

    private static string Plain(string line, ref int at)
    {
        var end = line.IndexOf(',', at);
        end = end < 0 ? line.Length : end;
        var field = line[at..end];
        if (field.Contains('"', StringComparison.Ordinal))
        {
            throw new CheckFormatException(
                $"a double quote inside the unquoted field `{field}`: put the whole field in double quotes and double "
                    + "the quotes inside"
            );
        }

        at = end;
        return field;
    }

    private static string Quoted(string line, ref int at)
    {
        var field = new StringBuilder();
        for (at++; at < line.Length; at++)
        {
            if (line[at] != '"')
            {
                field.Append(line[at]);
                continue;
            }

            at++;
            if (at == line.Length || line[at] == ',')
            {
                return field.ToString();
            }

            if (line[at] != '"')
            {
                throw new CheckFormatException(
                    $"`{line[at]}` after a closing double quote: only a comma or the end of the line may follow"
                );
            }

            field.Append('"');
        }

        throw new CheckFormatException(
            "a double quote that is not closed: a check stands on one line, and its quotes are closed there"
        );
    }
}
