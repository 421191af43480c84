using Broodtide.Units;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Planning;

/// <summary>
/// Larvae are there. What is ready is used; what is not is made within the hour: a start in the middle.
/// </summary>
internal static class PlanLarvae
{
    // A first jar: enough for a night's larvae, small enough to mix at once. Practice, no source.
    private static readonly Volume FirstJar = Volume.FromLitres(2);

    // Whoever saw larvae longer ago than this and wrote nothing since is past the first hour.
    private static readonly Duration StillNew = Duration.FromDays(7);

    // Keepers tell of second pulses days after the first night. Practice, no source.
    private static readonly Duration MorePulses = Duration.FromDays(4);

    public static IEnumerable<PlannedAction> Of(PlanScene scene)
    {
        if (scene.Brood.FirstLarvae is not { } larvae)
        {
            yield break;
        }

        var waiting = FreshHours.Waiting(scene.Brood, scene.Zone);
        var seen = scene.Brood.Hatching.Select(when => when.Latest).DefaultIfEmpty(larvae.Latest).Max();
        var gathered = scene
            .Brood.Gatherings.Select(gathering => gathering.When.Latest)
            .Concat(scene.Brood.Crossings.Select(crossing => crossing.When.Latest))
            .DefaultIfEmpty(Instant.MinValue)
            .Max();
        // Whoever says that hatching is over has gathered what there was.
        var over =
            scene.Brood.HatchingOver is { } ended && ended.Latest >= seen && gathered > Instant.MinValue;
        var loose = seen > gathered && scene.Now - seen < StillNew && !over;
        if (scene.Brood.HatchingOver is null && !loose && scene.Now - larvae.Latest < MorePulses)
        {
            yield return LookAgain(scene, larvae.Latest);
        }

        if (!loose && waiting.Count == 0)
        {
            yield break;
        }

        if (loose)
        {
            foreach (var action in Gather(scene, seen))
            {
                yield return action;
            }
        }

        if (scene.SeaWaterReady() is null)
        {
            foreach (var action in SeaWaterNow(scene))
            {
                yield return action;
            }
        }

        foreach (var larvaeInCup in waiting)
        {
            yield return Cross(scene, larvaeInCup);
        }

        if (loose && waiting.Count == 0)
        {
            var night = DayAxis.Noon(DayAxis.EveningOf(seen, scene.Zone), scene.Zone);
            yield return Cross(scene, new(default, default, night, seen, null)) with
            {
                Key = ActionKey.Of(
                    ActionCodes.CrossLarvae,
                    scene.About,
                    Occasion.Of(DayAxis.EveningOf(seen, scene.Zone))
                ),
                After =
                [
                    GatherKey(scene, seen),
                    PlanBeforeHatch.Key(scene, ActionCodes.CheckJar),
                    PlanBeforeHatch.Key(scene, ActionCodes.TestZeroChlorine),
                ],
            };
        }

        if (scene.Brood.Crossings.Count == 0)
        {
            var onYolk = scene.Profile.FirstFood is FirstFoodNeed.YolkFirst;
            var free = Duration.FromHours(FreshHours.Free(scene.Profile));
            yield return PlanBeforeHatch.Make(scene, ActionCodes.GetFood, 0, 0) with
            {
                From = scene.Now,
                By = onYolk
                    ? scene.Now + Duration.FromHours(12)
                    : Instant.Min(
                        scene.Now + Duration.FromHours(12),
                        Instant.Max(scene.Now, larvae.Latest + free)
                    ),
                SlipsUntil = onYolk ? larvae.Latest + free + Duration.FromHours(24) : null,
                Reason = new Remark(
                    onYolk ? "plan-food-about-a-day-after-salt" : PlanLarvalPhase.AtOnceCode(scene.Profile)
                ),
                IfItSlips = onYolk ? new Remark("slip-yolk-lasts-a-while") : null,
                Amounts = [.. PlanAmounts.Culture(scene, scene.LarvalWater().Water)],
            };
        }
    }

    private static PlannedAction LookAgain(PlanScene scene, Instant first)
    {
        var tonight = DayAxis.EveningOf(scene.Now, scene.Zone);
        return PlanBeforeHatch.Make(scene, ActionCodes.LookForLarvae, 0, 0) with
        {
            Key = ActionKey.Of(ActionCodes.LookForLarvae, scene.About, Occasion.Of(tonight)),
            From = scene.At(tonight, 22),
            By = scene.At(tonight.PlusDays(1), 8),
            SlipsUntil = scene.At(tonight.PlusDays(1), 20),
            Reason = new Remark("plan-more-larvae-may-follow", new Argument("firstSeen", first)),
            IfItSlips = new Remark("slip-larvae-wait-a-day"),
            Cautions = [CautionCode.WetHandsChargingPhone],
            Door = new(DoorCode.WriteLarvae, scene.About),
        };
    }

    private static string GatherKey(PlanScene scene, Instant seen) =>
        ActionKey.Of(ActionCodes.GatherLarvae, scene.About, Occasion.Of(DayAxis.EveningOf(seen, scene.Zone)));

    private static IEnumerable<PlannedAction> Gather(PlanScene scene, Instant seen)
    {
        yield return PlanBeforeHatch.Make(scene, ActionCodes.StopFilter, 0, 0) with
        {
            From = scene.Now,
            By = scene.Now + Duration.FromMinutes(5),
            Reason = new Remark("plan-filters-draw-larvae-in"),
            Cautions = [CautionCode.MainsBesideSaltWater],
        };
        yield return PlanBeforeHatch.Make(scene, ActionCodes.GatherLarvae, 0, 0) with
        {
            Key = GatherKey(scene, seen),
            From = scene.Now,
            By = scene.Now + Duration.FromMinutes(30),
            Reason = new Remark("plan-gather-at-a-light", new Argument("seenAt", seen)),
            After = [PlanBeforeHatch.Key(scene, ActionCodes.StopFilter)],
            Cautions = [CautionCode.WetHandsChargingPhone],
            Door = new(DoorCode.WriteLarvae, scene.About),
        };
    }

    private static IEnumerable<PlannedAction> SeaWaterNow(PlanScene scene)
    {
        yield return PlanBeforeHatch.Make(scene, ActionCodes.MixJarNow, 0, 0) with
        {
            From = scene.Now,
            By = scene.Now + Duration.FromMinutes(45),
            Reason = new Remark(
                "plan-fresh-mix-is-better-than-fresh-water",
                new Argument("salinityPpt", scene.Profile.LarvalSalinityTarget.Practical)
            ),
            Amounts = [.. PlanAmounts.SeaWater(scene, FirstJar)],
            Cautions = [CautionCode.MainsBesideSaltWater, CautionCode.Glass],
            Door = new(DoorCode.MakeWater, scene.About),
        };
        yield return PlanBeforeHatch.Make(scene, ActionCodes.CheckJar, 0, 0) with
        {
            From = scene.Now + Duration.FromMinutes(45),
            By = scene.Now + Duration.FromMinutes(60),
            Reason = new Remark("plan-clear-and-read-before-larvae"),
            After = [PlanBeforeHatch.Key(scene, ActionCodes.MixJarNow)],
            Door = new(DoorCode.MarkDone, scene.About),
        };
    }

    private static PlannedAction Cross(PlanScene scene, WaitingLarvae larvae)
    {
        var free = larvae.HatchedFrom + Duration.FromHours(FreshHours.Free(scene.Profile));
        var lethal = larvae.HatchedFrom + Duration.FromHours(FreshHours.Lethal(scene.Profile));
        return PlanBeforeHatch.Make(scene, ActionCodes.CrossLarvae, 0, 0) with
        {
            Key = ActionKey.Of(ActionCodes.CrossLarvae, scene.About, larvae.Collection.Value.ToString("N")),
            From = larvae.Gathered,
            By = free,
            Reason = new Remark(
                "plan-larvae-stand-in-fresh-water",
                new("hoursFresh", Math.Max(0, (scene.Now - larvae.HatchedFrom).TotalHours)),
                new("hoursLeftFree", (free - scene.Now).TotalHours),
                new("hoursLeftToLethal", (lethal - scene.Now).TotalHours),
                new("lethalAt", lethal)
            ),
            After =
            [
                PlanBeforeHatch.Key(scene, ActionCodes.CheckJar),
                PlanBeforeHatch.Key(scene, ActionCodes.TestZeroChlorine),
            ],
            Cautions =
            [
                CautionCode.MainsBesideSaltWater,
                CautionCode.WetHandsChargingPhone,
                CautionCode.NoRelease,
            ],
            Door = new(DoorCode.Crossing, scene.About),
        };
    }
}
