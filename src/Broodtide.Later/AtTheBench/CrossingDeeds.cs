using Broodtide.Phone.Bench;
using Broodtide.Units;
using Broodtide.Workbench.Crossing;
using Broodtide.Workbench.TideLine;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Phone.AtTheBench;

/// <summary>One deed of the hands: what is drawn off first, then what is poured, at one time.</summary>
/// <param name="OffsetSeconds">Seconds after the first pour, as planned.</param>
/// <param name="Act">What is poured.</param>
/// <param name="Water">How much.</param>
/// <param name="CupDrawnOff">Drawn off the cup before it; 0 for none.</param>
/// <param name="ReceivingDrawnOff">Drawn off the receiving vessel before it; 0 for none.</param>
/// <param name="AnimalsPpt">Salinity the animals are in afterwards.</param>
internal sealed record CrossingDeed(
    double OffsetSeconds,
    BenchAct Act,
    Volume Water,
    Volume CupDrawnOff,
    Volume ReceivingDrawnOff,
    Salinity AnimalsPpt
)
{
    public bool IsIntoCup => Act == BenchAct.PourIntoCup;
}

/// <summary>A planned crossing as deeds, and where it stands by the clock.</summary>
internal sealed class CrossingDeeds
{
    /// <summary>Time to take the jug in hand before the first pour.</summary>
    public static readonly Duration Lead = Duration.FromSeconds(10);

    private CrossingDeeds(CrossingPlan plan, IReadOnlyList<CrossingDeed> all) => (Plan, All) = (plan, all);

    public CrossingPlan Plan { get; }

    public IReadOnlyList<CrossingDeed> All { get; }

    public static CrossingDeeds Of(CrossingPlan plan)
    {
        var all = new List<CrossingDeed>();
        Volume cup = default,
            receiving = default;
        foreach (var deed in plan.AtTheBench())
        {
            switch (deed.Act)
            {
                case BenchAct.DrawOffCup:
                    cup += deed.Water;
                    break;
                case BenchAct.DrawOffReceiving:
                    receiving += deed.Water;
                    break;
                default:
                    all.Add(
                        new(deed.OffsetSeconds, deed.Act, deed.Water, cup, receiving, deed.After.Salinity)
                    );
                    (cup, receiving) = (default, default);
                    break;
            }
        }

        return new(plan, all);
    }

    /// <summary>How long after the deed before it, or after the start, each is due.</summary>
    public Duration WaitBefore(int deed) =>
        deed == 0 ? Lead : Duration.FromSeconds(All[deed].OffsetSeconds - All[deed - 1].OffsetSeconds);

    /// <summary>The stair of the plan, with a dot where the clock stands.</summary>
    public CrossingStairRecord Stair(BenchRun? run, Instant now)
    {
        var last = All[^1].OffsetSeconds / 60;
        var end = (last * 1.18) + 0.4;
        return new CrossingStairRecord(
            Plan.Order.Cup.Salinity.Practical,
            [
                .. All.Select(deed => new StairStep(
                    deed.OffsetSeconds / 60,
                    Interval.Exactly(deed.AnimalsPpt.Practical)
                )),
            ],
            end,
            run is null || run.Next == 0 ? null : NowMinute(run, now, end),
            new TideZones(Plan.Order.Brackish.Lower.Practical, Plan.Order.Brackish.Upper.Practical)
        );
    }

    /// <summary>Minutes in brackish water so far, by the times at which the deeds were done.</summary>
    public double MinutesBrackish(BenchRun run, Instant now)
    {
        var minutes = 0.0;
        for (var deed = 0; deed < run.Next; deed++)
        {
            var inCup = All[deed].IsIntoCup ? All[deed].AnimalsPpt : LastInCup(deed);
            var isEmptied = All[deed].Act == BenchAct.PourWhole;
            if (!isEmptied && Plan.Order.Brackish.IsBrackish(inCup))
            {
                var until =
                    deed + 1 < run.Next ? run.Done[deed + 1]
                    : run.IsFinished ? run.Done[^1]
                    : now;
                minutes += (until - run.Done[deed]).TotalMinutes;
            }
        }

        return minutes;
    }

    /// <summary>Salinity of the cup after the pours that were made.</summary>
    public Salinity CupAfter(int done) => done == 0 ? Plan.Order.Cup.Salinity : LastInCup(done - 1);

    /// <summary>What went from the cup into the receiving vessel.</summary>
    public Volume Entered(int done) =>
        All.Take(done)
            .Where(deed => !deed.IsIntoCup)
            .Aggregate(default(Volume), (sum, deed) => sum + deed.Water);

    /// <summary>What was drawn off the receiving vessel.</summary>
    public Volume DrawnOffReceiving(int done) =>
        All.Take(done).Aggregate(default(Volume), (sum, deed) => sum + deed.ReceivingDrawnOff);

    private Salinity LastInCup(int deed)
    {
        for (var at = deed; at >= 0; at--)
        {
            if (All[at].IsIntoCup)
            {
                return All[at].AnimalsPpt;
            }
        }

        return Plan.Order.Cup.Salinity;
    }

    // Between two deeds the dot walks on by the clock, but waits before the next until it is done.
    private double NowMinute(BenchRun run, Instant now, double end)
    {
        var done = run.Next - 1;
        var from = All[done].OffsetSeconds / 60;
        var to = run.IsFinished ? end : All[run.Next].OffsetSeconds / 60;
        var since = run.IsFinished ? end : (now - run.Done[^1]).TotalMinutes;
        return Math.Clamp(from + Math.Max(0, since), from, Math.Max(from, to - (run.IsFinished ? 0 : 0.02)));
    }
}
