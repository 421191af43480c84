using Broodtide.Cli.Door;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;

namespace Broodtide.Cli.Writing;

/// <summary>Readings: what an instrument showed, on its own scale.</summary>
internal static class ReadingVerbs
{
    public static IEnumerable<EntryVerb> All() =>
        [
            Of(
                "salinity",
                "A salinity was read, on any scale: ppt, g/kg, sg 25/25, mS/cm at 25, brine, % sea, chlorinity.",
                [
                    "write salinity \"Jar A\" \"33,5 brine\" --with \"Hand refractometer\"",
                    "write salinity \"Jar A\" \"1.0235 sg 25/25\" --sample-temperature 24C --again",
                ],
                [Dimension.Salinity],
                null
            ),
            Of(
                "temperature",
                "A temperature was read; degC unless F is typed.",
                [
                    "write temperature \"Jar A\" 24,5 --with \"Stick thermometer\"",
                    "write temperature \"Jar A\" 76F",
                ],
                [Dimension.Temperature],
                "Cel"
            ),
            Room(),
            Of("ph", "pH was read.", ["write ph \"Jar A\" 8.1"], [Dimension.Acidity], "[pH]"),
            Of(
                "ammonia",
                "Ammonia was read. Say as what: TAN (as N), NH4, NH3-N or NH3.",
                ["write ammonia \"Jar A\" \"0.25 TAN\""],
                [Dimension.TotalAmmonia, Dimension.UnionisedAmmonia],
                null
            ),
            Of(
                "nitrite",
                "Nitrite was read. Say as what: NO2-N or NO2.",
                ["write nitrite \"Jar A\" \"0.05 NO2\""],
                [Dimension.Nitrite],
                null
            ),
            Of(
                "nitrate",
                "Nitrate was read. Say as what: NO3-N or NO3.",
                ["write nitrate \"River tank\" \"10 NO3\""],
                [Dimension.Nitrate],
                null
            ),
            Of(
                "oxygen",
                "Dissolved oxygen was read: mg/L, or % of saturation.",
                ["write oxygen \"Jar A\" \"6.8 mg/L\""],
                [Dimension.Oxygen],
                null
            ),
            Of(
                "chlorine",
                "Chlorine was tested; mg/L.",
                ["write chlorine \"Sea can\" 0"],
                [Dimension.Chlorine],
                "mg/L{Cl2}"
            ),
            Of(
                "alkalinity",
                "Alkalinity was read: dKH or meq/L.",
                ["write alkalinity \"Jar A\" \"7 dKH\""],
                [Dimension.Alkalinity],
                null
            ),
            Of(
                "hardness",
                "General hardness was read; dGH.",
                ["write hardness \"River tank\" 8"],
                [Dimension.Hardness],
                "[dGH]"
            ),
            Of(
                "cells",
                "A density of cells was read or told; cells per mL.",
                ["write cells \"Green jar\" 1.2e6"],
                [Dimension.CellDensity],
                UnitCode.CellsPerMillilitre
            ),
            Of(
                "brightness",
                "The light at the water was read: lx, or umol/m2/s.",
                ["write brightness \"Green jar\" 3500"],
                [Dimension.Light],
                "lx"
            ),
        ];

    private static EntryVerb Of(
        string name,
        string help,
        IReadOnlyList<string> examples,
        IReadOnlyList<Dimension> dimensions,
        string? unit
    )
    {
        var vessel = Slot.Word("VESSEL", "Whose water it was.");
        var value = Slot.Word("VALUE", "What the instrument showed, with its unit.");
        var with = Slot.Option("--with", "The instrument.", "INSTRUMENT");
        var sample = Slot.Option(
            "--sample-temperature",
            "Temperature of the sample as it was read.",
            "TEMPERATURE"
        );
        var again = Slot.Flag("--again", "Taken to check the reading before it.");
        return new(
            name,
            help,
            examples,
            [vessel, value, with, sample, again],
            told =>
            {
                var instrument = told.Said.Instrument(with);
                return
                [
                    new ReadingTaken(
                        told.Said.AmountOf(
                            told.Said.TheText(value),
                            name,
                            dimensions,
                            UnitOf(told, instrument, dimensions) ?? unit
                        ) ?? new TypedNumber("", unit ?? "1", 0),
                        told.Said.TheVessel(vessel),
                        instrument,
                        told.Said.Celsius(sample),
                        told.Said.Flag(again)
                    ),
                ];
            }
        );
    }

    private static EntryVerb Room()
    {
        var value = Slot.Word("VALUE", "What the thermometer showed, with its unit.");
        var with = Slot.Option("--with", "The instrument.", "INSTRUMENT");
        return new(
            "room",
            "The warmth of the room was read; degC unless F is typed.",
            ["write room 26,5", "write room 81F"],
            [value, with],
            told =>
                [
                    new ReadingTaken(
                        told.Said.AmountOf(told.Said.TheText(value), "room", [Dimension.Temperature], "Cel")
                            ?? new TypedNumber("", "Cel", 0),
                        Instrument: told.Said.Instrument(with)
                    ),
                ]
        );
    }

    // A bare number is on the scale of the instrument; without one, a salinity is in ppt.
    private static string? UnitOf(
        Told told,
        Domain.InstrumentId? instrument,
        IReadOnlyList<Dimension> dimensions
    )
    {
        var scale = instrument is { } id ? told.Said.House.Instrument(id).Description?.Scale : null;
        return scale is not null && UnitCode.Find(scale) is { } unit && dimensions.Contains(unit.Dimension)
                ? scale
            : dimensions.Contains(Dimension.Salinity) ? UnitCode.PracticalSalinity
            : null;
    }
}
