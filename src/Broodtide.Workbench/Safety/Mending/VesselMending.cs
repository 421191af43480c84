using System.Collections.Immutable;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Safety.Mending;

/// <summary>
/// Looks for what brings a vessel's water back with the least done to it. Every mend is run forward before it is shown:
/// one that would raise un-ionised ammonia (new water may have a higher pH), or move salinity or temperature further at
/// once than the profile allows, is split over a day or two, or replaced.
/// </summary>
public static class VesselMending
{
    // Above this a limit is not mended.
    private const double Enough = CrossingOfLimits.Some;

    // After the work the water needs a while to be mixed and to breathe.
    private const int FirstHour = 3;

    // A change is felt at once, as the pH of the new water has its say.
    private const int AtOnceHours = 6;
    private const double RaisedShare = 1.02;
    private const int HoursBetweenChanges = 12;
    private const int MostChanges = 4;
    private const int HoursBetweenTries = 12;

    // Shares that a keeper can do with a jug and a sieve.
    private static readonly double[] Shares = [0.1, 0.2, 0.3, 0.4, 0.5];

    /// <summary>
    /// The mend of a vessel in pieces: nothing in each but the last, and nothing at all there where no limit wants minding
    /// or no act helps.
    /// </summary>
    /// <param name="safety">What is to be minded.</param>
    /// <param name="profile">Whose steps of salinity and temperature are allowed at once.</param>
    /// <param name="water">The sea water at hand.</param>
    public static IEnumerable<Mend?> InPieces(VesselSafety safety, SpeciesProfile profile, NewWater water)
    {
        var minded = Minded(safety);
        if (safety.Run is not { } run || minded.IsEmpty)
        {
            yield return null;
            yield break;
        }

        var steps = new StepsAtOnce(profile);
        Mend? best = null;
        var small = ImmutableArray<MendAct>.Empty;
        var refused = ImmutableArray<Remark>.Empty;
        var refusedActs = ImmutableArray<MendAct>.Empty;
        foreach (var act in Small(run.Story, minded))
        {
            var tried = Tried(safety, minded, small.Add(act), water, refused);
            yield return null;
            if (RaisesAmmonia(run, tried) && IsPoisoned(safety, tried))
            {
                // Bubbles drive out carbon dioxide: the pH rises, and the poison with it.
                refused = refused.Add(new Remark("mend-air-would-raise-ammonia"));
                refusedActs = refusedActs.Add(act);
                continue;
            }

            small = tried.Acts;
            best = Better(tried, best);
            if (tried.IsEnough)
            {
                break;
            }
        }

        if (best is not { IsEnough: true })
        {
            small = best?.Acts ?? [];
            var ready = Prepared(run.Story, water, steps, out var prepared);
            prepared = [.. refused, .. prepared];
            foreach (var share in Shares)
            {
                Mend? changed = null;
                // With less of the poison in the water, what was refused before may do.
                var plans = Splits(run.Story, share, ready, steps).ToList();
                foreach (
                    var plan in refusedActs.IsEmpty
                        ? plans
                        : [.. plans.Select(plan => plan.InsertRange(0, refusedActs)), .. plans]
                )
                {
                    var tried = Tried(safety, minded, [.. small, .. plan], ready, prepared);
                    yield return null;
                    var breathes = plan.Any(act => act is MendAct.LeadAir);
                    if (!RaisesAmmonia(run, tried) || (breathes && !IsPoisoned(safety, tried)))
                    {
                        changed = tried with
                        {
                            Remarks =
                            [
                                .. tried.Remarks.Where(remark =>
                                    !breathes || remark.Code != "mend-air-would-raise-ammonia"
                                ),
                                .. SplitInto(plan),
                            ],
                        };
                        break;
                    }
                }

                if (changed is null)
                {
                    refused = refused.Add(new Remark("mend-change-would-raise-ammonia"));
                    best = best is null ? null : best with { Remarks = refused };
                    break;
                }

                best = Better(changed, best);
                if (changed.IsEnough)
                {
                    break;
                }
            }
        }

        if (best is not null && run.Story.Foods.LastOrDefault() is { } food && GivenLately(run.Story, food))
        {
            Instant? again = null;
            for (
                var hour = HoursBetweenTries;
                again is null && hour < VesselStory.HoursAhead;
                hour += HoursBetweenTries
            )
            {
                var scene = MendedScene.Fed(
                    MendedScene.Of(run.Story, best.Acts, water),
                    run.Story.NowHour + hour,
                    food
                );
                var traces = run.With(scene);
                again = Chances(safety, traces).All(limit => limit.Chance.Value < Enough)
                    ? run.Story.At(run.Story.NowHour + hour)
                    : null;
                yield return null;
            }

            best = best with { Acts = [new MendAct.NoFood(again), .. best.Acts] };
        }

        yield return best is { Acts.IsEmpty: false } ? best : null;
    }

    // Only what a mend can move: salinity is the ledger's, warmth the room's.
    private static ImmutableArray<LimitAhead> Minded(VesselSafety safety) =>
        [
            .. safety.Limits.Where(limit =>
                limit.Level >= SafetyLevel.Warning
                && CrossingOfLimits.QuantityOf(limit.Limit.Quantity) is not null
            ),
        ];

    // From the least to the most.
    private static IEnumerable<MendAct> Small(VesselStory story, ImmutableArray<LimitAhead> minded)
    {
        var now = story.Scene.Hours[story.NowHour];
        if (
            now.Air is AirFlow.None
            && minded.Any(limit => limit.Limit.Quantity is LimitedQuantity.Oxygen or LimitedQuantity.Acidity)
        )
        {
            yield return new MendAct.LeadAir();
        }

        if (minded.Any(limit => limit.Limit is { Quantity: LimitedQuantity.Acidity, IsUpper: true }))
        {
            yield return new MendAct.Light(0);
        }

        if (minded.Any(limit => limit.Limit.Quantity is not LimitedQuantity.Acidity))
        {
            yield return new MendAct.Siphon();
        }
    }

    /// <summary>The new water as it must be before any of it goes in.</summary>
    private static NewWater Prepared(
        VesselStory story,
        NewWater water,
        StepsAtOnce steps,
        out ImmutableArray<Remark> remarks
    )
    {
        var hour = story.Scene.Hours[story.NowHour];
        var told = ImmutableArray.CreateBuilder<Remark>();
        // The smallest change, in as many parts as there are, must stay within a step.
        if (Shares[0] * Math.Abs(water.Salinity.Practical - hour.Salinity.Practical) > steps.Salinity)
        {
            told.Add(new Remark("mend-correct-new-water", new Argument("ppt", hour.Salinity.Practical)));
            water = water with { Salinity = hour.Salinity };
        }

        if (Shares[^1] * Math.Abs(water.Celsius - hour.Temperature.Celsius) > steps.Celsius)
        {
            told.Add(new Remark("mend-warm-new-water", new Argument("celsius", hour.Temperature.Celsius)));
            water = water with { Celsius = hour.Temperature.Celsius };
        }

        remarks = told.ToImmutable();
        return water;
    }

    /// <summary>A change of a share in one go, or in as many as a step of salinity asks for, and then in more.</summary>
    private static IEnumerable<ImmutableArray<MendAct>> Splits(
        VesselStory story,
        double share,
        NewWater water,
        StepsAtOnce steps
    )
    {
        var hour = story.Scene.Hours[story.NowHour];
        var litres = hour.Water.Litres;
        for (var parts = 1; parts <= MostChanges; parts++)
        {
            // As much of the old water is left as after one change of the whole share.
            var each = 1 - Math.Pow(1 - share, 1.0 / parts);
            if (
                each * Math.Abs(water.Salinity.Practical - hour.Salinity.Practical) > steps.Salinity
                || each * Math.Abs(water.Celsius - hour.Temperature.Celsius) > steps.Celsius
            )
            {
                continue;
            }

            yield return
            [
                .. Enumerable
                    .Range(0, parts)
                    .Select(part => new MendAct.ChangeWater(
                        story.At(story.NowHour + (part * HoursBetweenChanges)),
                        Volume.FromLitres(each * litres),
                        Probability.FromFraction(each),
                        water.Salinity
                    )),
            ];
        }
    }

    private static Mend Tried(
        VesselSafety safety,
        ImmutableArray<LimitAhead> minded,
        ImmutableArray<MendAct> acts,
        NewWater water,
        ImmutableArray<Remark> remarks
    )
    {
        var run = safety.Run!;
        var ahead = run.With(MendedScene.Of(run.Story, acts, water));
        var after = Chances(safety, ahead);
        var before = Chances(safety, run.Ahead);
        var told = before
            .Zip(after, (was, now) => new MendedLimit(was.Limit, was.Chance, now.Chance))
            .Where(limit =>
                minded.Any(it => it.Limit == limit.Limit) || limit.Mended.Value > limit.AsItIs.Value + 0.05
            )
            .ToImmutableArray();
        return new Mend
        {
            Acts = acts,
            Limits = told,
            Remarks = remarks,
            IsEnough = told.All(limit => limit.Mended.Value < Enough),
            Ahead = ahead,
        };
    }

    // Of those limits that harm: advice that is passed for a day is no reason to pour.
    private static List<(LifeLimit Limit, Probability Chance)> Chances(
        VesselSafety safety,
        VesselTraces ahead
    ) =>
        [
            .. safety
                .Limits.Select(limit => limit.Limit)
                .Where(limit =>
                    CrossingOfLimits.QuantityOf(limit.Quantity) is not null
                    && (
                        limit.IsDanger
                        || !safety.Limits.Any(other =>
                            other.Limit.IsDanger
                            && other.Limit.Quantity == limit.Quantity
                            && other.Limit.IsUpper == limit.IsUpper
                        )
                    )
                )
                .Select(limit =>
                    (
                        limit,
                        CrossingOfLimits.For(
                            ahead,
                            CrossingOfLimits.QuantityOf(limit.Quantity)!.Value,
                            limit,
                            FirstHour,
                            ahead.Hours
                        )
                    )
                ),
        ];

    private static bool RaisesAmmonia(VesselRun run, Mend tried) =>
        Highest(tried.Ahead) > (RaisedShare * Highest(run.Ahead)) + 0.001;

    private static IEnumerable<Remark> SplitInto(ImmutableArray<MendAct> plan) =>
        plan.Count(act => act is MendAct.ChangeWater) is > 1 and var parts
            ? [new Remark("mend-change-split", new Argument("number", parts))]
            : [];

    private static bool IsPoisoned(VesselSafety safety, Mend tried) =>
        Chances(safety, tried.Ahead)
            .Any(limit =>
                limit.Limit.Quantity is LimitedQuantity.UnionisedAmmonia && limit.Chance.Value >= Enough
            );

    private static double Highest(VesselTraces ahead) =>
        MemberQuantiles
            .Of(ahead.Extremes(VesselQuantity.UnionisedAmmonia, 1, AtOnceHours, highest: true).ToArray())
            .Middle;

    private static Mend Better(Mend tried, Mend? best) =>
        best is null || Worst(tried) < Worst(best) - 0.02 || (tried.IsEnough && !best.IsEnough)
            ? tried
            : best;

    private static double Worst(Mend mend) =>
        mend.Limits.Select(limit => limit.Mended.Value).DefaultIfEmpty(0).Max();

    private static bool GivenLately(VesselStory story, FoodGiven food) => food.Hour >= story.NowHour - 72;
}
