using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.TideLine;

/// <summary>
/// Rows of an uncertain number read as one track: straight between rows, flat before the first and after the last,
/// a step where two rows share an instant.
/// </summary>
public static class TideTrack
{
    /// <summary>
    /// The track at an instant; at a step, the value after it. Null when there are no rows. The unit is that of the rows.
    /// </summary>
    public static Interval? At(IReadOnlyList<TideRow> rows, Instant at)
    {
        if (rows.Count == 0)
        {
            return null;
        }

        var after = FirstAfter(rows, at);
        if (after == 0)
        {
            return rows[0].Value;
        }

        return after == rows.Count ? rows[^1].Value : Between(rows[after - 1], rows[after], at);
    }

    /// <summary>
    /// The last row within a day before an instant whose number may be above zero: how many there were before a
    /// vessel was emptied. Null where none was to be expected.
    /// </summary>
    public static Interval? LastAboveZero(IReadOnlyList<TideRow> rows, Instant at)
    {
        var now = At(rows, at);
        return now is { High: > 0 }
            ? now
            : rows.LastOrDefault(row =>
                row.At <= at && row.At >= at - Duration.FromDays(1) && row.Value.High > 0
            )?.Value;
    }

    /// <summary>
    /// The mean of the medians over a span, by exact integration of the straight pieces; the median at
    /// <paramref name="from"/> when the span is empty. Zero without rows.
    /// </summary>
    public static double MeanMedian(IReadOnlyList<TideRow> rows, Instant from, Instant to)
    {
        if (rows.Count == 0)
        {
            return 0;
        }

        if (to <= from)
        {
            return At(rows, from)!.Value.Middle;
        }

        var sum = 0.0;
        var left = from;
        var leftValue = At(rows, from)!.Value.Middle;
        for (var i = FirstAfter(rows, from); i < rows.Count && rows[i].At < to; i++)
        {
            var value = rows[i].Value.Middle;
            sum += (rows[i].At - left).TotalDays * (leftValue + value) / 2;
            (left, leftValue) = (rows[i].At, value);
        }

        sum += (to - left).TotalDays * (leftValue + Before(rows, to)) / 2;
        return sum / (to - from).TotalDays;
    }

    private static double Before(IReadOnlyList<TideRow> rows, Instant at)
    {
        var index = FirstAfter(rows, at);
        while (index > 0 && rows[index - 1].At == at)
        {
            index--;
        }

        if (index == 0)
        {
            return rows[0].Value.Middle;
        }

        return index == rows.Count ? rows[^1].Value.Middle : Between(rows[index - 1], rows[index], at).Middle;
    }

    private static int FirstAfter(IReadOnlyList<TideRow> rows, Instant at)
    {
        var low = 0;
        var high = rows.Count;
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = rows[middle].At <= at ? (middle + 1, high) : (low, middle);
        }

        return low;
    }

    private static Interval Between(TideRow a, TideRow b, Instant at)
    {
        var share = (at - a.At).TotalDays / (b.At - a.At).TotalDays;
        double Mix(double from, double to) => from + ((to - from) * share);
        var low = Mix(a.Value.Low, b.Value.Low);
        var middle = Math.Max(low, Mix(a.Value.Middle, b.Value.Middle));
        return Interval.FromPoints(low, middle, Math.Max(middle, Mix(a.Value.High, b.Value.High)));
    }
}
