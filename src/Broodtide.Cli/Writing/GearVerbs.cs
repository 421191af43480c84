using Broodtide.Cli.Door;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;

namespace Broodtide.Cli.Writing;

/// <summary>Entries about light, air, heater and filter.</summary>
internal static class GearVerbs
{
    private const string OnOff = "on or off, from then on.";

    public static IEnumerable<EntryVerb> All() => [Light(), Air(), Heater(), Filter()];

    private static EntryVerb Light()
    {
        var vessel = Slot.Word("VESSEL", "Which one.");
        var on = Slot.Word("ON|OFF", OnOff);
        var hours = Slot.Option("--hours", "Hours a day it burns.", "NUMBER");
        var bright = Slot.Option("--brightness", "How bright at the water, in lx or umol/m2/s.", "LIGHT");
        return new(
            "light",
            "The light over a vessel was changed.",
            ["write light \"Green jar\" on --hours 16 --brightness \"120 umol/m2/s\""],
            [vessel, on, hours, bright],
            told =>
                [
                    new LightChanged(
                        told.Said.TheVessel(vessel),
                        told.Said.YesNo(on) ?? false,
                        told.Said.Number(hours),
                        told.Said.Amount(bright, Dimension.Light, "lx")
                    ),
                ]
        );
    }

    private static EntryVerb Air()
    {
        var vessel = Slot.Word("VESSEL", "Which one.");
        var on = Slot.Word("ON|OFF", OnOff);
        var note = Slot.Option("--note", "How, in your words.", "TEXT");
        return new(
            "air",
            "The air of a vessel was changed.",
            ["write air \"Jar A\" on --note \"one slow coarse bubble a second\""],
            [vessel, on, note],
            told =>
                [
                    new AirChanged(
                        told.Said.TheVessel(vessel),
                        told.Said.YesNo(on) ?? false,
                        told.Said.Text(note)
                    ),
                ]
        );
    }

    private static EntryVerb Heater()
    {
        var vessel = Slot.Word("VESSEL", "Which one.");
        var on = Slot.Word("ON|OFF", OnOff);
        var setting = Slot.Option("--setting", "Temperature it is set to.", "TEMPERATURE");
        return new(
            "heater",
            "The heater of a vessel was changed.",
            ["write heater \"River tank\" on --setting 24C"],
            [vessel, on, setting],
            told =>
                [
                    new HeaterChanged(
                        told.Said.TheVessel(vessel),
                        told.Said.YesNo(on) ?? false,
                        told.Said.Celsius(setting)
                    ),
                ]
        );
    }

    private static EntryVerb Filter()
    {
        var vessel = Slot.Word("VESSEL", "Which one.");
        var on = Slot.Word("ON|OFF", OnOff);
        var note = Slot.Option("--note", "What was done, in your words.", "TEXT");
        return new(
            "filter",
            "The filter of a vessel was changed, cleaned, put in or taken out.",
            ["write filter \"River tank\" off --note \"larvae may come tonight\""],
            [vessel, on, note],
            told =>
                [
                    new FilterChanged(
                        told.Said.TheVessel(vessel),
                        told.Said.YesNo(on) ?? false,
                        told.Said.Text(note)
                    ),
                ]
        );
    }
}
