using System.Collections.Immutable;
using Broodtide.Domain;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Safety;
using Broodtide.Workbench.Safety.Advising;
using Broodtide.Workbench.WhatIf;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.BadDays;

/// <summary>Plans an absence from the plan, the due list, the ledgers, the advice and the twins of the vessels.</summary>
public static class AwayPlanning
{
    /// <summary>The longest absence that is planned, days.</summary>
    public const int MostDays = 45;

    // Chance of passing a limit from which a dose is halved, and how often; then none is given. This project's choice.
    private const double Bearable = 0.2;
    private const int MostHalvings = 2;

    // Less than this a day is not worth a helper's hand.
    private const double LeastMillilitres = 5;
    private const double LeastMilligrams = 0.5;

    // A powder of which nothing was said.
    private const double UsualProtein = 0.45;

    private static readonly string[] Daily =
    [
        ActionCodes.FeedLarvae,
        ActionCodes.ReadSalinity,
        ActionCodes.ReadTemperature,
        ActionCodes.TopUp,
    ];

    /// <summary>The plan of an absence, or why there is none.</summary>
    /// <param name="outlook">What is known.</param>
    /// <param name="from">The first day away.</param>
    /// <param name="days">Days away, 1 to <see cref="MostDays"/>.</param>
    public static Parsed<AwayPlan> Of(Outlook outlook, LocalDate from, int days) =>
        InPieces(outlook, from, days).Last()!;

    /// <summary>The same for who may not be held up: nothing in each piece but the last.</summary>
    /// <inheritdoc cref="Of"/>
    public static IEnumerable<Parsed<AwayPlan>?> InPieces(Outlook outlook, LocalDate from, int days)
    {
        var today = outlook.Now.InZone(outlook.Zone).Date;
        if (days is < 1 or > MostDays)
        {
            yield return Parsed<AwayPlan>.No(
                "badday-away-days-impossible",
                new("given", (double)days),
                new("most", (double)MostDays)
            );
            yield break;
        }

        if (from < today || from > today.PlusDays(MostDays))
        {
            yield return Parsed<AwayPlan>.No("badday-away-from-impossible", new Argument("day", from));
            yield break;
        }

        var until = from.PlusDays(days);
        var leaves = Instant.Max(outlook.Now, outlook.Zone.AtStartOfDay(from).ToInstant());
        var returns = outlook.Zone.AtStartOfDay(until).ToInstant();
        var lead = Period.DaysBetween(today, from);
        var vessels = new List<AwayVessel>();
        foreach (var vessel in HeatWave.Lived(outlook).ToList())
        {
            foreach (var step in outlook.AdviceSteps(vessel.Id))
            {
                step();
                yield return null;
            }

            AwayVessel? one = null;
            foreach (var told in Told(outlook, vessel, lead, days))
            {
                one = told;
                yield return null;
            }

            if (one is not null)
            {
                vessels.Add(one);
            }
        }

        yield return Parsed<AwayPlan>.Of(Plan(outlook, from, until, days, leaves, returns, vessels));
    }

    private static AwayPlan Plan(
        Outlook outlook,
        LocalDate from,
        LocalDate until,
        int days,
        Instant leaves,
        Instant returns,
        List<AwayVessel> vessels
    )
    {
        ImmutableArray<AwayHatch> hatches =
        [
            .. outlook
                .Forecasts.Select(forecast =>
                {
                    var before = forecast.ChanceBy(leaves).Value;
                    return new AwayHatch(
                        forecast.Brood,
                        Probability.FromFraction(Math.Clamp(forecast.ChanceBy(returns).Value - before, 0, 1)),
                        Probability.FromFraction(before)
                    );
                })
                .Where(hatch => hatch.Chance.Value >= 0.005)
                .OrderByDescending(hatch => hatch.Chance.Value),
        ];
        var actions = outlook
            .Plans.SelectMany(plan => plan.Open)
            .Concat(outlook.Due.Items.Select(item => item.Action))
            .DistinctBy(action => action.Key)
            .Where(action => action.From < returns && !Daily.Contains(action.Code, StringComparer.Ordinal))
            .OrderBy(action => action.By)
            .ToList();
        bool Waits(PlannedAction action) => (action.SlipsUntil ?? action.By) >= returns;
        bool StartsBefore(PlannedAction action) => action.From <= leaves;
        return new()
        {
            Now = outlook.Now,
            From = from,
            Until = until,
            Days = days,
            First = [.. First(hatches, vessels, days)],
            Cautions = [CautionCode.MainsBesideSaltWater],
            Hatches = hatches,
            Before = [.. actions.Where(action => !Waits(action) && StartsBefore(action))],
            Cannot = [.. actions.Where(action => !Waits(action) && !StartsBefore(action))],
            CanWait = [.. actions.Where(Waits)],
            Vessels = [.. vessels],
            Assumed =
            [
                new Remark("badday-away-same-each-day"),
                new Remark("badday-away-plan-of-today"),
                .. vessels.Any(one => one.AliveTended is not null)
                    ? [new Remark("badday-away-deaths-by-water")]
                    : Array.Empty<Remark>(),
            ],
        };
    }

    private static IEnumerable<Remark> First(
        ImmutableArray<AwayHatch> hatches,
        List<AwayVessel> vessels,
        int days
    )
    {
        foreach (var hatch in hatches.Where(hatch => hatch.Chance.Value >= 0.05))
        {
            yield return new Remark(
                "badday-away-hatch",
                new("brood", hatch.Brood),
                new("chance", hatch.Chance.Value)
            );
        }

        if (vessels.Count == 0)
        {
            yield return new Remark("badday-away-nothing");
            yield break;
        }

        yield return days <= 1 ? new Remark("badday-away-one-day")
        : vessels.Any(one => one.AliveTended is not null) ? new Remark("badday-away-helper")
        : new Remark("badday-away-adults-fast");
        yield return new Remark("badday-away-portions");
        yield return new Remark("badday-away-bottles");
        yield return new Remark("badday-away-show");
        yield return new Remark("badday-away-no-news");
    }

    private static IEnumerable<AwayVessel?> Told(Outlook outlook, Vessel vessel, int lead, int days)
    {
        var ledger = outlook.LedgerOf(vessel.Id);
        var topUp = ledger is { EvaporationMillilitresPerDay.Middle: > LeastMillilitres and var lost }
            ? 5 * Math.Round(lost / 5)
            : 0;
        var plain = new AwayVessel
        {
            Vessel = vessel.Id,
            TopUpMillilitresPerDay = topUp,
            LeavesBand = ledger?.Leaving is { } leaving ? leaving.Middle ?? leaving.Earliest : null,
            Portions = [],
            Remarks = [],
        };
        if (vessel.Role is VesselRole.AlgaeCulture)
        {
            yield return plain with
            {
                Remarks = [new Remark("badday-away-culture")],
            };
            yield break;
        }

        if (outlook.AdviceAtHand(vessel.Id) is not { } advice)
        {
            yield return plain with
            {
                Remarks =
                [
                    new Remark(
                        vessel.Role is VesselRole.EggVessel ? "badday-away-eggs" : "badday-away-adults"
                    ),
                ],
            };
            yield break;
        }

        Parsed<WhatIfGround>? found = null;
        foreach (var piece in WhatIfGrounds.InPieces(outlook, vessel.Id, Math.Min(60, lead + days)))
        {
            found = piece;
            yield return null;
        }

        if (found is not { Succeeded: true, Value: var ground })
        {
            yield return plain with
            {
                Portions = [.. Portions(outlook, advice, null, 1)],
            };
            yield break;
        }

        WhatIfAnswer? left = null;
        foreach (
            var piece in WhatIfRun.InPieces(ground, [new WhatIfChange.Skipped(Math.Min(ground.Days, days))])
        )
        {
            left = piece;
            yield return null;
        }

        var factor = 1.0;
        for (var halved = 0; ; halved++)
        {
            ImmutableArray<AwayPortion> portions = [.. Portions(outlook, advice, ground, factor)];
            WhatIfAnswer? tended = null;
            foreach (var piece in WhatIfRun.InPieces(ground, Changes(outlook, ground, portions)))
            {
                tended = piece;
                yield return null;
            }

            var worst = tended!.Limits.Select(limit => limit.Changed.Value).DefaultIfEmpty(0).Max();
            var unfed = left!.Limits.Select(limit => limit.Changed.Value).DefaultIfEmpty(0).Max();
            // Food is not to blame where the water is as bad without it.
            if (portions.IsEmpty || worst < Bearable || worst <= unfed + 0.05 || halved > MostHalvings)
            {
                yield return plain with
                {
                    Portions = portions,
                    AliveTended = Alive(tended, changed: true),
                    AliveLeft = Alive(left, changed: true),
                    FoulsTended = Chance(tended, WhatIfQuantity.UnionisedAmmonia),
                    ChokesTended = Chance(tended, WhatIfQuantity.Oxygen),
                    Remarks =
                    [
                        .. halved > 0 ? [new Remark("badday-away-doses-halved")] : Array.Empty<Remark>(),
                        .. portions.IsEmpty ? [new Remark("badday-away-no-food")] : Array.Empty<Remark>(),
                    ],
                };
                yield break;
            }

            factor = halved == MostHalvings ? 0 : factor / 2;
        }
    }

    private static Interval? Alive(WhatIfAnswer answer, bool changed) =>
        answer.Figures.FirstOrDefault(figure => figure.Quantity is WhatIfQuantity.Alive) is { } figure
            ? changed
                ? figure.Changed
                : figure.AsItIs
            : null;

    private static Probability? Chance(WhatIfAnswer answer, WhatIfQuantity quantity) =>
        answer.Limits.FirstOrDefault(limit => limit.Quantity == quantity)?.Changed;

    // What the advice lets give today and what the keeper gives: the less of the two.
    private static IEnumerable<AwayPortion> Portions(
        Outlook outlook,
        AdviceOfDay advice,
        WhatIfGround? ground,
        double factor
    )
    {
        foreach (var ration in advice.Lines.OfType<Advice.Ration>())
        {
            var usual = ground is null ? double.PositiveInfinity : UsualMilligrams(ground);
            var milligrams = factor * Math.Min(ration.SafeMilligrams.Low, usual);
            if (milligrams >= LeastMilligrams)
            {
                yield return new(ration.Food, ration.Feed, Math.Round(milligrams, 1), null);
            }
        }

        if (advice.Lines.OfType<Advice.Algae>().FirstOrDefault() is not { } algae)
        {
            yield break;
        }

        var cells = Math.Max(ground is null ? 0 : UsualCells(ground), algae.Cells.Middle);
        var culture = algae.Culture ?? CultureOf(outlook);
        if (
            culture is { } from
            && GreenWater.Of(outlook.House, from, outlook.Now).CellsPerMillilitre is > 0 and var density
            && factor * cells / density is >= LeastMillilitres and var millilitres
        )
        {
            yield return new(
                FoodKind.GreenWater,
                outlook.House.Vessel(from).Name,
                null,
                5 * Math.Round(millilitres / 5)
            );
        }
    }

    private static VesselId? CultureOf(Outlook outlook) =>
        outlook
            .House.Vessels.Where(vessel =>
                vessel.Role is VesselRole.AlgaeCulture && vessel.Standing is not null
            )
            .Select(vessel => (VesselId?)vessel.Id)
            .FirstOrDefault();

    private static double UsualMilligrams(WhatIfGround ground)
    {
        var fed = ground
            .AsItIs.Events.Where(done => done.Hour >= ground.Members.Hour)
            .OfType<VesselEvent.Fed>()
            .Sum(done => done.DryMass.Milligrams);
        return fed > 0 ? fed / ground.Days : double.PositiveInfinity;
    }

    private static double UsualCells(WhatIfGround ground) =>
        ground
            .AsItIs.Events.Where(done => done.Hour >= ground.Members.Hour)
            .OfType<VesselEvent.AlgaeGiven>()
            .Sum(done => done.Cells) / ground.Days;

    private static IReadOnlyList<WhatIfChange> Changes(
        Outlook outlook,
        WhatIfGround ground,
        ImmutableArray<AwayPortion> portions
    )
    {
        // One kind of food each day can be tried: the green water, or the dry food that weighs most.
        if (
            portions.FirstOrDefault(one => one.Millilitres is > 0) is { Millilitres: { } millilitres } green
            && outlook.House.Vessels.FirstOrDefault(vessel => vessel.Name == green.Name) is { } culture
            && portions.Length == 1
        )
        {
            var density = GreenWater.Of(outlook.House, culture.Id, outlook.Now).CellsPerMillilitre;
            return
            [
                new WhatIfChange.AlgaeEachDay(
                    Math.Min(
                        WhatIfRules.MostCellsPerMillilitre,
                        millilitres * density / (1000 * ground.AsItIs.Hours[ground.Members.Hour].Water.Litres)
                    )
                ),
            ];
        }

        var dry = portions.Sum(one => one.DryMilligrams ?? 0);
        return dry > 0
            ?
            [
                new WhatIfChange.FoodEachDay(
                    dry,
                    ground
                        .AsItIs.Events.OfType<VesselEvent.Fed>()
                        .Select(done => done.Composition)
                        .LastOrDefault()
                        ?? FeedComposition.Powder(Probability.FromFraction(UsualProtein))
                ),
            ]
            : [new WhatIfChange.FeedTimes(0)];
    }
}
