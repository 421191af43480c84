using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using static Broodtide.Workbench.Dossiers.SharedColumns;

namespace Broodtide.Workbench.Dossiers;

/// <summary>The tables of water and food: readings, changes of water, feedings.</summary>
internal static class WaterTables
{
    public static DataTable Readings(Dossier dossier) =>
        new(
            "readings",
            "Readings",
            "One row a value that was read, as typed, with what it means as salinity where it is one.",
            [
                EntryColumn,
                FromColumn,
                ToColumn,
                new("vessel", ColumnType.Text, "Identity of the vessel; empty for the room."),
                new(
                    "quantity",
                    ColumnType.Text,
                    "What was read.",
                    Codes: [.. Cell.Words<Dimension>(), "unknown"],
                    Required: true
                ),
                new("typed", ColumnType.Text, "The number as it was typed."),
                new("value", ColumnType.Number, "The same as a number.", Required: true),
                new(
                    "unit",
                    ColumnType.Text,
                    "Its unit, as a UCUM code or a code of the journal.",
                    Required: true
                ),
                new("instrument", ColumnType.Text, "Identity of the instrument."),
                new("sample_temperature_c", ColumnType.Number, "Temperature of the sample.", "Cel"),
                new(
                    "salinity_practical",
                    ColumnType.Number,
                    "What it means on the practical salinity scale, corrected for the instrument.",
                    "1"
                ),
                new("salinity_sd", ColumnType.Number, "The standard deviation of that.", "1"),
            ],
            [
                .. Told<ReadingTaken>(dossier)
                    .Select(pair =>
                    {
                        var meaning = dossier.Outlook.Meaning.Of(pair.Fact, pair.Occurrence.Happened.Middle);
                        return (IReadOnlyList<string>)
                            [
                                .. When(pair.Occurrence),
                                Cell.Of(pair.Fact.Vessel?.Value),
                                pair.Fact.Value.KnownUnit() is { } unit
                                    ? Cell.Word<Dimension>(unit.Dimension)
                                    : "unknown",
                                pair.Fact.Value.Typed,
                                Cell.Of(pair.Fact.Value.Value),
                                pair.Fact.Value.Unit,
                                Cell.Of(pair.Fact.Instrument?.Value),
                                Cell.Of(pair.Fact.SampleTemperature.AsTemperature()?.Celsius),
                                Cell.Of(meaning?.Salinity.Practical),
                                Cell.Of(meaning?.Sd),
                            ];
                    }),
            ]
        );

    public static DataTable WaterMoves(Dossier dossier) =>
        new(
            "water",
            "Water",
            "One row a change of the water of a vessel.",
            [
                EntryColumn,
                FromColumn,
                ToColumn,
                new(
                    "what",
                    ColumnType.Text,
                    "Which change.",
                    Codes: ["filled", "moved", "siphoned", "emptied"],
                    Required: true
                ),
                new(
                    "out_of",
                    ColumnType.Text,
                    "Identity of the vessel it came out of; empty for none of the house."
                ),
                new(
                    "into",
                    ColumnType.Text,
                    "Identity of the vessel it went into; empty where it was poured away."
                ),
                new("volume_l", ColumnType.Number, "How much.", "L"),
                new("salinity", ColumnType.Number, "Its salinity as typed; its unit beside it."),
                new("salinity_unit", ColumnType.Text, "The unit, as a UCUM code or a code of the journal."),
                new("mix_g", ColumnType.Number, "Salt mix that was dissolved.", "g"),
                new("evaporated", ColumnType.YesNo, "Whether it went into the air."),
            ],
            [
                .. dossier.Outlook.House.Account.Occurrences.SelectMany(occurrence =>
                    WaterCells(occurrence.Fact) is { } cells
                        ? new IReadOnlyList<string>[] { [.. When(occurrence), .. cells] }
                        : []
                ),
            ]
        );

    private static IReadOnlyList<string>? WaterCells(Fact fact) =>
        fact switch
        {
            VesselFilled filled =>
            [
                "filled",
                Cell.Of(filled.From?.Value),
                Cell.Of(filled.Vessel.Value),
                Cell.Of(((TypedNumber?)filled.Volume).AsVolume()?.Litres),
                Cell.Of(filled.Salinity?.Value),
                filled.Salinity?.Unit ?? "",
                "",
                "",
            ],
            WaterMoved moved =>
            [
                "moved",
                Cell.Of(moved.From?.Value),
                Cell.Of(moved.To?.Value),
                Cell.Of(moved.Volume.AsVolume()?.Litres),
                Cell.Of(moved.Salinity?.Value),
                moved.Salinity?.Unit ?? "",
                Cell.Of(moved.Mix.AsMass()?.Grams),
                Cell.Of(moved.Evaporated),
            ],
            VesselSiphoned siphoned =>
            [
                "siphoned",
                Cell.Of(siphoned.Vessel.Value),
                "",
                Cell.Of(siphoned.Volume.AsVolume()?.Litres),
                "",
                "",
                "",
                "",
            ],
            VesselEmptied emptied => ["emptied", Cell.Of(emptied.Vessel.Value), "", "", "", "", "", ""],
            _ => null,
        };

    public static DataTable Feedings(Dossier dossier) =>
        new(
            "feedings",
            "Feedings",
            "One row a feeding.",
            [
                EntryColumn,
                FromColumn,
                ToColumn,
                VesselColumn,
                new(
                    "food",
                    ColumnType.Text,
                    "What was given.",
                    Codes: Cell.Words<FoodKind>(),
                    Required: true
                ),
                new("feed", ColumnType.Text, "The name of a feed that was described."),
                new("volume_ml", ColumnType.Number, "How much, where it is a liquid.", "mL"),
                new("mass_mg", ColumnType.Number, "How much, where it is dry.", "mg"),
                new(
                    "density",
                    ColumnType.Number,
                    "Cells or animals per volume of what was given; its unit beside it."
                ),
                new("density_unit", ColumnType.Text, "The unit, as a UCUM code."),
                new("out_of", ColumnType.Text, "Identity of the culture it came from."),
            ],
            [
                .. Told<VesselFed>(dossier)
                    .Select(pair =>
                        (IReadOnlyList<string>)
                            [
                                .. When(pair.Occurrence),
                                Cell.Of(pair.Fact.Vessel.Value),
                                Cell.Word<FoodKind>(pair.Fact.Food),
                                pair.Fact.Feed ?? "",
                                Cell.Of(pair.Fact.Volume.AsVolume()?.Millilitres),
                                Cell.Of(pair.Fact.Mass.AsMass()?.Milligrams),
                                Cell.Of(pair.Fact.Density?.Value),
                                pair.Fact.Density?.Unit ?? "",
                                Cell.Of(pair.Fact.From?.Value),
                            ]
                    ),
            ]
        );
}
