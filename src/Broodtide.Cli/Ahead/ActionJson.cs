using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Cli.Writing;
using Broodtide.Domain;
using Broodtide.Workbench.Planning;

namespace Broodtide.Cli.Ahead;

/// <summary>One dated action for machines.</summary>
internal sealed record ActionJson(
    string Key,
    string ShortKey,
    string Code,
    string Words,
    string About,
    string From,
    string By,
    string? SlipsUntil,
    bool MaySlip,
    string State,
    string Reason,
    string? IfItSlips,
    IReadOnlyList<RemarkJson> Amounts,
    IReadOnlyList<string> After,
    IReadOnlyList<string> Cautions,
    string Command
);

/// <summary>Puts actions into words.</summary>
internal sealed class ActionWords(Saying saying, House house)
{
    private readonly Naming _naming = new(house);

    public ActionJson Json(PlannedAction action) =>
        new(
            action.Key,
            DueKeys.Short(action.Key),
            action.Code,
            Words(action),
            _naming.NameOf(action.About),
            Saying.Iso(action.From),
            Saying.Iso(action.By),
            action.SlipsUntil is { } until ? Saying.Iso(until) : null,
            action.MaySlip,
            EnumWords.Of(action.State),
            saying.Of(action.Reason),
            action.IfItSlips is { } slips ? saying.Of(slips) : null,
            [.. action.Amounts.Select(saying.Json)],
            [.. action.After.Select(DueKeys.Short)],
            [.. action.Cautions.Select(caution => Saying.Of(caution))],
            Command(action)
        );

    public string Words(PlannedAction action) =>
        saying.Of($"action.{action.Code}", [new Argument("about", action.About)]);

    /// <summary>Everything to know about one action, as lines.</summary>
    public void Print(Page page, PlannedAction action, bool next)
    {
        var told = Json(action);
        page.Line($"{(next ? "NEXT  " : "")}{told.Words}");
        page.Line($"    {When(action)}   [{told.ShortKey}]");
        page.Line($"    Why: {told.Reason}");
        if (told.IfItSlips is { } slips)
        {
            page.Line($"    If it slips: {slips}");
        }

        foreach (var amount in told.Amounts)
        {
            page.Line($"    {amount.Words}");
        }

        foreach (var caution in told.Cautions)
        {
            page.Line($"    Mind: {caution}");
        }

        page.Line($"    With: {told.Command}");
    }

    public string When(PlannedAction action)
    {
        var by =
            action.From < action.By
                ? $"from {saying.Time(action.From)}, best by {saying.Time(action.By)}"
                : $"by {saying.Time(action.By)}";
        var slips = action.SlipsUntil is { } until
            ? $", may slip until {saying.Time(until)}"
            : ", may not slip";
        var state = action.State switch
        {
            ActionState.Done => action.StateSince is { } since ? $"; done {saying.Time(since)}" : "; done",
            ActionState.Skipped => action.StateSince is { } left
                ? $"; left out until {saying.Time(left)}"
                : "; left out",
            ActionState.Waits => "; waits for others",
            _ => "",
        };
        return by + slips + state;
    }

    // The command that does it, with the name of what it is for.
    private string Command(PlannedAction action)
    {
        var name = $"\"{_naming.NameOf(action.Door.About)}\"";
        var key = DueKeys.Short(action.Key);
        return action.Door.Code switch
        {
            DoorCode.WriteReading when action.Code == ActionCodes.ReadTemperature =>
                $"broodtide write temperature {name} VALUE",
            DoorCode.WriteReading
                when action.Code is ActionCodes.MeasureChlorine or ActionCodes.TestZeroChlorine =>
                $"broodtide write chlorine {name} VALUE",
            DoorCode.WriteReading => $"broodtide write salinity {name} VALUE",
            DoorCode.WriteWaterMove => $"broodtide write topped-up {name} VOLUME",
            DoorCode.WriteEggs => $"broodtide write eggs {name} --eyed yes|no",
            DoorCode.WriteIsolated => $"broodtide write isolated ANIMAL VESSEL --brood {name}",
            DoorCode.WriteLarvae => $"broodtide write hatching {name}",
            DoorCode.WriteFed => $"broodtide write fed {name} FOOD",
            DoorCode.WriteCount => $"broodtide write count {name} SEEN",
            DoorCode.WriteSettlement => $"broodtide write settled {name}",
            DoorCode.WriteCalibration => $"broodtide write checked {name} SHOWN STANDARD",
            DoorCode.WriteDisinfected => $"broodtide write disinfected {name} AGENT",
            DoorCode.WriteFilling => $"broodtide write filled {name} VOLUME",
            DoorCode.MakeWater => "broodtide water make VOLUME SALINITY",
            DoorCode.CorrectWater => $"broodtide water correct {name} SALINITY",
            DoorCode.Crossing => "broodtide crossing plan",
            DoorCode.Return => "broodtide return plan",
            DoorCode.Nursery => "broodtide return nursery",
            DoorCode.WriteCells when action.Reason.Code is "due-look-at-film" =>
                $"broodtide write looked {name} --film COVER",
            DoorCode.WriteCells => $"broodtide write cells-counted {name} CHAMBER CELLS",
            DoorCode.BadDay => action.Code switch
            {
                ActionCodes.CoolVessel => "broodtide badday heat",
                ActionCodes.ReadyAbsence => "broodtide badday away DAYS",
                _ => "broodtide badday power",
            },
            DoorCode.Culture when action.Code == ActionCodes.HarvestCulture =>
                $"broodtide write harvested {name} VOLUME",
            DoorCode.Culture => $"broodtide cultures {name}",
            DoorCode.Adults => "broodtide adults",
            DoorCode.WriteBerried => $"broodtide write berried {name} or broodtide write seen-empty {name}",
            DoorCode.WriteReturned => $"broodtide write returned {name} VESSEL",
            DoorCode.AfterLoss when action.Code is ActionCodes.ChangeOneThing =>
                $"broodtide after-loss {name}, then broodtide write done {key}",
            DoorCode.Sensors => action.Code switch
            {
                ActionCodes.SeeAlarm => $"broodtide sensors see {action.Key[^6..]}",
                ActionCodes.PlaceSensor => "broodtide sensors place SENSOR VESSEL",
                _ => $"broodtide sensors list, then broodtide write done {key}",
            },
            DoorCode.Review => $"broodtide review {name}",
            _ => $"broodtide write done {key}",
        };
    }
}
