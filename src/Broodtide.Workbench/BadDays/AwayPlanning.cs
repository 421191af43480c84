using System.Collections.Immutable;
using Broodtide.Units;
using Broodtide.Workbench.Planning;
using NodaTime;

namespace Broodtide.Workbench.BadDays;

/// <summary>Plans an absence from the plan, the due list, the ledgers, the advice and the twins of the vessels.</summary>
public static class AwayPlanning
{
    /// <summary>The longest absence that is planned, days.</summary>
    public const int MostDays = 45;

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
        foreach (var vessel in LivedVessels.Of(outlook).ToList())
        {
            foreach (var step in outlook.AdviceSteps(vessel.Id))
            {
                step();
                yield return null;
            }

            AwayVessel? one = null;
            foreach (var told in AwayTending.Of(outlook, vessel, lead, days))
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
            First = [.. First(outlook, hatches, vessels, days)],
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
        Outlook outlook,
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

        if (days <= 1)
        {
            yield return new Remark("badday-away-one-day");
        }
        else
        {
            if (vessels.Any(one => one.AliveTended is not null || one.FoodNotKnown))
            {
                yield return new Remark("badday-away-helper");
            }

            if (vessels.Any(one => AwayFasting.HoldsAdults(outlook.House.Vessel(one.Vessel))))
            {
                yield return days <= AwayFasting.MostDays
                    ? new Remark("badday-away-adults-fast")
                    : new Remark("badday-away-adults-long", new Argument("number", (double)days));
            }
        }

        yield return new Remark("badday-away-portions");
        yield return new Remark("badday-away-bottles");
        yield return new Remark("badday-away-show");
        yield return new Remark("badday-away-no-news");
    }
}
