using Broodtide.Domain.Animals;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Adults;

/// <summary>What is due for animals that came: to keep them apart, to tell the sexes, the other sex, conditioning.</summary>
internal static class NewcomersDue
{
    // The usual stay apart, for a profile without one, and how long after it is still asked for.
    private const double UsualQuarantineDays = 28;

    private static readonly Duration StillAsked = Duration.FromDays(7);

    public static IEnumerable<PlannedAction> KeptApart(AdultScene scene)
    {
        foreach (
            var arrival in scene
                .Alive.Where(animal => animal.Acquired is not null && !AdultScene.HasBred(animal))
                .GroupBy(animal =>
                    (
                        Day: scene.DateOf(animal.Acquired!.Value.Latest),
                        Vessel: animal.Places.Count > 0 ? animal.Places[0].Vessel : null
                    )
                )
        )
        {
            var came = arrival.Min(animal => animal.Acquired!.Value.Latest);
            var quarantine = scene.Profiles.Of(arrival.First().Species).Find(AdultQuantityCodes.Quarantine);
            var days = quarantine?.High ?? UsualQuarantineDays;
            var over = came + Duration.FromDays(days);
            if (scene.Now > over + StillAsked)
            {
                continue;
            }

            var about = arrival.Key.Vessel is { } vessel
                ? Subject.Of(vessel)
                : Subject.Of(arrival.First().Id);
            yield return AdultScene.Make(ActionCodes.KeepNewApart, about, Occasion.Of(arrival.Key.Day)) with
            {
                From = came,
                By = over,
                SlipsUntil = over + StillAsked,
                Reason = new Remark(
                    "adult-new-ones-apart",
                    new("number", arrival.Count()),
                    new("daysLeast", quarantine?.Low ?? days / 2),
                    new("daysMost", days)
                ),
                IfItSlips = new Remark("slip-disease-comes-in"),
                Cautions = [CautionCode.Copper, CautionCode.NoRelease, CautionCode.Disease],
            };
        }
    }

    public static IEnumerable<PlannedAction> Sexes(AdultScene scene) =>
        scene
            .Alive.GroupBy(animal => scene.Profiles.Of(animal.Species).Code, StringComparer.Ordinal)
            .SelectMany(species => SexesOf(scene, [.. species]));

    private static IEnumerable<PlannedAction> SexesOf(AdultScene scene, IReadOnlyList<Animal> alive)
    {
        var unsexed = alive.Where(animal => animal.Sex is null).ToList();
        var newest = unsexed.Select(animal => animal.Acquired?.Latest).Max();
        if (unsexed.Count > 0)
        {
            if (newest is { } last && scene.Now - last < AdultScene.WhoIsNew)
            {
                yield return AdultScene.Make(
                    ActionCodes.SexAdults,
                    Subject.Of(unsexed[0].Id),
                    Occasion.Of(scene.DateOf(last))
                ) with
                {
                    From = scene.Morning(last),
                    By = scene.Morning(last) + Duration.FromDays(14),
                    SlipsUntil = scene.Morning(last) + AdultScene.WhoIsNew,
                    Reason = new Remark("adult-who-is-who", new Argument("number", unsexed.Count)),
                    IfItSlips = new Remark("slip-one-sex-unseen"),
                    Door = new(DoorCode.Adults, Subject.Of(unsexed[0].Id)),
                };
            }

            yield break;
        }

        // All are known and one sex is missing, and nobody carries: a carrier was fertilised already.
        var females = alive.Count(animal => animal.Sex is Sex.Female);
        var males = alive.Count(animal => animal.Sex is Sex.Male);
        if (
            females + males > 1
            && (females == 0 || males == 0)
            && !alive.Any(animal => IsCarrying(scene, animal))
        )
        {
            var profile = scene.Profiles.Of(alive[0].Species);
            var wish = new BuyingWish(
                Probability.FromFraction(0.95),
                females == 0 ? 1 : 0,
                males == 0 ? 1 : 0
            );
            var buying = BuyingBothSexes.Of(profile, wish);
            var first = alive.Select(animal => animal.Acquired?.Latest).Max() ?? scene.Now;
            yield return AdultScene.Make(
                ActionCodes.GetOtherSex,
                Subject.Of(alive[0].Id),
                $"{females}-{males}"
            ) with
            {
                From = first,
                By = Instant.Max(first, scene.Now) + Duration.FromDays(14),
                SlipsUntil = Instant.Max(first, scene.Now) + AdultScene.WhoIsNew,
                Reason = new Remark(
                    males == 0 ? "adult-no-male" : "adult-no-female",
                    new("animals", buying.Animals ?? BuyingBothSexes.Most),
                    new("chance", 0.95)
                ),
                IfItSlips = new Remark("slip-no-brood-without-both"),
                Cautions = [CautionCode.CollectingRules],
                Door = new(DoorCode.Adults, Subject.Of(alive[0].Id)),
            };
        }
    }

    private static bool IsCarrying(AdultScene scene, Animal animal) =>
        animal.Broods.Count > 0
        && FemaleHistory.EndOf(scene.House, animal, scene.House.Brood(animal.Broods[^1]), scene.Now).End
            is ClutchEnd.Carried;

    public static IEnumerable<PlannedAction> Conditioning(AdultScene scene)
    {
        foreach (
            var tank in scene
                .Alive.GroupBy(animal => animal.PlaceAt(scene.Now))
                .Where(tank =>
                    tank.Key is { } id
                    && scene.House.Vessel(id).Role is VesselRole.BroodTank
                    && tank.Any(animal => animal.Sex is Sex.Female)
                    && tank.All(animal => !AdultScene.HasBred(animal))
                )
        )
        {
            var came = tank.Select(animal => animal.Acquired?.Latest).Max() ?? scene.Now;
            if (scene.Now - came > AdultScene.WhoIsNew)
            {
                continue;
            }

            yield return AdultScene.Make(ActionCodes.ConditionAdults, Subject.Of(tank.Key!.Value)) with
            {
                From = scene.Morning(came) + Duration.FromDays(1),
                By = scene.Morning(came) + Duration.FromDays(14),
                SlipsUntil = scene.Morning(came) + AdultScene.WhoIsNew,
                Reason = new Remark("adult-condition"),
                IfItSlips = new Remark("slip-small-clutches"),
                Cautions = [CautionCode.Copper],
            };
        }
    }
}
