using System.Diagnostics;
using System.Globalization;

namespace Broodtide.Speed;

/// <summary>
/// How the cost of one work grows with its size: each at 1x, 10x and 100x, with the slope of log time by log size (1 is
/// linear), and the most memory it held. Processor time, since other work beside it lengthens the wall; the best of several
/// turns.
/// </summary>
internal static class CostLaw
{
    /// <summary>Measures a work that may be done again and again, and prints its law.</summary>
    /// <param name="title">What is done.</param>
    /// <param name="sizes">Sizes of the work, rising.</param>
    /// <param name="make">Makes the work of a size; what it makes ready is not counted.</param>
    /// <param name="turns">Most turns that are counted; fewer where they take long.</param>
    public static void Of(string title, int[] sizes, Func<int, Action> make, int turns = 5) =>
        Afresh(
            title,
            sizes,
            size =>
            {
                var work = make(size);
                return () => work;
            },
            turns
        );

    /// <summary>The same for a work that needs something made ready before every turn, which is not counted.</summary>
    /// <inheritdoc cref="Of"/>
    public static void Afresh(string title, int[] sizes, Func<int, Func<Action>> make, int turns = 5)
    {
        var points = new List<(double Size, double Time)>();
        var memory = new List<double>();
        foreach (var size in sizes)
        {
            var ready = make(size);
            // The first turns pay for what is compiled; so does the measure of memory.
            ready()();
            memory.Add(PeakMemory.Of(ready()));
            var best = double.MaxValue;
            var start = Stopwatch.GetTimestamp();
            for (
                var turn = 0;
                turn < turns && (turn < 2 || Stopwatch.GetElapsedTime(start).TotalSeconds < 8);
                turn++
            )
            {
                var work = ready();
                var before = Environment.CpuUsage.TotalTime;
                work();
                best = Math.Min(best, (Environment.CpuUsage.TotalTime - before).TotalMilliseconds);
            }

            points.Add((size, Math.Max(best, 1e-4)));
        }

        Told.Line(
            string.Create(
                CultureInfo.InvariantCulture,
                $"  {title, -54} {string.Join(", ", points.Select(p => $"{p.Size:N0}: {Told.Number(p.Time, "F3")} ms"))}; exponent {Told.Exponent(points):F2} (last tenfold {Told.Exponent([points[^2], points[^1]]):F2}); memory {string.Join(", ", memory.Select(mb => Told.Number(mb, "F1")))} MB"
            )
        );
    }
}
