using Broodtide.Cli.Door;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Units;

namespace Broodtide.Cli.Writing;

/// <summary>Entries about feeds, cultures, cells under the microscope, and how a vessel looks.</summary>
internal static class CultureVerbs
{
    public static IEnumerable<EntryVerb> All() => [Feed(), Culture(), Harvested(), Counted(), Looked()];

    private static EntryVerb Feed()
    {
        var name = Slot.Word("NAME", "What it is called here. The same name again describes it anew.");
        var food = Slot.Word("FOOD", $"What: {EnumWords.All<FoodKind>()}.");
        var protein = Slot.Option("--protein", "Crude protein, percent of the product as sold.", "PERCENT");
        var moisture = Slot.Option("--moisture", "Water, percent of the product as sold.", "PERCENT");
        var ash = Slot.Option("--ash", "Ash, percent of the product as sold.", "PERCENT");
        var note = Slot.Option("--note", "Anything worth saying.", "TEXT");
        return new(
            "feed",
            "A feed is described, or described better: what is in the product as it is sold.",
            ["write feed \"Fine dust\" powder --protein 52% --moisture 8% --ash 12%"],
            [name, food, protein, moisture, ash, note],
            told =>
                [
                    new FeedDescribed(
                        told.Said.TheName(name),
                        told.Said.TheMember<FoodKind>(food),
                        told.Said.Amount(protein, Dimension.Share, "%"),
                        told.Said.Amount(moisture, Dimension.Share, "%"),
                        told.Said.Amount(ash, Dimension.Share, "%"),
                        told.Said.Text(note)
                    ),
                ]
        );
    }

    private static EntryVerb Culture()
    {
        var vessel = Slot.Word("VESSEL", "Which one.");
        var alga = Slot.Word("ALGA", $"What grows in it: {EnumWords.All<CultureKind>()}.");
        var name = Slot.Option("--name", "Strain or name, in your words.", "TEXT");
        var medium = Slot.Option(
            "--medium",
            $"What it is fed with: {EnumWords.All<MediumKind>()}.",
            "MEDIUM"
        );
        var strength = Slot.Option("--strength", "Times the usual strength of the medium.", "NUMBER");
        var started = Slot.Option("--started", "When it was started; now if left out.", "TIME");
        var inoculum = Slot.Option("--inoculum", "How much starter went in.", "VOLUME");
        var density = Slot.Option("--inoculum-density", "Cells per mL of the starter.", "CELLS");
        var from = Slot.Option("--from", "The culture the starter came from.", "VESSEL");
        return new(
            "culture",
            "What grows in a vessel is described, or described better.",
            ["write culture \"Green jar\" tetraselmis --medium f2 --started \"10d ago\" --inoculum 200mL"],
            [vessel, alga, name, medium, strength, started, inoculum, density, from],
            told =>
                [
                    new CultureDescribed(
                        told.Said.TheVessel(vessel),
                        told.Said.TheMember<CultureKind>(alga),
                        told.Said.Text(name),
                        told.Said.Member<MediumKind>(medium),
                        told.Said.Number(strength),
                        told.Said.Time(started)?.Middle,
                        told.Said.Volume(inoculum),
                        told.Said.Amount(density, Dimension.CellDensity, UnitCode.CellsPerMillilitre),
                        told.Said.Vessel(from)
                    ),
                ]
        );
    }

    private static EntryVerb Harvested()
    {
        var vessel = Slot.Word("VESSEL", "The culture.");
        var volume = Slot.MaybeWord("VOLUME", "How much was taken out.");
        var density = Slot.Option("--density", "Cells per mL of it.", "CELLS");
        var note = Slot.Option("--note", "What became of it.", "TEXT");
        return new(
            "harvested",
            "Some of a culture was taken out, but not straight into another vessel (that is fed).",
            ["write harvested \"Green jar\" 200mL --density 1.2e6 --note \"into the fridge\""],
            [vessel, volume, density, note],
            told =>
                [
                    new CultureHarvested(
                        told.Said.TheVessel(vessel),
                        told.Said.Volume(volume),
                        told.Said.Amount(density, Dimension.CellDensity, UnitCode.CellsPerMillilitre),
                        told.Said.Text(note)
                    ),
                ]
        );
    }

    private static EntryVerb Counted()
    {
        var vessel = Slot.Word("VESSEL", "Whose water it was.");
        var chamber = Slot.Word("CHAMBER", $"What in: {EnumWords.All<ChamberKind>()}.");
        var counts = Slot.ManyWords(
            "CELLS[/SQUARES]",
            "Cells in each square, such as 52 48 50; or 212/4 for 212 cells in 4 squares."
        );
        var dilution = Slot.Option("--dilution", "How many times the sample was diluted.", "TIMES");
        var volume = Slot.Option("--square-volume", "Volume over one square, or of one drop.", "VOLUME");
        return new(
            "cells-counted",
            "Cells were counted under the microscope: what was seen in which squares.",
            [
                "write cells-counted \"Green jar\" neubauer 121 118 130 109",
                "write cells-counted \"Green jar\" neubauer-middle 212/5 --dilution 2",
            ],
            [vessel, chamber, counts, dilution, volume],
            told =>
                [
                    new CellsCounted(
                        told.Said.TheVessel(vessel),
                        told.Said.TheMember<ChamberKind>(chamber),
                        [.. told.Said.Texts(counts).Select(text => Square(told.Said, text, counts.Name))],
                        told.Said.Number(dilution),
                        told.Said.Volume(volume)
                    ),
                ]
        );
    }

    private static SquaresCounted Square(Said said, string text, string field)
    {
        if (text.Split('/') is not [var cells, .. var rest] || rest.Length > 1)
        {
            said.Add(new Remark("squares-not-read", new("field", field), new("typed", text)));
            return new SquaresCounted(0);
        }

        return new SquaresCounted(
            said.CountOf(cells, field),
            rest is [var squares] ? said.CountOf(squares, field) : null
        );
    }

    private static EntryVerb Looked()
    {
        var vessel = Slot.Word("VESSEL", "Which one.");
        var water = Slot.Option("--water", $"How it looks: {EnumWords.All<WaterLook>()}.", "LOOK");
        var film = Slot.Option("--film", $"On walls and stones: {EnumWords.All<FilmCover>()}.", "COVER");
        return new(
            "looked",
            "A vessel was looked at: colour of its water, film on its walls.",
            ["write looked \"Jar A\" --water tinted --film thin"],
            [vessel, water, film],
            told =>
                [
                    new VesselLookedAt(
                        told.Said.TheVessel(vessel),
                        told.Said.Member<WaterLook>(water),
                        told.Said.Member<FilmCover>(film)
                    ),
                ]
        );
    }
}
