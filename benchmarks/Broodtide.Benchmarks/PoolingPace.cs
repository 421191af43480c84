using System.Diagnostics;
using System.Globalization;
using Broodtide.Science.Pooling;
using Broodtide.Science.Statistics;
using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Benchmarks;

/// <summary>
/// Pools what many invented runs say of one number: with what is published, and by themselves. What each run says is taken as
/// worked out; that takes as long as its estimate.
/// </summary>
internal static class PoolingPace
{
    public static void Run(int runs)
    {
        var random = new Random(8);
        RunEffect[] effects =
        [
            .. Enumerable
                .Range(0, runs)
                .Select(_ => 0.02 + (0.3 * random.NextDouble()))
                .Select(error => new RunEffect(
                    Normal.Sample(random, Normal.Sample(random, 3.7, 0.15), error),
                    error * error
                )),
        ];
        foreach (var some in new[] { runs / 100, runs / 10, runs }.Where(some => some >= 3))
        {
            RunEffect[] part = effects[..some];
            var (with, next) = Timed(() => FewRuns.Of(part, 0.17, new NormalBelief(3.73, 0.17)).Next);
            var (alone, pooled) = Timed(() =>
            {
                var all = PooledRuns.Of(part);
                _ = all.MeanWithin(Probability.FromFraction(0.9));
                _ = all.BetweenVarianceWithin(Probability.FromFraction(0.9));
                return all;
            });
            Console.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{some, 7} runs: with what is published {with:F0} ms (next {next.Middle:F3}, {next.Low:F3} to {next.High:F3}), by themselves {alone:F0} ms (mean {pooled.Mean:F3}, deviation between {Math.Sqrt(pooled.BetweenVariance):F3})"
                )
            );
        }
    }

    // The best of five: whatever else the machine does only adds.
    private static (double Milliseconds, T Value) Timed<T>(Func<T> work)
    {
        var value = work();
        var best = double.PositiveInfinity;
        for (var turn = 0; turn < 5; turn++)
        {
            var began = Stopwatch.GetTimestamp();
            value = work();
            best = Math.Min(best, Stopwatch.GetElapsedTime(began).TotalMilliseconds);
        }

        return (best, value);
    }
}
