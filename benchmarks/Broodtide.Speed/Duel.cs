using System.Diagnostics;
using System.Globalization;

namespace Broodtide.Speed;

/// <summary>One who does the work, by name; the first of a duel is ours, the second the peer that it is compared with.</summary>
/// <param name="Name">As printed.</param>
/// <param name="Work">The work, once.</param>
/// <param name="Before">What is made ready before each turn, not timed.</param>
internal sealed record Runner(string Name, Action Work, Action? Before = null);

/// <summary>
/// Ours and a peer by turns, so that what else runs on the machine meets both. Told are the median and the best of each,
/// and the ratio of each to ours: the median of the ratios of one round, and that of the best. Processor time is that of
/// this process alone, on all cores.
/// </summary>
internal static class Duel
{
    public static IReadOnlyList<double> Run(string title, int rounds, params IReadOnlyList<Runner> runners)
    {
        var worked = runners.Select(_ => new List<double>(rounds)).ToList();
        var took = runners.Select(_ => new List<double>(rounds)).ToList();
        for (var round = -1; round < rounds; round++)
        {
            for (var turn = 0; turn < runners.Count; turn++)
            {
                // Who begins changes from round to round.
                var at = (turn + Math.Max(round, 0)) % runners.Count;
                runners[at].Before?.Invoke();
                var before = Environment.CpuUsage.TotalTime;
                var start = Stopwatch.GetTimestamp();
                runners[at].Work();
                var passed = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
                // The first round is not counted: code is compiled and files are fetched in it.
                if (round >= 0)
                {
                    took[at].Add(passed);
                    worked[at].Add((Environment.CpuUsage.TotalTime - before).TotalMilliseconds);
                }
            }
        }

        Told.Line($"{title}; {rounds} rounds by turns");
        for (var at = 0; at < runners.Count; at++)
        {
            var ratio = Told.Median(took[at].Select((ms, round) => ms / took[0][round]));
            Told.Line(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"  {runners[at].Name, -52} median {Told.Median(took[at]), 9:F3} ms, best {took[at].Min(), 9:F3} ms, processor {Told.Median(worked[at]), 7:F1} ms"
                )
                    + (
                        at == 0
                            ? ""
                            : string.Create(
                                CultureInfo.InvariantCulture,
                                $"; it takes {ratio:F2} times as long as ours (best of both: {took[at].Min() / took[0].Min():F2})"
                            )
                    )
            );
        }

        return [.. took.Select(Told.Median)];
    }
}
