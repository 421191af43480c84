using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Planning;

/// <summary>
/// What must be ready before the larvae come, dated backward from the night before which they come with one chance
/// in twenty. The leads are common practice without a source; the reasons say why each.
/// </summary>
internal static class PlanBeforeHatch
{
    // A check of an instrument is trusted so long; practice, no source.
    internal const int CheckHoldsDays = 30;

    // Water made a week before she was seen berried was made for this brood.
    private static readonly Duration MadeBefore = Duration.FromDays(7);

    public static IEnumerable<PlannedAction> Of(PlanScene scene) =>
        [.. Food(scene), .. Things(scene), .. Water(scene)];

    private static IEnumerable<PlannedAction> Food(PlanScene scene)
    {
        var first = scene.FirstEvening;
        var salinity = scene.Profile.LarvalSalinityTarget.Practical;
        var water = scene.LarvalWater().Water;
        var cultures = scene
            .House.Vessels.Where(vessel =>
                vessel.Role is VesselRole.AlgaeCulture && !FoodReadiness.IsNoGreenWater(scene, vessel.Id)
            )
            .Select(vessel => vessel.Standing)
            .OfType<Fill>()
            .Select(fill => fill.Began?.Latest ?? scene.Now)
            .Order()
            .ToList();
        var weeksLeft = Math.Max(0, Period.DaysBetween(scene.DateOf(scene.Now), first)) / 7.0;
        var lead = FoodLeads.Of(scene);
        var onYolk = scene.Profile.FirstFood is FirstFoodNeed.YolkFirst;
        Remark Reason(string code, FoodLead takes) =>
            new(
                code,
                new("weeksLeast", Math.Round(takes.Days.Low / 7, 1)),
                new("weeksMost", Math.Round(takes.Days.High / 7, 1)),
                new("weeksLeft", weeksLeft),
                new("salinityPpt", salinity)
            );

        bool IsLate(FoodLead takes) => scene.Now > scene.Night(first, takes.ByDays);
        var film = Make(scene, ActionCodes.StartFilm, lead.Film.FromDays, lead.Film.ByDays) with
        {
            SlipsUntil = scene.Night(first, 7),
            Reason = Reason(IsLate(lead.Film) ? "plan-film-is-late" : "plan-film-takes-weeks", lead.Film),
            IfItSlips = new Remark("slip-thin-film"),
            Amounts = [.. FoodReadiness.OfFilms(scene)],
            Cautions = [CautionCode.CollectingRules, CautionCode.MainsBesideSaltWater],
        };
        yield return Done(film, FoodReadiness.FilmBegan(scene));
        var green = Make(scene, ActionCodes.StartGreenWater, lead.Green.FromDays, lead.Green.ByDays) with
        {
            SlipsUntil = scene.Night(first, 7),
            Reason = Reason(
                IsLate(lead.Green) ? "plan-green-water-is-late" : "plan-green-water-takes-weeks",
                lead.Green
            ),
            IfItSlips = new Remark("slip-buy-green-water"),
            Amounts =
            [
                .. PlanAmounts.Culture(scene, water),
                .. FoodReadiness.OfGreenWater(scene),
                .. onYolk ? [] : new[] { new Remark(PlanLarvalPhase.AtOnceCode(scene.Profile)) },
            ],
            Cautions = [CautionCode.MainsBesideSaltWater, CautionCode.NoRelease],
            Door = new(DoorCode.WriteFilling, scene.About),
        };
        yield return Done(green, cultures.Count > 0 ? cultures[0] : null);
        var backup = Make(scene, ActionCodes.StartBackupCulture, 28, 10) with
        {
            SlipsUntil = scene.Night(first, 3),
            Reason = new Remark("plan-backup-culture"),
            IfItSlips = new Remark("slip-one-culture-may-crash"),
            After = [Key(scene, ActionCodes.StartGreenWater)],
            Door = new(DoorCode.WriteFilling, scene.About),
        };
        yield return Done(backup, cultures.Count > 1 ? cultures[1] : null);
    }

    private static IEnumerable<PlannedAction> Things(PlanScene scene)
    {
        var first = scene.FirstEvening;
        var vessel = scene.FreeLarvalVessels.FirstOrDefault();
        var containers = Make(scene, ActionCodes.ReadyContainers, 14, 3) with
        {
            SlipsUntil = scene.Night(first, 2),
            Reason = new Remark(
                "plan-containers",
                new Argument("volumeLitres", scene.LarvalWater().Water.Litres)
            ),
            IfItSlips = new Remark("slip-kitchen-jar"),
            Cautions = [CautionCode.Glass],
        };
        yield return Done(containers, vessel is null ? null : SetUp(scene, vessel));
        yield return Make(scene, ActionCodes.ReadyAir, 10, 2) with
        {
            SlipsUntil = scene.Night(first, 1),
            Reason = new Remark("plan-air-open-line"),
            IfItSlips = new Remark("slip-still-water-some-hours"),
            Cautions = [CautionCode.MainsBesideSaltWater],
        };
        yield return Make(scene, ActionCodes.ReadyPipettes, 14, 3) with
        {
            SlipsUntil = scene.Night(first, 0),
            Reason = new Remark("plan-pipettes-apart"),
            IfItSlips = new Remark("slip-spoon"),
        };
        yield return Make(scene, ActionCodes.ReadyLight, 10, 2) with
        {
            SlipsUntil = scene.Night(first, 0),
            Reason = new Remark("plan-light"),
            IfItSlips = new Remark("slip-torch"),
            Cautions = [CautionCode.MainsBesideSaltWater],
        };
    }

    private static IEnumerable<PlannedAction> Water(PlanScene scene)
    {
        var first = scene.FirstEvening;
        var water = scene.WaterToMake();
        IReadOnlyList<Remark> amounts = [.. PlanAmounts.SeaWater(scene, water)];
        var ready = scene.SeaWaterReady(scene.Brood.FirstSeenBerried?.Earliest - MadeBefore);
        yield return Done(
            Make(scene, ActionCodes.HaveSaltMix, 21, 7) with
            {
                SlipsUntil = scene.Night(first, 3),
                Reason = new Remark("plan-salt-mix-in-the-house", new Argument("volumeLitres", water.Litres)),
                IfItSlips = new Remark("slip-shop-may-be-closed"),
                Amounts = amounts,
            },
            ready
        );
        var checkedAt = scene.SalinityInstruments().Select(pair => pair.Checked).Max();
        var device = scene
            .SalinityInstruments()
            .Select(pair => (Subject?)Subject.Of(pair.Instrument.Id))
            .FirstOrDefault();
        yield return Done(
            Make(scene, ActionCodes.CalibrateInstrument, 10, 3) with
            {
                SlipsUntil = scene.Night(first, 2),
                Reason = new Remark(
                    "plan-calibrate-before-mixing",
                    new Argument("holdsDays", CheckHoldsDays)
                ),
                IfItSlips = new Remark("slip-wider-salinity"),
                Amounts = [.. PlanAmounts.Standard()],
                Door = new(DoorCode.WriteCalibration, device ?? scene.About),
            },
            checkedAt is { } at && at + Duration.FromDays(CheckHoldsDays) >= scene.Night(first, 0) ? at : null
        );
        foreach (var action in PlanSterilising.Of(scene, water))
        {
            yield return action;
        }

        yield return Done(
            Make(scene, ActionCodes.MixSeaWater, 4, 2) with
            {
                Reason = new Remark(
                    "plan-sea-water-stands-a-day",
                    new("salinityPpt", scene.Profile.LarvalSalinityTarget.Practical),
                    new("hatchFrom", scene.Night(first, 0))
                ),
                Amounts = amounts,
                After =
                [
                    Key(scene, ActionCodes.HaveSaltMix),
                    Key(scene, ActionCodes.CalibrateInstrument),
                    Key(scene, ActionCodes.ReadyContainers),
                    Key(scene, ActionCodes.TestZeroChlorine),
                ],
                Cautions = [CautionCode.MainsBesideSaltWater, CautionCode.Glass],
                Door = new(DoorCode.MakeWater, scene.About),
            },
            ready
        );
    }

    internal static PlannedAction Make(PlanScene scene, string code, int fromDays, int byDays)
    {
        var first = scene.FirstEvening;
        return new PlannedAction
        {
            Key = Key(scene, code),
            Code = code,
            About = scene.About,
            From = scene.Morning(first, fromDays),
            By = scene.Night(first, byDays),
            Reason = new Remark(code),
            Door = new(DoorCode.MarkDone, scene.About),
        };
    }

    internal static string Key(PlanScene scene, string code) => ActionKey.Of(code, scene.About);

    internal static PlannedAction Done(PlannedAction action, Instant? when) =>
        when is null ? action : action with { State = ActionState.Done, StateSince = when };

    private static Instant SetUp(PlanScene scene, Vessel vessel) =>
        scene
            .House.Account.About(Subject.Of(vessel.Id))
            .Select(occurrence => occurrence.Happened.Latest)
            .FirstOrDefault(scene.Now);
}
