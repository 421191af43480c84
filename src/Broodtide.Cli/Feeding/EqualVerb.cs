using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Feeding;

namespace Broodtide.Cli.Feeding;

/// <summary>A food with as much dry mass.</summary>
internal sealed record EqualJson(string Alga, double CellsPerMillilitre, double? CellsForOne);

/// <summary>Foods with as much dry mass.</summary>
internal sealed record EqualAnswer(
    double DryMilligramsPerLitre,
    IReadOnlyList<EqualJson> Others,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>Foods compared by dry mass.</summary>
internal static class EqualVerb
{
    public static Command Make()
    {
        var amount = Slot.Word("AMOUNT", "Cells per mL, or a dry mass a litre such as 5mg.");
        var alga = Slot.MaybeWord("ALGA", $"Of which alga: {FoodText.Algae}.");
        return new VerbCommand(
            "equal",
            "As much of another food: algae and dry food compared by their dry mass, not by cells.",
            ["food equal 5e4 tetraselmis", "food equal 5mg --json"],
            [amount, alga],
            sitting =>
            {
                var said = new Said(sitting, new Domain.House(new Account()));
                var kind = FoodText.Alga(said, alga);
                FoodEquivalents? equal = null;
                Remark? asked = null;
                if (kind is not null && FoodText.Cells(said, amount) is { } cells)
                {
                    asked = CellsLikely.OfCulture(cells, kind);
                    equal = FoodEquivalents.Of(kind, cells);
                }
                else if (kind is null && said.Wrong.Count == 0 && FoodText.Mass(said, amount) is { } mass)
                {
                    equal = FoodEquivalents.Of(Concentration.FromMilligramsPerLitre(mass.Milligrams));
                }

                return Task.FromResult(
                    said.Wrong.Count > 0 || equal is null ? sitting.NotUnderstood(said.Wrong)
                    : asked is not null ? sitting.Refuse([asked])
                    : Answer(sitting, equal)
                );
            }
        );
    }

    private static int Answer(Sitting sitting, FoodEquivalents equal)
    {
        var saying = new Saying(sitting.Zone, null);
        return sitting.Answer(
            new EqualAnswer(
                equal.Dry.MilligramsPerLitre,
                [
                    .. equal.Others.Select(other => new EqualJson(
                        other.Alga.Code,
                        other.Density.PerMillilitre,
                        other.CellsForOne
                    )),
                ],
                [.. equal.Remarks.Select(saying.Json)]
            ),
            CliJson.Default.EqualAnswer,
            page =>
            {
                page.Facts(
                        ("Dry mass", $"{Saying.Number(FoodText.Rounded(equal.Dry.MilligramsPerLitre))} mg/L")
                    )
                    .Line()
                    .Table(
                        ["as much of", "cells/mL", "cells for one"],
                        equal.Others.Select(other =>
                            (IReadOnlyList<string>)
                                [
                                    other.Alga.Code,
                                    FoodText.Cells(other.Density.PerMillilitre),
                                    other.CellsForOne is { } each
                                        ? Saying.Number(FoodText.Rounded(each))
                                        : "",
                                ]
                        )
                    )
                    .Line();
                FoodText.Print(page, equal.Remarks, saying);
            }
        );
    }
}
