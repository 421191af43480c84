using System.Diagnostics;

namespace Broodtide.Phone.Browser;

/// <summary>What a phone can do in the background.</summary>
/// <param name="StepsPerSecond">Steps of 1,000 exponentials and square roots, rests included.</param>
/// <param name="LongestSliceMilliseconds">The longest time that the page was held.</param>
/// <param name="TasksOver50">Tasks over 50 ms that the browser saw meanwhile.</param>
internal readonly record struct Pace(double StepsPerSecond, double LongestSliceMilliseconds, int TasksOver50);

/// <summary>
/// Computes for some seconds in slices, while the keeper goes on, and tells how fast that was. It is how we know
/// that a bench screen stays quick on a given phone.
/// </summary>
internal sealed class PaceMeter
{
    private const int RootsInStep = 1000;
    private static readonly TimeSpan Long = TimeSpan.FromSeconds(10);

    public bool IsRunning { get; private set; }

    public Pace? Last { get; private set; }

    public event Action? Changed;

    public async Task Measure()
    {
        if (IsRunning)
        {
            return;
        }

        IsRunning = true;
        Changed?.Invoke();
        try
        {
            Last = await Run();
        }
        finally
        {
            IsRunning = false;
            Changed?.Invoke();
        }
    }

    /// <summary>The sum of exponentials of square roots; one step of the known work.</summary>
    public static double Step(double seed)
    {
        var sum = 0.0;
        for (var index = 0; index < RootsInStep; index++)
        {
            sum += Math.Exp(-Math.Sqrt(seed + index));
        }

        return sum;
    }

    private static async Task<Pace> Run()
    {
        var since = Glue.PageMilliseconds();
        var longest = TimeSpan.Zero;
        var restedAt = Stopwatch.GetTimestamp();
        var slicer = new Slicer(
            Slicer.DefaultBudget,
            async () =>
            {
                var held = Stopwatch.GetElapsedTime(restedAt);
                longest = held > longest ? held : longest;
                await Glue.Rest();
                restedAt = Stopwatch.GetTimestamp();
            },
            TimeProvider.System
        );
        var began = Stopwatch.GetTimestamp();
        var steps = 0;
        await foreach (var _ in slicer.Slice(Steps(began)))
        {
            steps++;
        }

        return new(
            steps / Stopwatch.GetElapsedTime(began).TotalSeconds,
            longest.TotalMilliseconds,
            Glue.CountTasksOver50(since)
        );
    }

    private static IEnumerable<double> Steps(long began)
    {
        var sum = 0.0;
        while (Stopwatch.GetElapsedTime(began) < Long)
        {
            yield return sum = Step(sum);
        }
    }
}
