using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Development;
using Broodtide.Units;
using Broodtide.Workbench.Hatching;
using NodaTime;

namespace Broodtide.Workbench.Planning;

/// <summary>The female, the looks at her eggs, and the nights on which someone must be there.</summary>
internal static class PlanHatchNights
{
    // Between two looks that nothing calls for; practice, no source.
    private static readonly Duration LookEvery = Duration.FromDays(3);

    public static IEnumerable<PlannedAction> Of(PlanScene scene)
    {
        if (scene.Forecast is not { } forecast)
        {
            yield break;
        }

        foreach (var action in Female(scene, forecast).Concat(Nights(scene, forecast)))
        {
            yield return action;
        }
    }

    private static IEnumerable<PlannedAction> Female(PlanScene scene, BroodForecast forecast)
    {
        var plan = forecast.Isolation;
        if (plan.Code is IsolationCode.EggsAreOff)
        {
            foreach (var action in PlanDroppedEggs.Of(scene, plan.At))
            {
                yield return action;
            }

            yield break;
        }

        var box = scene.House.Vessels.Any(vessel =>
            vessel.Role is VesselRole.HatchingBox && vessel.Standing is not null
        );
        var evening = IsolationBy(scene, plan);
        yield return PlanBeforeHatch.Done(
            PlanBeforeHatch.Make(scene, ActionCodes.ReadyHatchingBox, 7, 2) with
            {
                From = scene.Morning(evening, 5),
                By = scene.Night(evening, 1),
                SlipsUntil = scene.At(evening, 18),
                Reason = new Remark("plan-hatching-box-of-tank-water"),
                IfItSlips = new Remark("slip-gather-by-torch"),
                Cautions = [CautionCode.MainsBesideSaltWater],
            },
            box || scene.Brood.Isolated is not null ? scene.Now : null
        );
        if (plan.Code is IsolationCode.IsolateOn or IsolationCode.IsolateNow)
        {
            yield return PlanBeforeHatch.Done(Isolate(scene, plan), scene.Brood.Isolated?.Latest);
        }

        if (plan.Code is not IsolationCode.LookForLarvae)
        {
            yield return Look(scene, forecast);
        }
    }

    private static PlannedAction Isolate(PlanScene scene, IsolationPlan plan)
    {
        var now = plan.Code is IsolationCode.IsolateNow;
        var chosen = plan.Evenings.First(evening => evening.Evening == plan.Evening);
        var later = plan.Evenings.FirstOrDefault(
            evening => evening.Evening == plan.Evening.PlusDays(1),
            chosen
        );
        var from = now ? scene.Now : scene.Morning(plan.Evening, 0);
        // A soft animal is not caught: not within a day of a moult.
        var hard = HardFrom(scene);
        return PlanBeforeHatch.Make(scene, ActionCodes.Isolate, 1, 0) with
        {
            From = Instant.Max(from, hard ?? from),
            By = Instant.Max(scene.Night(plan.Evening, 0), hard ?? from),
            Reason = new Remark(
                "plan-isolate-where-both-risks-are-least",
                new("larvaeFirst", chosen.LarvaeFirst.Value),
                new("larvaeFirstADayLater", later.LarvaeFirst.Value),
                new("harmInBox", chosen.HarmInBox.Value),
                new("daysInBox", chosen.DaysInBox)
            ),
            After = [PlanBeforeHatch.Key(scene, ActionCodes.ReadyHatchingBox)],
            Door = new(DoorCode.WriteIsolated, scene.About),
        };
    }

    private static Instant? HardFrom(PlanScene scene) =>
        scene.Brood.Animal is { } animal
            ? scene
                .House.Animal(animal)
                .Moults.Where(moult => moult.Latest <= scene.Now)
                .Select(moult => (Instant?)(moult.Latest + IsolatingSteps.SoftFor))
                .Max()
            : null;

    private static PlannedAction Look(PlanScene scene, BroodForecast forecast)
    {
        // Counted looks give the occasion, so that a look that is written is a look that is done.
        var looks = scene.Brood.Looks;
        var last = looks.Count > 0 ? looks[^1].When.Latest : (Instant?)null;
        var plan = forecast.Isolation;
        var next = last is { } seen ? seen + LookEvery : scene.Now;
        var wanted = plan.Code switch
        {
            IsolationCode.LookNow => scene.Now,
            IsolationCode.WaitForSigns => Instant.Min(next, plan.At),
            _ => next,
        };
        // No eyes show before a third of the time: a look before it tells nothing.
        var share = scene.Profile.HatchSigns.EyedShareLow;
        var spawned = forecast.Spawning.Middle;
        var firstUse = spawned + ((forecast.Median - spawned) * share);
        var date = scene.DateOf(Instant.Max(Instant.Max(wanted, firstUse), scene.Now));
        var urgent = plan.Code is IsolationCode.LookNow;
        // Worth two more forecasts only when the look is near.
        var worth = date <= scene.DateOf(scene.Now).PlusDays(1) ? forecast.WorthOfALook : null;
        return PlanBeforeHatch.Make(scene, ActionCodes.LookAtEggs, 1, 0) with
        {
            Key = ActionKey.Of(ActionCodes.LookAtEggs, scene.About, (looks.Count + 1).ToString()),
            From = scene.At(date, 20),
            By = urgent ? scene.At(date, 23) : scene.At(date.PlusDays(1), 23),
            SlipsUntil = urgent ? null : Instant.Max(plan.At, scene.At(date.PlusDays(2), 23)),
            Reason = new Remark(
                urgent ? "plan-look-now-days-run-out" : "plan-look-narrows-the-window",
                new("windowDays", forecast.Window90.Days),
                new("expectedDays", worth?.ExpectedDays ?? forecast.Window90.Days),
                new("windowFrom", forecast.Window90.From),
                new("windowTo", forecast.Window90.To)
            ),
            IfItSlips = urgent ? null : new Remark("slip-window-stays-wide"),
            Door = new(DoorCode.WriteEggs, scene.About),
        };
    }

    private static IEnumerable<PlannedAction> Nights(PlanScene scene, BroodForecast forecast)
    {
        var first = scene.FirstEvening;
        var last = scene.LastEvening;
        var away = AwayUntil(scene.House);
        yield return PlanBeforeHatch.Make(scene, ActionCodes.SomeoneAtHome, 0, 0) with
        {
            From = scene.At(first, 18),
            By = scene.At(last.PlusDays(1), 12),
            Reason = new Remark(
                away is not null && away > scene.At(first, 18)
                    ? "plan-away-on-hatch-nights"
                    : "plan-hours-count-on-hatch-nights",
                new("firstEvening", first),
                new("middleEvening", scene.MiddleEvening),
                new("lastEvening", last),
                new("freeHours", FreshHours.Free(scene.Profile))
            ),
        };
        yield return PlanBeforeHatch.Make(scene, ActionCodes.SetPhoneClock, 1, 0) with
        {
            SlipsUntil = scene.At(scene.MiddleEvening, 22),
            Reason = new Remark("plan-this-app-cannot-wake-you"),
            IfItSlips = new Remark("slip-larvae-wait-till-you-wake"),
        };
        var tonight = DayAxis.EveningOf(scene.Now, scene.Zone);
        if (tonight >= first || forecast.OutAlready.Value > 0.05)
        {
            var chance = forecast.Nights.FirstOrDefault(night => night.Evening == tonight).Chance;
            if (forecast.Isolation.Code is IsolationCode.EggsAreOff)
            {
                foreach (var action in PlanDroppedEggs.Gatherings(scene, chance, forecast.OutAlready))
                {
                    yield return action;
                }

                yield break;
            }

            yield return Dated(scene, ActionCodes.LookForLarvae, tonight) with
            {
                From = scene.At(tonight, 22),
                By = scene.At(tonight.PlusDays(1), 8),
                Reason = new Remark(
                    "plan-look-for-larvae",
                    new("chanceTonight", chance.Value),
                    new("outAlready", forecast.OutAlready.Value)
                ),
                Cautions = [CautionCode.WetHandsChargingPhone],
                Door = new(DoorCode.WriteLarvae, scene.About),
            };
        }
    }

    /// <summary>Until when the keeper is away; none if at home, or with a helper there.</summary>
    internal static Instant? AwayUntil(House house)
    {
        Instant? until = null;
        foreach (var occurrence in house.Account.About(Subject.House))
        {
            until = occurrence.Fact switch
            {
                KeeperLeft left => left.Helper is null ? left.Until ?? Instant.MaxValue : null,
                KeeperReturned => null,
                _ => until,
            };
        }

        return until;
    }

    private static LocalDate IsolationBy(PlanScene scene, IsolationPlan plan) =>
        plan.Code is IsolationCode.WaitForSigns or IsolationCode.LookNow ? scene.FirstEvening : plan.Evening;

    internal static PlannedAction Dated(PlanScene scene, string code, LocalDate date) =>
        PlanBeforeHatch.Make(scene, code, 0, 0) with
        {
            Key = ActionKey.Of(code, scene.About, Occasion.Of(date)),
        };
}
