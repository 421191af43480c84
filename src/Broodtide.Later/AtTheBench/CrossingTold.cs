using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using Broodtide.Phone.Bench;
using Broodtide.Units;
using Broodtide.Workbench.Recording;
using NodaTime;

namespace Broodtide.Phone.AtTheBench;

/// <summary>What the keeper adds once the cup is empty.</summary>
/// <param name="Brood">Of which brood; a new one where none is written.</param>
/// <param name="To">Into which vessel.</param>
/// <param name="Number">How many, if it was counted or guessed.</param>
/// <param name="Method">How the number was arrived at.</param>
/// <param name="Until">When it ended: the last deed, or when the keeper broke off.</param>
internal sealed record CrossingCounted(
    BroodId Brood,
    VesselId To,
    int? Number,
    CountMethod? Method,
    Instant Until
);

/// <summary>The entries that tell of a crossing as it was made: the pours by the times at which the key was pressed.</summary>
internal static class CrossingTold
{
    // Larvae that cross into one vessel within a day are told as one cohort.
    private static readonly Duration OneCohort = Duration.FromDays(1);

    public static IReadOnlyList<Draft> Larvae(
        KeptCrossing kept,
        CrossingDeeds deeds,
        BenchRun run,
        CrossingCounted counted,
        House house,
        Keeper keeper
    )
    {
        var began = run.Done[0];
        var entered = deeds.Entered(run.Next);
        // The cup's water is an empty vessel's first: it is told as its filling, and not a second time.
        var fills = house.Vessel(counted.To).Standing is null && entered > default(Volume);
        var pouredIn = entered > default(Volume) && !fills;
        var fact = new CrossingMade(
            CohortFor(house, counted, began) ?? keeper.New<CohortId>(),
            counted.Brood,
            counted.To,
            kept.Collections.Length > 0 ? [.. kept.Collections.Select(id => new CollectionId(id))] : null,
            counted.Number,
            counted.Number is null ? null : counted.Method,
            kept.SourceId,
            Ppt(deeds.Plan.Order.Source.Salinity),
            pouredIn ? Litres(entered) : null,
            pouredIn ? Ppt(deeds.CupAfter(run.Next)) : null,
            TypedNumber.Of(Math.Round(deeds.MinutesBrackish(run, counted.Until), 2), "min"),
            Pours(deeds, run)
        );
        var drafts = new List<Draft>(DrawnOff(deeds, run, counted.To, keeper));
        if (fills)
        {
            drafts.Add(
                keeper.Write(
                    new VesselFilled(
                        counted.To,
                        keeper.New<FillId>(),
                        Litres(entered),
                        Ppt(deeds.CupAfter(run.Next))
                    ),
                    Happened.At(began)
                )
            );
        }

        drafts.Add(keeper.Write(fact, Happened.At(began)));
        return drafts;
    }

    public static IReadOnlyList<Draft> Juveniles(
        CrossingDeeds deeds,
        BenchRun run,
        VesselId from,
        CrossingCounted counted,
        House house,
        Keeper keeper
    )
    {
        var entered = deeds.Entered(run.Next);
        var isEmpty = house.Vessel(counted.To).Standing is null;
        var drafts = new List<Draft>(DrawnOff(deeds, run, counted.To, keeper))
        {
            keeper.Write(
                new JuvenilesReturned(
                    from,
                    counted.To,
                    counted.Number,
                    null,
                    TypedNumber.Of(Math.Round((run.Done[^1] - run.Done[0]).TotalMinutes, 2), "min"),
                    Pours(deeds, run)
                ),
                Happened.At(run.Done[0])
            ),
        };
        if (entered > default(Volume))
        {
            drafts.Add(
                keeper.Write(
                    isEmpty
                        ? new VesselFilled(
                            counted.To,
                            keeper.New<FillId>(),
                            Litres(entered),
                            Ppt(deeds.CupAfter(run.Next))
                        )
                        : new WaterMoved(
                            To: counted.To,
                            Volume: Litres(entered),
                            Salinity: Ppt(deeds.CupAfter(run.Next))
                        ),
                    Happened.At(run.Done[^1])
                )
            );
        }

        return drafts;
    }

    private static IEnumerable<Draft> DrawnOff(CrossingDeeds deeds, BenchRun run, VesselId to, Keeper keeper)
    {
        var drawn = deeds.DrawnOffReceiving(run.Next);
        if (drawn > default(Volume))
        {
            yield return keeper.Write(
                new WaterMoved(From: to, Volume: Litres(drawn)),
                Happened.At(run.Done[^1])
            );
        }
    }

    private static List<CrossingPour> Pours(CrossingDeeds deeds, BenchRun run) =>
        [
            .. deeds
                .All.Take(run.Next)
                .Select((deed, at) => (Deed: deed, At: run.Done[at]))
                .Where(done => done.Deed.IsIntoCup)
                .Select(done => new CrossingPour(
                    Math.Round((done.At - run.Done[0]).TotalSeconds, 1),
                    done.Deed.CupDrawnOff > default(Volume) ? Litres(done.Deed.CupDrawnOff) : null,
                    Litres(done.Deed.Water)
                )),
        ];

    private static CohortId? CohortFor(House house, CrossingCounted counted, Instant began)
    {
        var last = house.Cohorts.LastOrDefault(cohort =>
            cohort.Brood == counted.Brood
            && cohort.MergedInto is null
            && cohort.Crossed is { } crossed
            && began - crossed.Middle <= OneCohort
            && began >= crossed.Middle
            && cohort.VesselsAt(began).Contains(counted.To)
        );
        return last?.Id;
    }

    private static TypedNumber Litres(Volume volume) => TypedNumber.Of(Math.Round(volume.Litres, 4), "L");

    private static TypedNumber Ppt(Salinity salinity) =>
        TypedNumber.Of(Math.Round(salinity.Practical, 2), UnitCode.PracticalSalinity);
}
