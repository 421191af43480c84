using Broodtide.Cli.Door;
using Broodtide.Domain.Animals;
using Broodtide.Workbench.Species;

namespace Broodtide.Cli.Writing;

/// <summary>Entries about adults.</summary>
internal static class AdultVerbs
{
    public static IEnumerable<EntryVerb> All() => [Animal(), Moulted(), Moved(), Died()];

    private static EntryVerb Animal()
    {
        var name = Slot.Word("NAME", "What she or he is called here.");
        var species = Slot.Option("--species", "Scientific name, as believed.", "NAME");
        var sex = Slot.Option("--sex", "female or male, if known.", "SEX");
        var vessel = Slot.Option("--in", "The vessel it was put into.", "VESSEL");
        var source = Slot.Option("--source", "Where it came from, in your words.", "TEXT");
        return new(
            "animal",
            "An adult came into the house.",
            [
                $"write animal Dora --species \"{SpeciesProfiles.ReferenceSpecies.ScientificName}\" --sex female --in \"River tank\"",
            ],
            [name, species, sex, vessel, source],
            told =>
                [
                    new AnimalAcquired(
                        told.Same((AnimalAcquired before) => before.Animal),
                        told.Said.TheName(name),
                        told.Said.Text(species),
                        told.Said.Member<Sex>(sex),
                        told.Said.Vessel(vessel),
                        told.Said.Text(source)
                    ),
                ]
        );
    }

    private static EntryVerb Moulted()
    {
        var animal = Slot.Word("ANIMAL", "Who.");
        return new(
            "moulted",
            "An adult shed its skin.",
            ["write moulted Berta"],
            [animal],
            told => [new AnimalMoulted(told.Said.TheAnimal(animal))]
        );
    }

    private static EntryVerb Moved()
    {
        var animal = Slot.Word("ANIMAL", "Who.");
        var vessel = Slot.Word("VESSEL", "Where it is from then on.");
        return new(
            "moved",
            "An adult was moved to another vessel.",
            ["write moved Berta \"River tank\""],
            [animal, vessel],
            told => [new AnimalMoved(told.Said.TheAnimal(animal), told.Said.TheVessel(vessel))]
        );
    }

    private static EntryVerb Died()
    {
        var animal = Slot.Word("ANIMAL", "Who.");
        var cause = Slot.Option("--cause", "Your guess at the cause.", "TEXT");
        return new(
            "died",
            "An adult died.",
            ["write died Ode --cause \"found outside the tank\""],
            [animal, cause],
            told => [new AnimalDied(told.Said.TheAnimal(animal), told.Said.Text(cause))]
        );
    }
}
