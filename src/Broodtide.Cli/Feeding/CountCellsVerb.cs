using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Science.Counting;
using Broodtide.Units;
using Broodtide.Workbench.Feeding;

namespace Broodtide.Cli.Feeding;

/// <summary>What a chamber count says.</summary>
internal sealed record CountCellsAnswer(
    string Chamber,
    int Seen,
    int Squares,
    double DilutionTimes,
    double CellsPerMillilitre,
    double LowerByChancePerMillilitre,
    double UpperByChancePerMillilitre,
    double LowerPerMillilitre,
    double UpperPerMillilitre,
    double LevelPercent,
    double InChamberPerMillilitre,
    double? HalfWidthPercent,
    double? VarianceOverMean,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>Cells counted in a chamber.</summary>
internal static class CountCellsVerb
{
    public static Command Make()
    {
        var chamber = Slot.Word(
            "CHAMBER",
            $"The chamber: {string.Join(", ", CountingChamber.All.Select(one => one.Code))}."
        );
        var counts = Slot.ManyWords("CELLS", "Cells in each square counted, such as 52 48 50.");
        var dilution = Slot.Option(
            "--dilution",
            "How many times the sample was thinned with water.",
            "TIMES"
        );
        var lugol = Slot.Option(
            "--lugol",
            "Lugol's solution put in, percent of the sample: it thins the sample too.",
            "PERCENT"
        );
        var error = Slot.Option("--error", "Error of chamber and dilution; 10 % if left out.", "PERCENT");
        return new VerbCommand(
            "count",
            "Cells per mL from a counting chamber, with the interval that chance and chamber leave, and how to count better.",
            [
                "food count neubauer 121 118 130 109",
                "food count neubauer-middle 41 38 52 44 47 --dilution 2 --lugol 2 --json",
                "food count sedgewick-rafter 31 28 25 30 --error 5",
            ],
            [chamber, counts, dilution, lugol, error],
            sitting =>
            {
                var said = new Said(sitting, new Domain.House(new Domain.Journal.Account()));
                var known = CountingChamber.Find(said.TheText(chamber));
                if (known is null)
                {
                    said.Add(
                        new Remark(
                            "word-not-on-the-list",
                            new("field", chamber.Name),
                            new("typed", said.TheText(chamber)),
                            new("allowed", string.Join(", ", CountingChamber.All.Select(one => one.Code)))
                        )
                    );
                }

                var seen = said.Texts(counts).Select(text => said.CountOf(text, "cells")).ToList();
                foreach (var impossible in seen.Where(count => count is < 0 or > 1_000_000))
                {
                    said.Add(FoodText.Impossible("cells", Saying.Number(impossible), 1e6));
                }

                var times = FoodText.Number(said, dilution, 1, 1e6) ?? 1;
                var share = FoodText.Share(said, lugol, 0, 1000) ?? 0;
                var off = FoodText.Share(said, error, 0, 100) ?? 0.1;
                if (said.Wrong.Count > 0 || known is null)
                {
                    return Task.FromResult(sitting.NotUnderstood(said.Wrong));
                }

                var advice = ChamberAdvice.Of(
                    new()
                    {
                        Chamber = known,
                        Counts = seen,
                        Dilution = times,
                        LugolShare = share,
                        ErrorShare = off,
                    }
                );
                return Task.FromResult(Answer(sitting, known, advice, seen.Count));
            }
        );
    }

    private static int Answer(Sitting sitting, CountingChamber chamber, ChamberAdvice advice, int squares)
    {
        var saying = new Saying(sitting.Zone, null);
        var density = advice.Density;
        return sitting.Answer(
            new CountCellsAnswer(
                chamber.Code,
                density.Seen,
                squares,
                advice.Dilution,
                density.Estimate.PerMillilitre,
                density.ByChance.Lower,
                density.ByChance.Upper,
                density.InAll.Lower,
                density.InAll.Upper,
                100 * density.InAll.Level.Value,
                density.InChamber.PerMillilitre,
                advice.HalfWidthPercent,
                density.Spread?.Index,
                [.. advice.Remarks.Select(saying.Json)]
            ),
            CliJson.Default.CountCellsAnswer,
            page =>
            {
                page.Facts(
                    ("Counted", $"{density.Seen} cells in {squares} squares"),
                    ("Density", $"{FoodText.Cells(density.Estimate.PerMillilitre)} cells/mL"),
                    (
                        "By chance",
                        $"{FoodText.Cells(density.ByChance.Lower)} to {FoodText.Cells(density.ByChance.Upper)} (95 %)"
                    ),
                    (
                        "With chamber",
                        $"{FoodText.Cells(density.InAll.Lower)} to {FoodText.Cells(density.InAll.Upper)} (95 %)"
                    )
                );
                FoodText.Print(page, advice.Remarks, saying);
            }
        );
    }
}
