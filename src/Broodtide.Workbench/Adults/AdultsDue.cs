using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Adults;

/// <summary>
/// What is due for adults, apart from a brood's own plan: new animals apart, sexing, the other sex, conditioning, looks for
/// eggs, and the way back from the box. The intervals of looks are common practice without a source.
/// </summary>
internal static class AdultsDue
{
    // The usual stay apart, for a profile without one, and how long after it is still asked for.
    private const double UsualQuarantineDays = 28;
    private static readonly Duration StillAsked = Duration.FromDays(7);
    private static readonly Duration LookEvery = Duration.FromDays(3);
    private static readonly Duration WhoIsNew = Duration.FromDays(60);

    // Nothing new from the box in two nights: she may go back.
    private static readonly Duration QuietNights = Duration.FromHours(40);
    private static readonly Duration AfterMoult = Duration.FromDays(1);

    public static IEnumerable<PlannedAction> Of(
        House house,
        HouseProfiles profiles,
        Func<BroodId, BroodForecast?> forecastOf,
        RestsOfHouse rests,
        Instant now,
        DateTimeZone zone
    )
    {
        var scene = new Scene(house, profiles, forecastOf, rests, now, zone);
        return
        [
            .. KeptApart(scene),
            .. Sexes(scene),
            .. Conditioning(scene),
            .. scene.Alive.SelectMany(animal => LooksForEggs(scene, animal)),
            .. scene.Alive.SelectMany(animal => WayBack(scene, animal)),
            .. WhoIsEmpty(scene),
        ];
    }

    private static IEnumerable<PlannedAction> KeptApart(Scene scene)
    {
        foreach (
            var arrival in scene
                .Alive.Where(animal => animal.Acquired is not null && !Scene.HasBred(animal))
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
            yield return Make(ActionCodes.KeepNewApart, about, Occasion.Of(arrival.Key.Day)) with
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

    private static IEnumerable<PlannedAction> Sexes(Scene scene)
    {
        var unsexed = scene.Alive.Where(animal => animal.Sex is null).ToList();
        var newest = unsexed.Select(animal => animal.Acquired?.Latest).Max();
        if (unsexed.Count > 0)
        {
            if (newest is { } last && scene.Now - last < WhoIsNew)
            {
                yield return Make(
                    ActionCodes.SexAdults,
                    Subject.Of(unsexed[0].Id),
                    Occasion.Of(scene.DateOf(last))
                ) with
                {
                    From = scene.Morning(last),
                    By = scene.Morning(last) + Duration.FromDays(14),
                    SlipsUntil = scene.Morning(last) + WhoIsNew,
                    Reason = new Remark("adult-who-is-who", new Argument("number", unsexed.Count)),
                    IfItSlips = new Remark("slip-one-sex-unseen"),
                    Door = new(DoorCode.Adults, Subject.Of(unsexed[0].Id)),
                };
            }

            yield break;
        }

        // All are known and one sex is missing, and nobody carries: a carrier was fertilised already.
        var females = scene.Alive.Count(animal => animal.Sex is Sex.Female);
        var males = scene.Alive.Count(animal => animal.Sex is Sex.Male);
        if (females + males > 1 && (females == 0 || males == 0))
        {
            var profile = scene.Profiles.Of(scene.Alive[0].Species);
            var wish = new BuyingWish(
                Probability.FromFraction(0.95),
                females == 0 ? 1 : 0,
                males == 0 ? 1 : 0
            );
            var buying = BuyingBothSexes.Of(profile, wish);
            var first = scene.Alive.Select(animal => animal.Acquired?.Latest).Max() ?? scene.Now;
            yield return Make(
                ActionCodes.GetOtherSex,
                Subject.Of(scene.Alive[0].Id),
                $"{females}-{males}"
            ) with
            {
                From = first,
                By = Instant.Max(first, scene.Now) + Duration.FromDays(14),
                SlipsUntil = Instant.Max(first, scene.Now) + WhoIsNew,
                Reason = new Remark(
                    males == 0 ? "adult-no-male" : "adult-no-female",
                    new("animals", buying.Animals ?? BuyingBothSexes.Most),
                    new("chance", 0.95)
                ),
                IfItSlips = new Remark("slip-no-brood-without-both"),
                Cautions = [CautionCode.CollectingRules],
                Door = new(DoorCode.Adults, Subject.Of(scene.Alive[0].Id)),
            };
        }
    }

    private static IEnumerable<PlannedAction> Conditioning(Scene scene)
    {
        foreach (
            var tank in scene
                .Alive.GroupBy(animal => animal.PlaceAt(scene.Now))
                .Where(tank =>
                    tank.Key is { } id
                    && scene.House.Vessel(id).Role is VesselRole.BroodTank
                    && tank.Any(animal => animal.Sex is Sex.Female)
                    && tank.All(animal => !Scene.HasBred(animal))
                )
        )
        {
            var came = tank.Select(animal => animal.Acquired?.Latest).Max() ?? scene.Now;
            if (scene.Now - came > WhoIsNew)
            {
                continue;
            }

            yield return Make(ActionCodes.ConditionAdults, Subject.Of(tank.Key!.Value)) with
            {
                From = scene.Morning(came) + Duration.FromDays(1),
                By = scene.Morning(came) + Duration.FromDays(14),
                SlipsUntil = scene.Morning(came) + WhoIsNew,
                Reason = new Remark("adult-condition"),
                IfItSlips = new Remark("slip-small-clutches"),
                Cautions = [CautionCode.Copper],
            };
        }
    }

    private static IEnumerable<PlannedAction> LooksForEggs(Scene scene, Animal animal)
    {
        if (animal.Sex is not Sex.Female || animal.Acquired is null || IsBox(scene, animal))
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
        if (scene.Now - at > WhoIsNew)
        {
            yield break;
        }

        yield return Make(
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

    private static IEnumerable<PlannedAction> WayBack(Scene scene, Animal animal)
    {
        if (!IsBox(scene, animal) || animal.Broods.Count == 0)
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
        yield return Make(
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
                    : new Remark("adult-back-to-the-others"),
            IfItSlips = new Remark("slip-she-eats-larvae"),
            Cautions = [CautionCode.MainsBesideSaltWater],
            Door = new(DoorCode.WriteReturned, Subject.Of(animal.Id)),
        };
    }

    private static IEnumerable<PlannedAction> WhoIsEmpty(Scene scene)
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
                    yield return Make(
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

    private static bool IsLookedAt(Scene scene, Brood brood, Instant since) =>
        brood.Looks.Any(look => look.Seen.Carried is not null && look.When.Latest >= since)
        || brood.Animal is { } animal
            && scene.House.Animal(animal).SeenEmpty.Any(when => when.Latest >= since);

    private static bool IsBox(Scene scene, Animal animal) =>
        animal.PlaceAt(scene.Now) is { } place && scene.House.Vessel(place).Role is VesselRole.HatchingBox;

    private static PlannedAction Make(string code, Subject about, string occasion = "1") =>
        new()
        {
            Key = ActionKey.Of(code, about, occasion),
            Code = code,
            About = about,
            From = default,
            By = default,
            Reason = new Remark(code),
            Door = new(DoorCode.MarkDone, about),
        };

    private sealed record Scene(
        House House,
        HouseProfiles Profiles,
        Func<BroodId, BroodForecast?> ForecastOf,
        RestsOfHouse Rests,
        Instant Now,
        DateTimeZone Zone
    )
    {
        /// <summary>Adults that live here, as far as known.</summary>
        public IReadOnlyList<Animal> Alive { get; } =
        [
            .. House.Animals.Where(animal =>
                animal.Name is not null && (animal.Died is not { } died || died.Latest > Now)
            ),
        ];

        public LocalDate DateOf(Instant instant) => instant.InZone(Zone).Date;

        /// <summary>Eight in the morning of the next day.</summary>
        public Instant Morning(Instant after) =>
            DayAxis.At(DateOf(after).PlusDays(1), new LocalTime(8, 0), Zone);

        /// <summary>Whether an animal carried in this house, so that it is neither new nor in need of conditioning.</summary>
        public static bool HasBred(Animal animal) => animal.Broods.Count > 0;
    }
}
