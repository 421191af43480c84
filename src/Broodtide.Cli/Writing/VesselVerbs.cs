using Broodtide.Cli.Door;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;

namespace Broodtide.Cli.Writing;

/// <summary>Entries about a vessel from its setting up to its emptying.</summary>
internal static class VesselVerbs
{
    public static IEnumerable<EntryVerb> All() => [SetUp(), Filled(), Emptied(), Disinfected()];

    private static EntryVerb SetUp()
    {
        var name = Slot.Word(
            "NAME",
            "What it is called here. The name of a vessel that is there describes it anew."
        );
        var role = Slot.Word("ROLE", $"What it is for: {EnumWords.All<VesselRole>()}.");
        var capacity = Slot.Option("--capacity", "What it holds to the working line.", "VOLUME");
        var species = Slot.Option("--species", "Scientific name of what lives in it.", "NAME");
        return new(
            "vessel",
            "A vessel was set up, or is described better.",
            ["write vessel \"Jar B\" larval-vessel --capacity 6L"],
            [name, role, capacity, species],
            told =>
            {
                var known = told.Said.House.Vessels.FirstOrDefault(vessel =>
                    string.Equals(vessel.Name, told.Said.Text(name), StringComparison.OrdinalIgnoreCase)
                );
                return
                [
                    new VesselSetUp(
                        known?.Id ?? told.Same((VesselSetUp before) => before.Vessel),
                        told.Said.TheName(name),
                        told.Said.TheMember<VesselRole>(role),
                        told.Said.Volume(capacity),
                        told.Said.Text(species)
                    ),
                ];
            }
        );
    }

    private static EntryVerb Filled()
    {
        var vessel = Slot.Word("VESSEL", "Which one.");
        var volume = Slot.Word("VOLUME", "How much water, such as 7.2L.");
        var salinity = Slot.Option("--salinity", "Its salinity; fresh if left out.", "SALINITY");
        var temperature = Slot.Option("--temperature", "Its temperature.", "TEMPERATURE");
        var from = Slot.Option("--from", "The vessel the water came from.", "VESSEL");
        return new(
            "filled",
            "A vessel was filled from empty.",
            ["write filled \"Hatching box\" 1.5L --from \"River tank\" --temperature 24C"],
            [vessel, volume, salinity, temperature, from],
            told =>
                [
                    new VesselFilled(
                        told.Said.TheVessel(vessel),
                        told.Same((VesselFilled before) => before.Fill),
                        told.Said.TheAmount(volume, Dimension.Volume),
                        told.Said.Salinity(salinity),
                        told.Said.Celsius(temperature),
                        told.Said.Vessel(from),
                        told.Before<VesselFilled>()?.VolumeErrorShare
                    ),
                ]
        );
    }

    private static EntryVerb Emptied()
    {
        var vessel = Slot.Word("VESSEL", "Which one.");
        return new(
            "emptied",
            "A vessel was emptied.",
            ["write emptied \"Spare green jar\""],
            [vessel],
            told => [new VesselEmptied(told.Said.TheVessel(vessel))]
        );
    }

    private static EntryVerb Disinfected()
    {
        var vessel = Slot.Word("VESSEL", "Which one.");
        var agent = Slot.Word("AGENT", "With what, in your words.");
        var dose = Slot.Option("--dose", "Chlorine dose, if it was bleach.", "CHLORINE");
        var residual = Slot.Option("--residual", "Chlorine left at the end, as tested.", "CHLORINE");
        return new(
            "disinfected",
            "A vessel was disinfected.",
            ["write disinfected \"Old jar\" \"household bleach, rinsed\" --dose 10mg/L --residual 0mg/L"],
            [vessel, agent, dose, residual],
            told =>
                [
                    new VesselDisinfected(
                        told.Said.TheVessel(vessel),
                        told.Said.TheText(agent),
                        told.Said.Amount(dose, Dimension.Chlorine, "mg/L{Cl2}"),
                        told.Said.Amount(residual, Dimension.Chlorine, "mg/L{Cl2}")
                    ),
                ]
        );
    }
}
