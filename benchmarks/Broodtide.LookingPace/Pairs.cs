using System.Diagnostics;
using System.Globalization;

namespace Broodtide.LookingPace;

/// <summary>Two ways to the same thing, timed in turn so that a busy machine slows both alike.</summary>
internal static class Pairs
{
    /// <summary>Runs each once to warm up, then in turn, and prints medians in milliseconds and their ratio.</summary>
    public static void Print(string name, int turns, Action ours, Action theirs)
    {
        ours();
        theirs();
        ours();
        var (mine, other) = (new List<double>(), new List<double>());
        for (var turn = 0; turn < turns; turn++)
        {
            mine.Add(Milliseconds(ours));
            other.Add(Milliseconds(theirs));
        }

        var (a, b) = (Middle(mine), Middle(other));
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{name, -44} {a, 9:F1} {b, 9:F1} {b / a, 7:F2}   best {mine.Min():F1} / {other.Min():F1}"
            )
        );
    }

    private static double Milliseconds(Action work)
    {
        var start = Stopwatch.GetTimestamp();
        work();
        return Stopwatch.GetElapsedTime(start).TotalMilliseconds;
    }

    private static double Middle(List<double> values) => values.Order().ElementAt(values.Count / 2);
}
