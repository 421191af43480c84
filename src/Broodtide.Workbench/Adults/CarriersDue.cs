using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Planning;
using NodaTime;

namespace Broodtide.Workbench.Adults;

/// <summary>What is due for females about a clutch: looks for eggs, the way back from the box, who is empty of two in one.</summary>
internal static class CarriersDue
{
    private static readonly Duration LookEvery = Duration.FromDays(3);

    // Nothing new from the box in two nights: she may go back.
    private static readonly Duration QuietNights = Duration.FromHours(40);

    private static readonly Duration AfterMoult = Duration.FromDays(1);

    public static IEnumerable<PlannedAction> LooksForEggs(AdultScene scene, Animal animal)
    {
        if (animal.Sex is not Sex.Female || animal.Acquired is null || scene.IsBox(animal))
        {
            yield break;
        }

        var brood = animal.Broods.Count > 0 ? scene.House.Brood(animal.Broods[^1]) : null;
        if (
            brood is not null
            && FemaleHistory.EndOf(scene.House, animal, brood, scene.Now).End is ClutchEnd.Carried
        )
        {
            yield break;
        }

        var again = CarryAgain.Of(
            scene.House,
            animal,
            scene.Profiles,
            scene.ForecastOf,
            scene.Now,
            scene.Rests
        );
        var from = again.When?.Early ?? animal.Acquired.Value.Latest + Duration.FromDays(1);
        var last = animal
            .SeenEmpty.Where(when => when.Latest <= scene.Now)
            .Select(when => (Instant?)when.Latest)
            .Max();
        var at = scene.Morning(Instant.Max(from, last is { } seen ? seen + LookEvery : from));
        // Nobody is asked for ever: a female that nobody looks at for a season is not minded.
        if (scene.Now - at > AdultScene.WhoIsNew)
        {
            yield break;
        }

        yield return AdultScene.Make(
            ActionCodes.LookForEggs,
            Subject.Of(animal.Id),
            $"{animal.Broods.Count + 1}-{animal.SeenEmpty.Count + 1}"
        ) with
        {
            From = at,
            By = Instant.Max(at, scene.Now) + LookEvery,
            SlipsUntil = Instant.Max(at, scene.Now) + LookEvery + LookEvery,
            Reason = again.When is { } when
                ? new Remark(
                    "adult-may-carry-again",
                    new("earliest", scene.DateOf(when.Early)),
                    new("middle", scene.DateOf(when.Middle)),
                    new("latest", scene.DateOf(when.Late))
                )
                : new Remark("adult-look-for-eggs"),
            IfItSlips = new Remark("slip-age-of-eggs-unknown"),
            Door = new(DoorCode.WriteBerried, Subject.Of(animal.Id)),
        };
    }

    public static IEnumerable<PlannedAction> WayBack(AdultScene scene, Animal animal)
    {
        if (!scene.IsBox(animal) || animal.Broods.Count == 0)
        {
            yield break;
        }

        var brood = scene.House.Brood(animal.Broods[^1]);
        var (end, ended) = FemaleHistory.EndOf(scene.House, animal, brood, scene.Now);
        if (end is ClutchEnd.Carried || ended is not { } over)
        {
            yield break;
        }

        var lastLarvae = brood
            .Hatching.Concat(brood.Gatherings.Where(one => one.Made.Number is not 0).Select(one => one.When))
            .Select(when => (Instant?)when.Latest)
            .Max();
        var bare = animal
            .SeenEmpty.Concat(brood.Looks.Where(look => look.Seen.Carried is false).Select(look => look.When))
            .Where(when => when.Latest >= over.Earliest)
            .Select(when => (Instant?)when.Latest)
            .Min();
        var free = bare ?? brood.HatchingOver?.Latest ?? lastLarvae + QuietNights ?? over.Latest;
        var moult = animal.Moults.Select(when => (Instant?)when.Latest).Max();
        var from = moult is { } soft ? Instant.Max(free, soft + AfterMoult) : free;
        yield return AdultScene.Make(
            ActionCodes.ReturnFemale,
            Subject.Of(animal.Id),
            (animal.Broods.Count).ToString()
        ) with
        {
            From = from,
            By = from + Duration.FromDays(1),
            SlipsUntil = from + Duration.FromDays(3),
            Reason =
                moult is { } shed && from > free
                    ? new Remark("adult-back-when-hard", new Argument("moult", shed))
                : bare is null && brood.HatchingOver is null ? new Remark("adult-look-whether-empty")
                : new Remark("adult-back-to-the-others"),
            IfItSlips = new Remark("slip-she-eats-larvae"),
            Cautions = [CautionCode.MainsBesideSaltWater],
            Door = new(DoorCode.WriteReturned, Subject.Of(animal.Id)),
        };
    }

    public static IEnumerable<PlannedAction> WhoIsEmpty(AdultScene scene)
    {
        foreach (
            var brood in scene.House.Broods.Where(brood =>
                brood.Gatherings.Count > 0
                && scene.Now - brood.Gatherings[^1].When.Latest < Duration.FromDays(5)
            )
        )
        {
            var since = brood.Gatherings[^1].When.Latest;
            foreach (var box in MixedBox.BoxesOf(scene.House, brood))
            {
                var unlooked = MixedBox
                    .CarriedIn(scene.House, box, since)
                    .Select(scene.House.Brood)
                    .FirstOrDefault(other => !IsLookedAt(scene, other, since));
                if (unlooked is not null)
                {
                    yield return AdultScene.Make(
                        ActionCodes.SeeWhoIsEmpty,
                        Subject.Of(box),
                        Occasion.Of(DayAxis.EveningOf(since, scene.Zone))
                    ) with
                    {
                        From = since,
                        By = since + Duration.FromHours(12),
                        SlipsUntil = since + Duration.FromDays(2),
                        Reason = new Remark("adult-two-in-one-box"),
                        IfItSlips = new Remark("slip-shares-stay-wide"),
                        Door = new(DoorCode.WriteEggs, Subject.Of(unlooked.Id)),
                    };
                }
            }
        }
    }

    private static bool IsLookedAt(AdultScene scene, Brood brood, Instant since) =>
        brood.Looks.Any(look => look.Seen.Carried is not null && look.When.Latest >= since)
        || brood.Animal is { } animal
            && scene.House.Animal(animal).SeenEmpty.Any(when => when.Latest >= since);
}
