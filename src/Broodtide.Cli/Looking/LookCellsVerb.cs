using Broodtide.Cli.Door;
using Broodtide.Cli.Feeding;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Cli.Writing;
using Broodtide.Domain.Journal;
using Broodtide.Photos;
using Broodtide.Science.Counting;
using Broodtide.Science.Imaging.Chambers;
using Broodtide.Units;
using Broodtide.Workbench.Looking;

namespace Broodtide.Cli.Looking;

/// <summary>One cell, in pixels of its picture.</summary>
internal sealed record CellJson(double XPixels, double YPixels, double RadiusPixels);

/// <summary>Cells counted in a picture of a chamber.</summary>
internal sealed record LookCellsAnswer(
    string File,
    string Chamber,
    PointsJson CellsPerMillilitre,
    int Seen,
    IReadOnlyList<int> Squares,
    double SquareMicrolitres,
    double MicrometresPerPixel,
    IReadOnlyList<CellJson> Cells,
    IReadOnlyList<RemarkJson> Remarks,
    string? MarkedPicture
);

/// <summary>Cells, counted in a picture of a counting chamber.</summary>
internal static class LookCellsVerb
{
    public static VerbCommand Make()
    {
        var chambers = string.Join(", ", CountingChamber.All.Select(one => one.Code));
        var file = Slot.Word("PICTURE", "A photo of the chamber through the microscope, its lines in focus.");
        var chamber = Slot.Option(
            "--chamber",
            $"Which one: {chambers}; improved-neubauer is the same as neubauer.",
            "CHAMBER"
        );
        var squares = Slot.Option(
            "--squares",
            "How many squares to count; all that are whole if left out.",
            "NUMBER"
        );
        var dilution = Slot.Option(
            "--dilution",
            "How many times the sample was thinned, fixative included.",
            "TIMES"
        );
        var error = Slot.Option("--error", "Error of chamber and dilution; 10 % if left out.", "PERCENT");
        var marked = Slot.Option(
            "--marked",
            "Write the picture with squares and cells marked as a PNG here.",
            "FILE"
        );
        var write = Slot.Flag("--write", "Write the count into the journal; needs --vessel.");
        var vessel = Slot.Option("--vessel", "Whose water it was.", "VESSEL");
        var times = new TimeSlots();
        return new(
            "cells",
            "Count cells between the ruled lines of a counting chamber: cells per mL, with how sure it is. Tried on invented pictures only.",
            [
                "look cells chamber.png --chamber neubauer --marked counted.png",
                "look cells chamber.png --chamber neubauer --squares 2 --dilution 2 --json",
                "look cells chamber.png --chamber neubauer --vessel \"Green jar\" --write",
            ],
            [file, chamber, squares, dilution, error, marked, write, vessel, .. times.All],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var said = new Said(sitting, outlook.House);
                var way = Way(said, (chamber, squares, dilution, error), chambers);
                var whose = said.Vessel(vessel);
                if (said.Flag(write) && said.Text(vessel) is null)
                {
                    said.Add(new Remark("look-write-needs-vessel"));
                }

                if (await PicturesRead.OneAsync(said, file, sitting.Cancellation) is not var (path, picture))
                {
                    return sitting.NotUnderstood(said.Wrong, await sitting.SayingAsync());
                }

                new LookProgress(sitting).Say("Counting.");
                var read = ChamberPicture.Read(picture.ToGrey(), picture.Shape);
                if (!read.Succeeded)
                {
                    return sitting.Refuse([read.Reason], await sitting.SayingAsync());
                }

                var told = ChamberTally.Of(read.Value, read.Value.Cells, way);
                if (!told.Succeeded)
                {
                    return sitting.Refuse([told.Reason], await sitting.SayingAsync());
                }

                if (said.Text(marked) is { } to)
                {
                    await WholeFile.WriteAsync(
                        to,
                        Drawn(picture, read.Value, told.Value),
                        sitting.Cancellation
                    );
                }

                if (!said.Flag(write) || !sitting.Json)
                {
                    Tell(
                        sitting,
                        await sitting.SayingAsync(),
                        path,
                        way,
                        read.Value,
                        told.Value,
                        said.Text(marked)
                    );
                }

                return !said.Flag(write)
                    ? ExitCode.Done
                    : await Entries.WriteAsync(
                        sitting,
                        [ChamberEntries.Of(whose ?? default, told.Value, way)],
                        said.When(times.When, times.Since) ?? Happened.At(sitting.Now),
                        said.Flag(times.Yes),
                        sitting.Keeper.Write
                    );
            }
        );
    }

    private static ChamberWay Way(
        Said said,
        (Slot Chamber, Slot Squares, Slot Dilution, Slot Error) slots,
        string chambers
    )
    {
        var name = said.Text(slots.Chamber) ?? "";
        var known = CountingChamber.Find(name);
        if (known is null)
        {
            said.Add(
                new Remark(
                    "word-not-on-the-list",
                    new("field", slots.Chamber.Name),
                    new("typed", name),
                    new("allowed", chambers)
                )
            );
        }

        var wanted = FoodText.Number(said, slots.Squares, 1, 1_000);
        return new(
            known ?? CountingChamber.All[0],
            wanted is { } many ? (int)Math.Round(many) : null,
            FoodText.Number(said, slots.Dilution, 1, 1e6) ?? 1,
            FoodText.Share(said, slots.Error, 0, 100) ?? 0.1
        );
    }

    private static byte[] Drawn(Picture picture, ChamberPicture read, ChamberTold told) =>
        MarkedPicture.Png(
            picture,
            [.. read.Cells.Select(cell => new RingMark(cell.X, cell.Y, 1.5 * cell.Radius))],
            [
                .. told.Counted.SelectMany(square =>
                    square.Sides.Select(side => new LineMark(side.FromX, side.FromY, side.ToX, side.ToY))
                ),
            ]
        );

    private static void Tell(
        Sitting sitting,
        Saying saying,
        string path,
        ChamberWay way,
        ChamberPicture read,
        ChamberTold told,
        string? marked
    ) =>
        sitting.Answer(
            new LookCellsAnswer(
                path,
                way.Chamber.Code,
                PointsJson.Of(told.PerMillilitre),
                told.Density.Seen,
                [.. told.Counted.Select(square => square.Cells)],
                told.SquareMicrolitres,
                told.MicrometresPerPixel,
                [
                    .. read.Cells.Select(cell => new CellJson(
                        Math.Round(cell.X, 1),
                        Math.Round(cell.Y, 1),
                        Math.Round(cell.Radius, 1)
                    )),
                ],
                [.. told.Remarks.Select(saying.Json)],
                marked
            ),
            CliJson.Default.LookCellsAnswer,
            page =>
            {
                page.Facts(
                    ("Density", LedgerVerb.Points(told.PerMillilitre, "cells a mL")),
                    ("Counted", $"{told.Density.Seen} cells in {told.Counted.Count} squares"),
                    ("Each square", string.Join(", ", told.Counted.Select(square => square.Cells)))
                );
                foreach (var remark in told.Remarks)
                {
                    page.Line(saying.Of(remark));
                }

                if (marked is not null)
                {
                    page.Line($"The picture with squares and cells marked is {marked}.");
                }
            }
        );
}
