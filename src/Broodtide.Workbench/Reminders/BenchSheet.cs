using Broodtide.Domain.Journal;
using Broodtide.Workbench.Planning;
using NodaTime;

namespace Broodtide.Workbench.Reminders;

/// <summary>
/// The steps of one day for the bench, on paper: those with a time first, in its order, then those for any time of the
/// day, then those that have more days than this one.
/// </summary>
public sealed record BenchSheet
{
    /// <summary>The day.</summary>
    public required LocalDate Day { get; init; }

    /// <summary>The steps in their order.</summary>
    public required IReadOnlyList<SheetLine> Lines { get; init; }

    /// <summary>What to mind, each once, in the order of the steps.</summary>
    public required IReadOnlyList<CautionCode> Cautions { get; init; }

    /// <summary>What is expected of the readings and looks, for the back page.</summary>
    public required IReadOnlyList<SheetExpected> Expected { get; init; }

    /// <summary>The sheet of a day.</summary>
    /// <param name="outlook">What is known.</param>
    /// <param name="day">The day, in the outlook's zone.</param>
    public static BenchSheet Of(Outlook outlook, LocalDate day)
    {
        ArgumentNullException.ThrowIfNull(outlook);
        var zone = outlook.Zone;
        var (dawn, end) = (
            zone.AtStartOfDay(day).ToInstant(),
            zone.AtStartOfDay(day.PlusDays(1)).ToInstant()
        );
        var isToday = day == outlook.Now.InZone(zone).Date;
        var due = outlook.Due.Items.Select(item => item.Action).ToList();
        var lines = due.Where(action => action.From < end && (action.By > dawn || (isToday && action.IsOpen)))
            .Concat(
                due.Where(action => action.By <= dawn && !isToday)
                    .SelectMany(action => OnThatDay(action, day, zone))
            )
            .DistinctBy(action => action.Key)
            .Select(action => LineOf(action, dawn, end, outlook.Now))
            .OrderBy(line => line.IsForSpareTime)
            .ThenBy(line => line.At ?? end)
            .ThenBy(line => line.Action.MaySlip)
            .ThenBy(line => line.Action.By)
            .ThenBy(line => line.Action.Key, StringComparer.Ordinal)
            .ToList();
        return new()
        {
            Day = day,
            Lines = lines,
            Cautions = [.. Always.Concat(lines.SelectMany(line => line.Action.Cautions)).Distinct()],
            Expected =
            [
                .. lines
                    .Select(line =>
                        SheetExpecting.Of(outlook, line, line.At ?? Instant.Max(outlook.Now, dawn), day)
                    )
                    .OfType<SheetExpected>()
                    .DistinctBy(expected => (expected.What, expected.About)),
            ],
        };
    }

    // Hands go into salt water beside mains on every day at the bench.
    private static readonly CautionCode[] Always =
    [
        CautionCode.MainsBesideSaltWater,
        CautionCode.WetHandsChargingPhone,
    ];

    // What is done every day is planned for its next day alone: on a later sheet it stands with that day's own key.
    private static IEnumerable<PlannedAction> OnThatDay(
        PlannedAction action,
        LocalDate day,
        DateTimeZone zone
    )
    {
        if (
            action.Code
            is not (ActionCodes.ReadSalinity or ActionCodes.ReadTemperature or ActionCodes.FeedLarvae)
        )
        {
            yield break;
        }

        yield return action with
        {
            Key = ActionKey.Of(action.Code, action.About, Occasion.Of(day)),
            From = zone.AtLeniently(day + action.From.InZone(zone).TimeOfDay).ToInstant(),
            By = zone.AtLeniently(day + action.By.InZone(zone).TimeOfDay).ToInstant(),
            SlipsUntil = null,
            IfItSlips = null,
        };
    }

    // From a morning to the evening of the next day; what has longer is for spare time.
    private static readonly Duration OneDay = Duration.FromHours(30);

    private static SheetLine LineOf(PlannedAction action, Instant dawn, Instant end, Instant now)
    {
        var isOneDay = action.By - action.From <= OneDay || (action.By <= now && !action.MaySlip);
        var hasTime = isOneDay && action.From >= dawn && action.From < end && action.From > now;
        return new(action, hasTime ? action.From : null, !isOneDay, BlankOf(action));
    }

    private static SheetBlank BlankOf(PlannedAction action) =>
        action.Code switch
        {
            ActionCodes.ReadSalinity
            or ActionCodes.ReadAgain
            or ActionCodes.CheckJar when action.About.Kind is SubjectKind.Vessel => SheetBlank.Salinity,
            ActionCodes.ReadTemperature => SheetBlank.Temperature,
            ActionCodes.TopUp => SheetBlank.Poured,
            ActionCodes.FeedLarvae or ActionCodes.FirstFood => SheetBlank.Fed,
            ActionCodes.CountLarvae => SheetBlank.Counted,
            ActionCodes.LookAtEggs => SheetBlank.Eggs,
            ActionCodes.LookForLarvae => SheetBlank.Hatching,
            ActionCodes.GatherLarvae => SheetBlank.Gathered,
            ActionCodes.WatchSettlement => SheetBlank.Settled,
            _ => SheetBlank.Done,
        };
}
