using System.Diagnostics;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Workbench;
using Broodtide.Workbench.Demo;
using Broodtide.Workbench.Recording;
using NodaTime;

namespace Broodtide.Phone.Browser;

/// <summary>What a phone can do in the background.</summary>
/// <param name="StepsPerSecond">Steps of 1,000 exponentials and square roots, rests included.</param>
/// <param name="LongestSliceMilliseconds">The longest time that the page was held.</param>
/// <param name="TasksOver50">Tasks over 50 ms that the browser saw meanwhile.</param>
/// <param name="EstimateMilliseconds">
/// One estimate of an invented run of six crossings, 45 days and 40 entries, rests left out; the second, when
/// nothing is done for the first time.
/// </param>
/// <param name="LongestPieceMilliseconds">The longest piece of that estimate.</param>
/// <param name="TwinMilliseconds">An invented vessel's twin, 60 days of 200 members, rests left out; the second.</param>
/// <param name="LongestTwinMilliseconds">The longest piece of that.</param>
internal readonly record struct Pace(
    double StepsPerSecond,
    double LongestSliceMilliseconds,
    int TasksOver50,
    double EstimateMilliseconds,
    double LongestPieceMilliseconds,
    double TwinMilliseconds,
    double LongestTwinMilliseconds
);

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

        var perSecond = steps / Stopwatch.GetElapsedTime(began).TotalSeconds;
        var account = await Account();
        _ = await Estimate(account, slicer);
        var (estimate, piece) = await Estimate(account, slicer);
        _ = await Twin(slicer);
        var (twin, quarter) = await Twin(slicer);
        return new(
            perSecond,
            longest.TotalMilliseconds,
            Glue.CountTasksOver50(since),
            estimate.TotalMilliseconds,
            piece.TotalMilliseconds,
            twin.TotalMilliseconds,
            quarter.TotalMilliseconds
        );
    }

    private static async Task<(TimeSpan Whole, TimeSpan Piece)> Twin(Slicer slicer)
    {
        var (whole, longest) = (TimeSpan.Zero, TimeSpan.Zero);
        await foreach (var took in slicer.Slice(Timed(SixtyDays.Steps(SixtyDays.Scene()))))
        {
            whole += took;
            longest = took > longest ? took : longest;
        }

        return (whole, longest);
    }

    // How long each piece took to come.
    private static IEnumerable<TimeSpan> Timed<T>(IEnumerable<T> pieces)
    {
        using var each = pieces.GetEnumerator();
        while (true)
        {
            var began = Stopwatch.GetTimestamp();
            if (!each.MoveNext())
            {
                yield break;
            }

            yield return Stopwatch.GetElapsedTime(began);
        }
    }

    private static async Task<Account> Account()
    {
        var now = SystemClock.Instance.GetCurrentInstant();
        await using var journal = new MemoryJournal(new ReplicaId(Guid.CreateVersion7()));
        return Domain.Journal.Account.Of(
            await journal.AppendAsync([.. SixCrossings.Drafts(now, DateTimeZone.Utc)])
        );
    }

    private static async Task<(TimeSpan Whole, TimeSpan Piece)> Estimate(Account account, Slicer slicer)
    {
        var outlook = Outlook.Of(account, SystemClock.Instance.GetCurrentInstant(), DateTimeZone.Utc);
        var population = outlook.Populations[0];
        var (whole, longest) = (TimeSpan.Zero, TimeSpan.Zero);
        await foreach (var step in slicer.Slice(outlook.StepsOf(population)))
        {
            var began = Stopwatch.GetTimestamp();
            step();
            var took = Stopwatch.GetElapsedTime(began);
            whole += took;
            longest = took > longest ? took : longest;
        }

        return (whole, longest);
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
