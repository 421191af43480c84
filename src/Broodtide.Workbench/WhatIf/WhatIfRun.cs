using System.Collections.Immutable;
using Broodtide.Science;
using Broodtide.Science.Estimation.Larvae;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.WhatIf;

/// <summary>
/// Runs a vessel on as it is and under a change, member by member from the same start, and compares the two.
/// </summary>
public static class WhatIfRun
{
    // A piece of the twin, hours: short enough for the phone's one thread.
    private const int PieceHours = 8;

    // More points of the number alive would not be seen.
    private const int MostAlivePoints = 32;

    /// <summary>Answers a question that <see cref="WhatIfRules.Refusals"/> let pass.</summary>
    /// <param name="ground">What it starts from.</param>
    /// <param name="changes">What is changed.</param>
    /// <param name="hands">Who runs several parts of the members at the same time; one after another if left out.</param>
    public static WhatIfAnswer Of(
        WhatIfGround ground,
        IReadOnlyList<WhatIfChange> changes,
        IManyHands? hands = null
    ) => InPieces(ground, changes, hands).Last()!;

    /// <summary>The same for who may not be held up: nothing in each piece but the last.</summary>
    /// <inheritdoc cref="Of"/>
    /// <exception cref="ArgumentException">The changes are refused.</exception>
    public static IEnumerable<WhatIfAnswer?> InPieces(
        WhatIfGround ground,
        IReadOnlyList<WhatIfChange> changes,
        IManyHands? hands = null
    )
    {
        Finite.Within(ground.Days, 1, WhatIfGround.MostDays, nameof(ground));
        return WhatIfRules.Refusals(ground, changes) is [var refused, ..]
            ? throw new ArgumentException(refused.ToString(), nameof(changes))
            : Pieces(ground, changes, hands);
    }

    private static IEnumerable<WhatIfAnswer?> Pieces(
        WhatIfGround ground,
        IReadOnlyList<WhatIfChange> changes,
        IManyHands? hands
    )
    {
        yield return null;
        var changed = ChangedScene.Of(ground, changes);
        yield return null;
        var waters = new List<MemberDays>();
        foreach (var scene in new[] { ground.AsItIs, changed })
        {
            var gathered = new MemberDays(ground.Days, ground.Members.Members);
            waters.Add(gathered);
            var members = ground.Members;
            while (members.Hour < ground.EndHour)
            {
                var hour = members.Hour - ground.FromHour;
                var (traces, end) = VesselTwin.Forward(
                    members,
                    scene,
                    Math.Min(PieceHours, ground.EndHour - members.Hour),
                    hands: hands
                );
                gathered.Take(traces, hour);
                members = end;
                yield return null;
            }
        }

        var days = AliveDays(ground.Days);
        var larvae = new List<LarvalFuture>();
        if (ground.Larvae is { } learned)
        {
            foreach (var (scene, water) in new[] { (ground.AsItIs, waters[0]), (changed, waters[1]) })
            {
                foreach (var told in Larvae(ground, learned, scene, water, days))
                {
                    if (told is null)
                    {
                        yield return null;
                    }
                    else
                    {
                        larvae.Add(told);
                    }
                }
            }
        }

        yield return null;
        yield return Told(ground, changes, waters, larvae, days);
    }

    private static IEnumerable<LarvalFuture?> Larvae(
        WhatIfGround ground,
        WhatIfLarvae learned,
        VesselScene scene,
        MemberDays water,
        ImmutableArray<double> days
    )
    {
        var course = FutureCourse.Of(
            learned,
            scene,
            ground.FromHour,
            ground.EndHour,
            [.. MemberDays.Points(water.Food).Select(cells => cells.Middle)],
            ground.AsItIs.Events.Any(FutureCourse.IsMeal)
        );
        var run = learned.Run with
        {
            Courses = [.. learned.Run.Courses.Select((old, i) => i == learned.Vessel ? course : old)],
        };
        return LarvalFutures.InPieces(
            run,
            learned.Learned,
            run.InVessel(learned.Vessel),
            [.. days.Select(day => run.Now + day)],
            ground.Members.Members
        );
    }

    private static ImmutableArray<double> AliveDays(int days)
    {
        var step = (days + MostAlivePoints - 2) / (MostAlivePoints - 1);
        return [.. Enumerable.Range(0, ((days - 1) / step) + 1).Select(i => (double)(i * step)), days];
    }

    private static WhatIfAnswer Told(
        WhatIfGround ground,
        IReadOnlyList<WhatIfChange> changes,
        List<MemberDays> waters,
        List<LarvalFuture> larvae,
        ImmutableArray<double> aliveDays
    )
    {
        var (was, becomes) = (waters[0], waters[1]);
        var figures = new List<WhatIfFigure>();
        var series = new List<WhatIfSeries>();
        if (larvae is [var going, var other])
        {
            var factor = ChangedScene.LarvaFactor(ground, changes);
            double[][] more = [.. other.Alive.Select(day => day.Select(alive => alive * factor).ToArray())];
            figures.Add(WhatIfFigures.Of(WhatIfQuantity.Alive, going.Alive[^1], more[^1]));
            series.Add(
                new(
                    WhatIfQuantity.Alive,
                    aliveDays,
                    MemberDays.Points([.. going.Alive.Select(day => day.ToArray())]),
                    MemberDays.Points(more)
                )
            );
        }

        ImmutableArray<double> days = [.. Enumerable.Range(0, ground.Days).Select(day => day + 0.5)];
        var limits = new List<WhatIfLimit>();
        Water(
            WhatIfQuantity.UnionisedAmmonia,
            water => water.Ammonia,
            values => values.Max(),
            ground.AmmoniaLimit
        );
        Water(WhatIfQuantity.Oxygen, water => water.Oxygen, values => values.Min(), ground.OxygenLimit);
        Water(WhatIfQuantity.Food, water => water.Food, values => values.Average(), null);
        if (larvae is [var first, var second] && ground.Larvae is { Run.Now: var now })
        {
            figures.Add(
                WhatIfFigures.Of(
                    WhatIfQuantity.Settlement,
                    [.. first.HalfSettledDays.Select(day => day - now)],
                    [.. second.HalfSettledDays.Select(day => day - now)]
                )
            );
        }

        return new()
        {
            Vessel = ground.Vessel,
            Now = ground.Now,
            Days = ground.Days,
            Members = ground.Members.Members,
            Changes = changes,
            Figures = figures,
            Series = series,
            Limits = limits,
            Remarks =
            [
                .. WhatIfRules.Cautions(ground, changes),
                .. ground.Larvae is null
                    ? new[] { new Remark("whatif-without-larvae") }
                    : [new Remark("whatif-deaths-by-water-not-counted")],
                .. ground.Assumed,
            ],
        };

        void Water(
            WhatIfQuantity quantity,
            Func<MemberDays, double[][]> of,
            Func<IEnumerable<double>, double> over,
            double? limit
        )
        {
            var before = MemberDays.Over(of(was), over);
            var after = MemberDays.Over(of(becomes), over);
            figures.Add(WhatIfFigures.Of(quantity, before, after));
            series.Add(new(quantity, days, MemberDays.Points(of(was)), MemberDays.Points(of(becomes))));
            if (limit is { } bound)
            {
                limits.Add(new(quantity, bound, Passing(before), Passing(after)));
            }

            Probability Passing(double[] members) =>
                Probability.FromFraction(
                    (double)
                        members.Count(value =>
                            quantity == WhatIfQuantity.Oxygen ? value < limit : value > limit
                        ) / members.Length
                );
        }
    }
}
