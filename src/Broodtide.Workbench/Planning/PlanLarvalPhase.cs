using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Settling;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Planning;

/// <summary>What is checked while larvae live in the sea, and the way back. The intervals are practice, no source.</summary>
internal static class PlanLarvalPhase
{
    private static readonly Duration FoodBy = Duration.FromDays(1);

    // As soon as they are in salt water. Practice, no source.
    private static readonly Duration FoodAtOnce = Duration.FromHours(2);
    private const int CountEveryDays = 7;
    private const int WatchEveryDays = 3;

    public static IEnumerable<PlannedAction> Of(PlanScene scene)
    {
        var crossed = scene
            .House.Cohorts.Where(cohort => cohort.Brood == scene.Brood.Id && cohort.Crossed is not null)
            .ToList();
        var vessels = crossed
            .SelectMany(cohort => UnderWay.VesselsOf(scene.House, cohort, scene.Now))
            .Distinct()
            .Select(scene.House.Vessel)
            .Where(vessel =>
                vessel.Role is not VesselRole.Nursery and not VesselRole.BroodTank
                && WayHome.Began(vessel) is null
            );
        foreach (var vessel in vessels)
        {
            var since = crossed
                .SelectMany(cohort => cohort.Groups)
                .Where(group => group.Vessel == vessel.Id)
                .Min(group => group.Since.Latest);
            // Settlement is counted from hatching, wherever the larvae were moved since.
            var began = crossed
                .Where(cohort => UnderWay.VesselsOf(scene.House, cohort, scene.Now).Contains(vessel.Id))
                .Min(cohort => cohort.Crossed!.Value.Latest);
            foreach (
                var action in Checks(scene, vessel, since)
                    .Concat(PlanRisingSalinity.Of(scene, vessel, began))
                    .Concat(Homeward(scene, vessel, began))
            )
            {
                yield return action;
            }
        }
    }

    /// <summary>Why food is asked for at once: the species needs it, or nobody knows that it does not.</summary>
    internal static string AtOnceCode(SpeciesProfile profile) =>
        profile.FirstFood is FirstFoodNeed.AtOnce ? "plan-food-at-once" : "plan-food-at-once-not-known";

    private static IEnumerable<PlannedAction> Checks(PlanScene scene, Vessel vessel, Instant since)
    {
        var told = Told.Of(scene, vessel.Id, since);
        yield return Every(scene, vessel, ActionCodes.ReadSalinity, told.Salinity ?? since, 1, 1) with
        {
            Reason = new Remark("plan-salinity-daily", new Argument("last", told.Salinity ?? since)),
            IfItSlips = new Remark("slip-ledger-widens"),
            Door = new(DoorCode.WriteReading, Subject.Of(vessel.Id)),
        };
        yield return Every(scene, vessel, ActionCodes.ReadTemperature, told.Temperature ?? since, 1, 1) with
        {
            Reason = new Remark(
                "plan-temperature-daily",
                new("last", told.Temperature ?? since),
                new("lossesFromCelsius", scene.Profile.SafetyLimits.LossesFrom.Celsius)
            ),
            IfItSlips = new Remark("slip-warmth-unseen"),
            Door = new(DoorCode.WriteReading, Subject.Of(vessel.Id)),
        };
        yield return Every(
            scene,
            vessel,
            ActionCodes.CountLarvae,
            told.Count ?? since,
            CountEveryDays,
            7
        ) with
        {
            Reason = new Remark("plan-count-weekly", new Argument("last", told.Count ?? since)),
            IfItSlips = new Remark("slip-loss-dated-worse"),
            Door = new(DoorCode.WriteCount, Subject.Of(vessel.Id)),
        };
        yield return told.Fed is { } fed
            ? Every(scene, vessel, ActionCodes.FeedLarvae, fed, 1, 1) with
            {
                Reason = new Remark("plan-small-doses-and-look", new Argument("last", fed)),
                IfItSlips = new Remark("slip-film-and-green-water-carry"),
                Door = new(DoorCode.WriteFed, Subject.Of(vessel.Id)),
            }
            : FirstFood(scene, vessel, since);
    }

    private static PlannedAction FirstFood(PlanScene scene, Vessel vessel, Instant since)
    {
        var litres = vessel.Capacity is { Litres: > 0 } capacity ? capacity : scene.LarvalWater().Water;
        var onYolk = scene.Profile.FirstFood is FirstFoodNeed.YolkFirst;
        return Make(scene, vessel, ActionCodes.FirstFood, Occasion.Of(scene.DateOf(since))) with
        {
            From = since,
            By = since + (onYolk ? FoodBy : FoodAtOnce),
            Reason = onYolk
                ? new Remark(
                    "plan-salt-before-food",
                    new("crossedAt", since),
                    new("hours", FoodBy.TotalHours)
                )
                : new Remark(AtOnceCode(scene.Profile)),
            Amounts = [.. PlanAmounts.Culture(scene, Volume.FromLitres(Math.Min(1000, litres.Litres)))],
            Door = new(DoorCode.WriteFed, Subject.Of(vessel.Id)),
        };
    }

    private static IEnumerable<PlannedAction> Homeward(PlanScene scene, Vessel vessel, Instant began)
    {
        var low = Days(scene.Profile.LarvalDaysLow);
        var high = Math.Max(low, Days(scene.Profile.LarvalDaysHigh));
        var date = scene.DateOf(began);
        var seen = Told.Of(scene, vessel.Id, began).Settled;
        var nursery = scene.House.Vessels.FirstOrDefault(other => other.Role is VesselRole.Nursery);
        yield return PlanBeforeHatch.Done(
            Make(scene, vessel, ActionCodes.ReadyNursery, "1") with
            {
                From = scene.At(date.PlusDays(low - 14), 8),
                By = scene.At(date.PlusDays(low - 3), 20),
                SlipsUntil = scene.At(date.PlusDays(high), 20),
                Reason = new Remark("plan-nursery-with-a-lid"),
                IfItSlips = new Remark("slip-juveniles-wait-in-salt"),
                Cautions = [CautionCode.Glass],
            },
            nursery is null ? null : scene.Now
        );

        // Few seen is not few settled: the watch goes on until the latest day, whatever one look showed.
        var watchFrom = date.PlusDays(low - 7);
        var passed = Math.Max(0, Period.DaysBetween(watchFrom, scene.DateOf(scene.Now)));
        var turn = passed / WatchEveryDays;
        var key = ActionKey.Of(ActionCodes.WatchSettlement, Subject.Of(vessel.Id), (turn + 1).ToString());
        if (seen is null)
        {
            yield return Make(scene, vessel, ActionCodes.WatchSettlement, (turn + 1).ToString()) with
            {
                From = scene.At(watchFrom.PlusDays(turn * WatchEveryDays), 20),
                By = scene.At(watchFrom.PlusDays(((turn + 1) * WatchEveryDays) - 1), 23),
                SlipsUntil = scene.At(watchFrom.PlusDays((turn + 2) * WatchEveryDays), 23),
                Reason = new Remark(
                    "plan-settlement-watch",
                    new("daysLow", low),
                    new("daysHigh", high),
                    new("latest", scene.At(date.PlusDays(high), 12))
                ),
                IfItSlips = new Remark("slip-juveniles-climb"),
                Door = new(DoorCode.WriteSettlement, Subject.Of(vessel.Id)),
            };
        }

        yield return Make(scene, vessel, ActionCodes.ReturnJuveniles, "1") with
        {
            From = seen is { } settled ? settled : scene.At(date.PlusDays(low), 8),
            By = seen is { } first ? first + Duration.FromDays(14) : scene.At(date.PlusDays(high), 20),
            SlipsUntil = scene.At(date.PlusDays(high + 14), 20),
            Reason = new Remark(
                "plan-return-without-diluting-zoeae",
                new("daysLow", low),
                new("daysHigh", high),
                new("settledShare", scene.Profile.Find("return-settled-share")?.Value ?? 0.5)
            ),
            IfItSlips = new Remark("slip-return-can-wait"),
            After = [key, ActionKey.Of(ActionCodes.ReadyNursery, Subject.Of(vessel.Id))],
            Cautions = [CautionCode.MainsBesideSaltWater, CautionCode.NoRelease],
            Door = new(DoorCode.Return, Subject.Of(vessel.Id)),
        };
    }

    private static int Days(double days) => (int)Math.Clamp(Math.Round(days), 1, 400);

    // Due again so many days after the last time, within the evening of that day.
    private static PlannedAction Every(
        PlanScene scene,
        Vessel vessel,
        string code,
        Instant last,
        int days,
        int slipDays
    )
    {
        var date = scene.DateOf(last).PlusDays(days);
        return Make(scene, vessel, code, Occasion.Of(date)) with
        {
            From = scene.At(date, 8),
            By = scene.At(date, 22),
            SlipsUntil = scene.At(date.PlusDays(slipDays), 22),
        };
    }

    internal static PlannedAction Make(PlanScene scene, Vessel vessel, string code, string occasion) =>
        new()
        {
            Key = ActionKey.Of(code, Subject.Of(vessel.Id), occasion),
            Code = code,
            About = Subject.Of(vessel.Id),
            From = scene.Now,
            By = scene.Now,
            Reason = new Remark(code),
            Door = new(DoorCode.MarkDone, Subject.Of(vessel.Id)),
        };

    /// <summary>What was last written of a vessel since larvae came in.</summary>
    private sealed record Told(
        Instant? Salinity,
        Instant? Temperature,
        Instant? Count,
        Instant? Fed,
        Instant? Settled
    )
    {
        public static Told Of(PlanScene scene, VesselId vessel, Instant since)
        {
            var told = new Told(null, null, null, null, null);
            foreach (var occurrence in scene.House.Account.AboutSince(Subject.Of(vessel), since))
            {
                var when = occurrence.Happened.Latest;
                // A time in the future is a slip of the pen: nothing was read then.
                if (when > scene.Now)
                {
                    continue;
                }

                told = occurrence.Fact switch
                {
                    ReadingTaken reading => reading.Value.KnownUnit()?.Dimension switch
                    {
                        Dimension.Salinity => told with { Salinity = when },
                        Dimension.Temperature => told with { Temperature = when },
                        _ => told,
                    },
                    CountMade => told with { Count = when },
                    VesselFed fed when fed.Vessel == vessel => told with { Fed = when },
                    SettlementSeen => told with { Settled = told.Settled ?? when },
                    _ => told,
                };
            }

            return told;
        }
    }
}
