using Broodtide.Domain;
using Broodtide.Workbench.Feeding;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Sensors;
using Broodtide.Workbench.Species;
using Broodtide.Workbench.WaterLedger;
using NodaTime;

namespace Broodtide.Workbench.Due;

/// <summary>Where an item stands in the list.</summary>
public enum DuePart
{
    /// <summary>Its time has come.</summary>
    Now,

    /// <summary>Its time comes.</summary>
    Coming,

    /// <summary>It may slip.</summary>
    MaySlip,
}

/// <summary>One item of the list.</summary>
/// <param name="Action">What, when, why, where it is done.</param>
/// <param name="Part">Where it stands in the list.</param>
/// <param name="IsNext">Whether it is the one to do next.</param>
public sealed record DueItem(PlannedAction Action, DuePart Part, bool IsNext);

/// <summary>
/// What is due: one list from plans, ledgers, crossings and instruments. The next one stands first, then the rest by
/// their time, and what may slip at the end. Exactly one is marked as next, unless there is none at all.
/// </summary>
public sealed class DueList
{
    private static readonly Duration Ahead = Duration.FromDays(14);

    private DueList(IReadOnlyList<DueItem> items, Instant now)
    {
        Items = items;
        Now = now;
    }

    /// <summary>The instant it was made for.</summary>
    public Instant Now { get; }

    /// <summary>The items in their order.</summary>
    public IReadOnlyList<DueItem> Items { get; }

    /// <summary>The one to do next; none if nothing is due.</summary>
    public DueItem? Next => Items.FirstOrDefault(item => item.IsNext);

    /// <summary>The list.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="profileOf">The species profile of a brood, the keeper's choices included.</param>
    /// <param name="ledgers">The ledgers of the vessels.</param>
    /// <param name="forecasts">The forecasts of the broods under way.</param>
    /// <param name="now">The present.</param>
    /// <param name="zone">The keeper's zone.</param>
    /// <param name="plans">The plans of the broods under way; made here if left out.</param>
    /// <param name="cultures">The cultures of the house; none if left out.</param>
    /// <param name="ahead">How far ahead is listed; two weeks if left out.</param>
    /// <param name="more">What is due besides: of adults, after losses; nothing if left out.</param>
    /// <param name="means">What sensors showed of the waters; nothing if left out.</param>
    public static DueList Of(
        House house,
        Func<BroodId, SpeciesProfile> profileOf,
        IReadOnlyList<VesselLedger> ledgers,
        IReadOnlyList<BroodForecast> forecasts,
        Instant now,
        DateTimeZone zone,
        IReadOnlyList<BackwardPlan>? plans = null,
        IReadOnlyList<CultureState>? cultures = null,
        Duration? ahead = null,
        IReadOnlyList<PlannedAction>? more = null,
        IReadOnlyList<WaterMean>? means = null
    )
    {
        plans ??=
        [
            .. UnderWay
                .Of(house, now, zone)
                .Select(brood =>
                    BackwardPlan.Of(
                        house,
                        brood,
                        profileOf(brood.Id),
                        forecasts.FirstOrDefault(forecast => forecast.Brood == brood.Id),
                        now,
                        zone
                    )
                ),
        ];
        var planned = plans.SelectMany(plan => plan.Actions).ToList();
        IReadOnlyList<PlannedAction> others =
        [
            .. ledgers.SelectMany(ledger => DueFromLedger.Of(ledger, house.Vessel(ledger.Vessel), now)),
            .. (cultures ?? []).SelectMany(culture => DueFromCultures.Of(culture, now, zone)),
            .. DueFromNurseries.Of(house, now, zone),
            .. planned.Any(action => action is { Code: ActionCodes.CalibrateInstrument, IsOpen: true })
                ? []
                : DueFromInstruments.Of(house, now),
            .. more ?? [],
        ];
        var settled = ActionsTold.Of(house, now).Settle(others);
        return Sorted(
            planned
                .Where(action => !StandsForIt(action, settled) && !ReadBySensor.Is(action, means ?? [], now))
                .Concat(settled)
                .Where(action => action.IsOpen && action.From <= now + (ahead ?? Ahead))
                .DistinctBy(action => action.Key),
            now
        );
    }

    // A reading that is asked for again stands for the daily one.
    private static bool StandsForIt(PlannedAction action, IReadOnlyList<PlannedAction> settled) =>
        string.Equals(action.Code, ActionCodes.ReadSalinity, StringComparison.Ordinal)
        && settled.Any(other =>
            other is { Code: ActionCodes.ReadAgain, IsOpen: true } && other.About == action.About
        );

    private static DueList Sorted(IEnumerable<PlannedAction> actions, Instant now)
    {
        var items = actions.Select(action => new DueItem(action, PartOf(action, now), false)).ToList();
        items.Sort((left, right) => Compare(left, right, now));
        if (items.Count > 0)
        {
            // What is due now comes before what may slip, and both before what is still to come.
            var next = items.FindIndex(item => IsOpen(item) && item.Part is DuePart.Now);
            next = next >= 0 ? next : items.FindIndex(item => IsOpen(item) && item.Action.From <= now);
            next = next >= 0 ? next : Math.Max(0, items.FindIndex(IsOpen));
            var chosen = items[next];
            items.RemoveAt(next);
            items.Insert(0, chosen with { IsNext = true });
        }

        return new(items, now);
    }

    private static bool IsOpen(DueItem item) => item.Action.State is ActionState.Open;

    private static int Compare(DueItem left, DueItem right, Instant now)
    {
        var order = (left.Part is DuePart.MaySlip).CompareTo(right.Part is DuePart.MaySlip);
        order = order != 0 ? order : Start(left, now).CompareTo(Start(right, now));
        // What could have slipped and is overdue still comes after what never could.
        order = order != 0 ? order : left.Action.MaySlip.CompareTo(right.Action.MaySlip);
        order = order != 0 ? order : left.Action.By.CompareTo(right.Action.By);
        return order != 0 ? order : string.CompareOrdinal(left.Action.Key, right.Action.Key);
    }

    private static Instant Start(DueItem item, Instant now) => Instant.Max(item.Action.From, now);

    private static DuePart PartOf(PlannedAction action, Instant now) =>
        action.SlipsUntil > now ? DuePart.MaySlip
        : action.From <= now ? DuePart.Now
        : DuePart.Coming;
}
