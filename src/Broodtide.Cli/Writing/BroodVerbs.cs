using Broodtide.Cli.Door;
using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;

namespace Broodtide.Cli.Writing;

/// <summary>Entries about a clutch of eggs and the female that carries it.</summary>
internal static class BroodVerbs
{
    public static IEnumerable<EntryVerb> All() =>
        [Empty(), Berried(), Eggs(), Dropped(), Alone(), Returned()];

    private static EntryVerb Empty()
    {
        var animal = Slot.Word("ANIMAL", "The female.");
        return new(
            "seen-empty",
            "A female was looked at and carried no eggs: this bounds when the next clutch was laid.",
            ["write seen-empty Alma"],
            [animal],
            told => [new AnimalSeenEmpty(told.Said.TheAnimal(animal))]
        );
    }

    private static EntryVerb Berried()
    {
        var animal = Slot.Word("ANIMAL", "The female.");
        var name = Slot.Option("--brood", "What the brood is called here.", "NAME");
        var run = Slot.Option("--run", "Carry it through from now on, under this name.", "NAME");
        var unknown = Slot.Flag("--age-unknown", "She carried already when she was first looked at.");
        return new(
            "berried",
            "A female was seen to carry a clutch: the brood begins to be known.",
            [
                "write berried Alma --brood \"Brood 4\" --run \"Brood 4\" --since yesterday",
                "write berried Alma --brood \"Brood 5\" --age-unknown",
            ],
            [animal, name, run, unknown],
            told =>
            {
                var brood = told.Same((AnimalSeenBerried before) => before.Brood);
                var female = told.Said.TheAnimal(animal);
                var facts = new List<Fact>
                {
                    new AnimalSeenBerried(female, brood, told.Said.Text(name), told.Said.Flag(unknown)),
                };
                if (told.Said.Text(run) is { } called && !told.Corrects)
                {
                    facts.Add(
                        new RunStarted(
                            told.Said.Sitting.Keeper.New<RunId>(),
                            brood,
                            called,
                            told.Said.House.Animal(female).Species
                        )
                    );
                }

                return facts;
            }
        );
    }

    private static EntryVerb Eggs()
    {
        var brood = Slot.Word("BROOD", "The clutch.");
        var carried = Slot.Option("--carried", "Whether she still carries it: yes or no.", "YES|NO");
        var eyed = Slot.Option("--eyed", "Whether eyes show as dots: yes or no.", "YES|NO");
        var colour = Slot.Option("--colour", "dark, lighter or pale.", "WORD");
        var saddle = Slot.Option("--saddle", "Whether a new saddle shows: yes or no.", "YES|NO");
        return new(
            "eggs",
            "A clutch was looked at. Leave out what was not looked for; \"no\" means looked for and not seen.",
            ["write eggs \"Brood 3\" --eyed yes --colour lighter", "write eggs \"Brood 3\" --carried yes"],
            [brood, carried, eyed, colour, saddle],
            told =>
                [
                    new EggsObserved(
                        told.Said.TheBrood(brood),
                        told.Said.YesNo(carried),
                        told.Said.YesNo(eyed),
                        told.Said.Member<EggColour>(colour),
                        told.Said.YesNo(saddle)
                    ),
                ]
        );
    }

    private static EntryVerb Dropped()
    {
        var brood = Slot.Word("BROOD", "The clutch.");
        var vessel = Slot.Option("--in", "Where the eggs lie now.", "VESSEL");
        var number = Slot.Option("--number", "How many, if counted.", "COUNT");
        var some = Slot.Flag("--some", "She still carries others.");
        return new(
            "dropped",
            "A female dropped her eggs.",
            ["write dropped \"Brood 3\" --some --number 12 --in \"River tank\""],
            [brood, vessel, number, some],
            told =>
                [
                    new EggsDropped(
                        told.Said.TheBrood(brood),
                        told.Said.Vessel(vessel),
                        told.Said.Count(number),
                        !told.Said.Flag(some)
                    ),
                ]
        );
    }

    private static EntryVerb Alone()
    {
        var animal = Slot.Word("ANIMAL", "The female.");
        var vessel = Slot.Word("VESSEL", "The hatching box.");
        var brood = Slot.Option("--brood", "The clutch she carries; her newest if left out.", "BROOD");
        return new(
            "isolated",
            "A berried female was put into a hatching box of her own.",
            ["write isolated Berta \"Hatching box\""],
            [animal, vessel, brood],
            told =>
            {
                var female = told.Said.TheAnimal(animal);
                var broods = told.Said.House.Animal(female).Broods;
                return
                [
                    new AnimalIsolated(
                        female,
                        told.Said.TheVessel(vessel),
                        told.Said.Brood(brood) ?? (broods.Count > 0 ? broods[^1] : null)
                    ),
                ];
            }
        );
    }

    private static EntryVerb Returned()
    {
        var animal = Slot.Word("ANIMAL", "The female.");
        var vessel = Slot.Word("VESSEL", "Where she is from then on.");
        return new(
            "returned",
            "A female went back to the others.",
            ["write returned Alma \"River tank\""],
            [animal, vessel],
            told => [new AnimalReturned(told.Said.TheAnimal(animal), told.Said.TheVessel(vessel))]
        );
    }
}
