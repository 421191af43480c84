namespace Broodtide.Scoring;

/// <summary>
/// Whether the fraction of a row of several aliquots stands for all of them together or for each. The two differ by
/// the number of aliquots, so over many rows the numbers that crossed before tell which was meant.
/// </summary>
internal static class FractionReading
{
    // Of those that crossed so many live at a count in the first days: an assumption; only its size matters.
    private const double UsualSurvival = 0.7;
    private const double FirstDays = 9;

    /// <summary>Looks at all runs; together where nothing tells.</summary>
    internal static bool IsOfEach(IEnumerable<string> runs)
    {
        double excess = 0;
        double ofEach = 0;
        foreach (var run in runs)
        {
            var table = Table.Read(Path.Combine(run, "events.csv"), "t_days", "kind", "x", "fraction", "n");
            double crossed = 0;
            double? begun = null;
            foreach (var row in table.Rows.OrderBy(row => Table.Number(table.Text(row, 0)) ?? 0))
            {
                var day = Table.Number(table.Text(row, 0)) ?? 0;
                var seen = Table.Number(table.Text(row, 2));
                switch (table.Text(row, 1).ToLowerInvariant())
                {
                    case "crossing":
                        crossed += seen ?? 0;
                        begun ??= day;
                        break;
                    case "aliquot"
                        when crossed > 0
                            && day - begun < FirstDays
                            && seen is { } x
                            && Table.Number(table.Text(row, 3)) is { } fraction and > 0
                            && Table.Number(table.Text(row, 4)) is { } n and > 1:
                        excess += Math.Log((x + 0.5) / ((fraction * crossed * UsualSurvival) + 0.5));
                        ofEach += Math.Log(n);
                        break;
                    default:
                        break;
                }
            }
        }

        return ofEach > 0 && excess > ofEach / 2;
    }
}
