using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Planning;

/// <summary>Eggs off their mother: tended twice a day, their water read, and looked for larvae three times a day.</summary>
internal static class PlanDroppedEggs
{
    // Morning, afternoon and before bed; practice, no source.
    private static readonly int[] GatherHours = [7, 14, 22];
    private const int EveningFrom = 17;

    public static IEnumerable<PlannedAction> Of(PlanScene scene, Instant dropped)
    {
        var today = scene.DateOf(scene.Now);
        var evening = scene.Now >= scene.At(today, EveningFrom);
        var warmest = scene.Profile.Find("embryo-warmest-without-loss")?.Value;
        var tend = PlanHatchNights.Dated(scene, ActionCodes.TendDroppedEggs, today);
        if (!evening)
        {
            yield return tend with
            {
                From = Instant.Min(scene.Now, scene.At(today, GatherHours[0])),
                By = scene.At(today, 12),
                Reason = new Remark("plan-keep-eggs-moving", new Argument("droppedAt", dropped)),
                Cautions = [CautionCode.MainsBesideSaltWater],
            };
        }

        yield return tend with
        {
            Key = ActionKey.Of(ActionCodes.TendDroppedEggs, scene.About, Occasion.Of(today) + ".2"),
            From = scene.At(today, EveningFrom),
            By = scene.At(today, 22),
            Reason = new Remark("plan-keep-eggs-moving", new Argument("droppedAt", dropped)),
            Cautions = [CautionCode.MainsBesideSaltWater],
        };
        if (scene.Brood.DroppedIn is { } vessel && warmest is { } celsius)
        {
            yield return PlanBeforeHatch.Done(
                PlanHatchNights.Dated(scene, ActionCodes.ReadTemperature, today) with
                {
                    Key = ActionKey.Of(
                        ActionCodes.ReadTemperature,
                        Subject.Of(vessel),
                        "eggs-" + Occasion.Of(today)
                    ),
                    About = Subject.Of(vessel),
                    From = scene.At(today, 8),
                    By = scene.At(today, 20),
                    SlipsUntil = scene.At(today.PlusDays(1), 8),
                    Reason = new Remark("plan-eggs-not-warmer", new Argument("celsius", celsius)),
                    IfItSlips = new Remark("slip-warmth-unseen"),
                    Door = new(DoorCode.WriteReading, Subject.Of(vessel)),
                },
                ReadToday(scene, vessel, today)
            );
        }
    }

    /// <summary>Looks for larvae off the mother: in a small vessel without her they are found at any hour.</summary>
    public static IEnumerable<PlannedAction> Gatherings(
        PlanScene scene,
        Probability tonight,
        Probability outAlready
    )
    {
        var today = scene.DateOf(scene.Now);
        for (var i = 0; i < GatherHours.Length; i++)
        {
            var at = scene.At(today, GatherHours[i]);
            var next =
                i + 1 < GatherHours.Length
                    ? scene.At(today, GatherHours[i + 1])
                    : scene.At(today.PlusDays(1), GatherHours[0]);
            if (next <= scene.Now)
            {
                continue;
            }

            yield return PlanHatchNights.Dated(scene, ActionCodes.LookForLarvae, today) with
            {
                Key = ActionKey.Of(ActionCodes.LookForLarvae, scene.About, $"{Occasion.Of(today)}.{i + 1}"),
                From = at,
                By = at + Duration.FromHours(1.5),
                Reason = new Remark(
                    "plan-look-off-her",
                    new("chanceTonight", tonight.Value),
                    new("outAlready", outAlready.Value)
                ),
                Cautions = [CautionCode.WetHandsChargingPhone],
                Door = new(DoorCode.WriteLarvae, scene.About),
            };
        }
    }

    private static Instant? ReadToday(PlanScene scene, Domain.VesselId vessel, LocalDate today) =>
        scene
            .House.Account.About(Subject.Of(vessel))
            .Where(told =>
                told.Fact is ReadingTaken reading
                && reading.Value.AsTemperature() is not null
                && scene.DateOf(told.Happened.Middle) == today
            )
            .Select(told => (Instant?)told.Happened.Latest)
            .LastOrDefault();
}
