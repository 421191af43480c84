using Broodtide.Domain.Journal;
using Broodtide.Workbench.Planning;

namespace Broodtide.Phone.Pages.Due;

/// <summary>The pages that do an action or show a thing.</summary>
internal static class Doors
{
    /// <summary>Where an action is done; none where its own key writes all there is to write.</summary>
    public static string? Of(PlannedAction action) =>
        action.Code switch
        {
            ActionCodes.ReadTemperature => $"write?vessel={action.About.Id}&measure=temperature",
            ActionCodes.GatherLarvae => action.About.Kind is SubjectKind.Brood
                ? $"gather?brood={action.About.Id}"
                : "gather",
            ActionCodes.CoolVessel => "bad-day?what=heat",
            ActionCodes.ReadyAbsence => "bad-day?what=away",
            // A film is looked at, not counted.
            ActionCodes.CountCulture when action.Reason.Code is "due-look-at-film" =>
                $"write/looked?vessel={action.About.Id}",
            _ => Of(action.Door),
        };

    /// <summary>The page behind a door; none where there is none.</summary>
    public static string? Of(DueDoor door)
    {
        var vessel = door.About.Kind is SubjectKind.Vessel ? $"?vessel={door.About.Id}" : "";
        return door.Code switch
        {
            DoorCode.MarkDone => null,
            DoorCode.WriteReading => vessel.Length > 0 ? $"write{vessel}&measure=salinity" : "write",
            DoorCode.WriteWaterMove => $"write/topped-up{vessel}",
            DoorCode.WriteEggs => "write/eggs",
            DoorCode.WriteIsolated => "write/isolated",
            DoorCode.WriteLarvae => "write/hatching",
            DoorCode.WriteFed => $"write/fed{vessel}",
            DoorCode.WriteCount => $"write/counted{vessel}",
            DoorCode.WriteSettlement => $"write/settled{vessel}",
            DoorCode.WriteCalibration => "write/calibrated",
            DoorCode.WriteDisinfected => $"write/disinfected{vessel}",
            DoorCode.WriteFilling => $"write/filled{vessel}",
            DoorCode.MakeWater => "water",
            DoorCode.CorrectWater => $"water/correct{vessel}",
            DoorCode.Crossing => door.About.Kind is SubjectKind.Brood
                ? $"crossing?brood={door.About.Id}"
                : "crossing",
            DoorCode.BadDay => "bad-day?what=power",
            DoorCode.Return or DoorCode.Nursery => door.About.Kind is SubjectKind.Vessel
                ? $"return/{door.About.Id}"
                : "crossing",
            DoorCode.WriteCells => $"write/cells-counted{vessel}",
            DoorCode.Culture => door.About.Kind is SubjectKind.Vessel
                ? $"culture/{door.About.Id}"
                : "cultures",
            DoorCode.Adults => "adults",
            DoorCode.WriteBerried => door.About.Kind is SubjectKind.Animal
                ? $"animal/{door.About.Id}"
                : "write/berried",
            DoorCode.WriteReturned => "write/back",
            DoorCode.AfterLoss => $"after-loss/{door.About.Id}",
            DoorCode.Review => $"run/{door.About.Id}/review",
            DoorCode.Sensors => "sensors",
            _ => "write",
        };
    }

    /// <summary>The page of a thing; none for one that has no page.</summary>
    public static string? PageOf(Subject subject) =>
        subject.Kind switch
        {
            SubjectKind.Vessel => $"vessel/{subject.Id}",
            SubjectKind.Brood => $"brood/{subject.Id}",
            SubjectKind.Run => $"run/{subject.Id}",
            SubjectKind.Animal => $"animal/{subject.Id}",
            _ => null,
        };

    /// <summary>An entry in the journal.</summary>
    public static string Entry(Guid entry) => $"journal/{entry}";
}
