namespace Broodtide.Scoring;

/// <summary>
/// Reads truth.csv: t_days, quantity, value; only the quantity first_hatch is used. Its day stands in value; where
/// value is empty, or a mere mark (1, yes, true) beside a later t_days, the day is t_days.
/// </summary>
public static class TruthFile
{
    /// <returns>The day of the first hatch, or none if the file names none.</returns>
    /// <exception cref="FileTroubleException">The file is missing or a line cannot be read.</exception>
    public static double? FirstHatch(string file)
    {
        var table = Table.Read(file, "t_days", "quantity", "value");
        double? first = null;
        foreach (var row in table.Rows)
        {
            if (!table.Text(row, 1).Equals("first_hatch", StringComparison.OrdinalIgnoreCase))
            {
                continue;
            }

            var day = Day(table.Text(row, 0), table.Text(row, 2));
            if (day is null)
            {
                throw table.Trouble(
                    row,
                    $"first_hatch has t_days '{table.Text(row, 0)}' and value '{table.Text(row, 2)}'; "
                        + "allowed is a number of days in one of them."
                );
            }

            first = first is { } earlier ? Math.Min(earlier, day.Value) : day;
        }

        return first;
    }

    private static double? Day(string time, string value)
    {
        var at = Table.Number(time);
        var said = Table.Number(value);
        var isMark = said is null || (said == 1 && at > 2);
        return isMark ? at ?? said : said;
    }
}
