using Broodtide.Cli.Door;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;

namespace Broodtide.Cli.Writing;

/// <summary>Entries about water and salt that move, and about feeding.</summary>
internal static class WaterVerbs
{
    public static IEnumerable<EntryVerb> All() =>
        [Poured(), ToppedUp(), DrawnOff(), Salted(), Evaporated(), Siphoned(), Fed()];

    private static EntryVerb Poured()
    {
        var volume = Slot.Word("VOLUME", "How much water, such as 350mL.");
        var from = Slot.Option("--from", "Out of this vessel; left out: from outside.", "VESSEL");
        var to = Slot.Option("--to", "Into this vessel; left out: down the drain.", "VESSEL");
        var salinity = Slot.Option(
            "--salinity",
            "Salinity of water from outside; fresh if left out.",
            "SALINITY"
        );
        var temperature = Slot.Option("--temperature", "Its temperature.", "TEMPERATURE");
        return new(
            "poured",
            "Water went from one vessel to another, or from or to the outside.",
            ["write poured 500mL --from \"Sea can\" --to \"Jar A\""],
            [volume, from, to, salinity, temperature],
            told =>
                [
                    new WaterMoved(
                        told.Said.Vessel(from),
                        told.Said.Vessel(to),
                        told.Said.TheAmount(volume, Dimension.Volume),
                        told.Said.Salinity(salinity),
                        told.Said.Celsius(temperature),
                        VolumeErrorShare: told.Before<WaterMoved>()?.VolumeErrorShare
                    ),
                ]
        );
    }

    private static EntryVerb ToppedUp()
    {
        var vessel = Slot.Word("VESSEL", "Which one.");
        var volume = Slot.MaybeWord("VOLUME", "How much; left out: to the working line, whatever that took.");
        var temperature = Slot.Option("--temperature", "Its temperature.", "TEMPERATURE");
        return new(
            "topped-up",
            "Fresh water was added for what evaporated.",
            ["write topped-up \"Jar A\" 120mL", "write topped-up \"River tank\""],
            [vessel, volume, temperature],
            told =>
                [
                    new WaterMoved(
                        To: told.Said.TheVessel(vessel),
                        Volume: told.Said.Volume(volume),
                        Temperature: told.Said.Celsius(temperature),
                        ToLine: told.Said.Text(volume) is null,
                        VolumeErrorShare: told.Before<WaterMoved>()?.VolumeErrorShare
                    ),
                ]
        );
    }

    private static EntryVerb DrawnOff()
    {
        var vessel = Slot.Word("VESSEL", "Which one.");
        var volume = Slot.Word("VOLUME", "How much.");
        return new(
            "drawn-off",
            "Water was drawn off down the drain.",
            ["write drawn-off \"Jar A\" 300mL"],
            [vessel, volume],
            told =>
                [
                    new WaterMoved(
                        From: told.Said.TheVessel(vessel),
                        Volume: told.Said.TheAmount(volume, Dimension.Volume)
                    ),
                ]
        );
    }

    private static EntryVerb Salted()
    {
        var vessel = Slot.Word("VESSEL", "Which one.");
        var mass = Slot.Word("MASS", "Salt mix as weighed, such as 12g.");
        return new(
            "salted",
            "Salt mix was dissolved in a vessel.",
            ["write salted \"Sea can\" 12g"],
            [vessel, mass],
            told =>
                [
                    new WaterMoved(
                        To: told.Said.TheVessel(vessel),
                        Mix: told.Said.TheAmount(mass, Dimension.Mass)
                    ),
                ]
        );
    }

    private static EntryVerb Evaporated()
    {
        var vessel = Slot.Word("VESSEL", "Which one.");
        var volume = Slot.Word("VOLUME", "How much, as measured.");
        return new(
            "evaporated",
            "Water went into the air and left its salt behind.",
            ["write evaporated \"Jar A\" 60mL"],
            [vessel, volume],
            told =>
                [
                    new WaterMoved(
                        From: told.Said.TheVessel(vessel),
                        Volume: told.Said.TheAmount(volume, Dimension.Volume),
                        Evaporated: true
                    ),
                ]
        );
    }

    private static EntryVerb Siphoned()
    {
        var vessel = Slot.Word("VESSEL", "Which one.");
        var volume = Slot.MaybeWord("VOLUME", "How much water went with it.");
        var back = Slot.Option("--put-back", "Larvae found in it and put back.", "COUNT");
        return new(
            "siphoned",
            "Waste was siphoned off, with the water it took.",
            ["write siphoned \"Jar A\" 200mL --put-back 1"],
            [vessel, volume, back],
            told =>
                [
                    new VesselSiphoned(
                        told.Said.TheVessel(vessel),
                        told.Said.Volume(volume),
                        told.Said.Count(back)
                    ),
                ]
        );
    }

    private static EntryVerb Fed()
    {
        var vessel = Slot.Word("VESSEL", "Which one.");
        var food = Slot.Word("FOOD", $"What: {EnumWords.All<FoodKind>()}.");
        var volume = Slot.Option("--volume", "Volume of a liquid food.", "VOLUME");
        var mass = Slot.Option("--mass", "Mass of a dry food.", "MASS");
        var density = Slot.Option("--density", "Cells per mL of the food.", "CELLS");
        var from = Slot.Option("--from", "The culture it came from.", "VESSEL");
        var salinity = Slot.Option(
            "--salinity",
            "Salinity of a liquid food, where no culture is named.",
            "SALINITY"
        );
        var feed = Slot.Option("--feed", "Name of a feed that is described.", "NAME");
        return new(
            "fed",
            "A vessel was fed.",
            ["write fed \"Jar A\" green-water --volume 80mL --from \"Green jar\""],
            [vessel, food, volume, mass, density, from, salinity, feed],
            told =>
                [
                    new VesselFed(
                        told.Said.TheVessel(vessel),
                        told.Said.TheMember<FoodKind>(food),
                        told.Said.Volume(volume),
                        told.Said.Amount(mass, Dimension.Mass),
                        told.Said.Amount(density, Dimension.CellDensity, UnitCode.CellsPerMillilitre),
                        told.Said.Vessel(from),
                        told.Said.Salinity(salinity),
                        told.Said.Text(feed)
                    ),
                ]
        );
    }
}
