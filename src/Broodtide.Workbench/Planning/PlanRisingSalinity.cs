using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Population;
using NodaTime;

namespace Broodtide.Workbench.Planning;

/// <summary>
/// Larvae that want saltier water from stage to stage, as their profile has it: the next rise, when it is due, and by
/// how many gentle steps.
/// </summary>
internal static class PlanRisingSalinity
{
    public static IEnumerable<PlannedAction> Of(PlanScene scene, Vessel vessel, Instant began)
    {
        var (low, high) = (scene.Profile.LarvalDaysLow, scene.Profile.LarvalDaysHigh);
        var likely = StagesLikely.In(scene.House, vessel, scene.Profile, scene.Now);
        var stages = scene.Profile.SalinityByStage;
        var ppt = scene.SalinityOf(vessel.Id);
        foreach (var stage in stages.Skip(1))
        {
            if (ppt is { } stands && stands >= stage.Band.Low.Practical)
            {
                continue;
            }

            // Between the day on which the quickest come into the stage and the day on which the slowest do; what was
            // seen under the microscope goes before.
            var from =
                began
                + Duration.FromDays(StagesLikely.DayOf(scene.Profile, stage.FromOrder, Middle(low, high)));
            var by = began + Duration.FromDays(StagesLikely.DayOf(scene.Profile, stage.FromOrder, high));
            if (likely is { } seen)
            {
                from =
                    seen.Youngest >= stage.FromOrder ? Instant.Min(from, scene.Now)
                    : seen.Oldest < stage.FromOrder ? Instant.Max(from, scene.Now + Duration.FromDays(1))
                    : from;
            }

            by = Instant.Max(from + Duration.FromDays(1), by);
            yield return PlanLarvalPhase.Make(
                scene,
                vessel,
                ActionCodes.RaiseSalinity,
                $"z{stage.FromOrder}"
            ) with
            {
                From = from,
                By = by,
                SlipsUntil = by + Duration.FromDays(2),
                Reason = new Remark(
                    "plan-salinity-rises-by-stage",
                    new(
                        "stage",
                        scene.Profile.Stages[Math.Min(stage.FromOrder, scene.Profile.Stages.Length) - 1].Code
                    ),
                    new("lowPpt", stage.Band.Low.Practical),
                    new("highPpt", stage.Band.High.Practical),
                    new("daysLow", Math.Round(StagesLikely.DayOf(scene.Profile, stage.FromOrder, low))),
                    new("daysHigh", Math.Round(StagesLikely.DayOf(scene.Profile, stage.FromOrder, high)))
                ),
                IfItSlips = new Remark("slip-older-larvae-wait"),
                Amounts = ppt is { } now
                    ?
                    [
                        new Remark(
                            "amount-salinity-steps",
                            new("fromPpt", now),
                            new("toPpt", stage.Target.Practical),
                            new(
                                "steps",
                                Steps(stage.Target.Practical - now, scene.Profile.VesselStepPractical)
                            ),
                            new("stepPpt", scene.Profile.VesselStepPractical)
                        ),
                    ]
                    : [],
                Cautions = [CautionCode.MainsBesideSaltWater],
                Door = new(DoorCode.CorrectWater, Subject.Of(vessel.Id)),
            };
            yield break;
        }
    }

    private static double Middle(double low, double high) => Math.Sqrt(Math.Max(1, low) * Math.Max(1, high));

    private static int Steps(double rise, double step) =>
        (int)Math.Ceiling(Math.Max(0, rise) / Math.Max(0.1, step));
}
