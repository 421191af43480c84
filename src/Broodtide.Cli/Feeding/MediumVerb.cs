using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Science.Food;
using Broodtide.Units;
using Broodtide.Workbench.Feeding;

namespace Broodtide.Cli.Feeding;

/// <summary>One substance.</summary>
internal sealed record MediumLineJson(
    string Formula,
    double MilligramsPerLitre,
    double MicromolesPerLitre,
    double Milligrams,
    string Stock,
    double StockGramsPerLitre
);

/// <summary>One stock solution.</summary>
internal sealed record MediumPourJson(string Stock, double Millilitres);

/// <summary>A recipe.</summary>
internal sealed record MediumAnswer(
    string Medium,
    double WaterLitres,
    double NitrogenMilligramsPerLitre,
    IReadOnlyList<MediumPourJson> Pours,
    IReadOnlyList<MediumLineJson> Substances,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>A medium for algae.</summary>
internal static class MediumVerb
{
    public static Command Make()
    {
        var medium = Slot.Word(
            "MEDIUM",
            $"Which: {string.Join(", ", CultureMedia.All.Select(one => one.Code))}."
        );
        var water = Slot.Word("WATER", "Sea water to enrich, such as \"2 L\".");
        var alga = Slot.Option("--for", $"The alga: {FoodText.Algae}.", "ALGA");
        return new VerbCommand(
            "medium",
            "What goes into sea water to grow algae in it: stock solutions and how much of each to pour.",
            ["food medium f/2 \"2 L\" --for chaetoceros", "food medium f/2-si \"1.5 L\" --json"],
            [medium, water, alga],
            sitting =>
            {
                var said = new Said(sitting, new Domain.House(new Domain.Journal.Account()));
                var known = CultureMedia.Find(said.TheText(medium));
                if (known is null)
                {
                    said.Add(
                        new Remark(
                            "word-not-on-the-list",
                            new("field", medium.Name),
                            new("typed", said.TheText(medium)),
                            new("allowed", string.Join(", ", CultureMedia.All.Select(one => one.Code)))
                        )
                    );
                }

                var volume = FoodText.Volume(said, water);
                var kind = FoodText.Alga(said, alga);
                return Task.FromResult(
                    said.Wrong.Count > 0 || known is null || volume is not { } litres
                        ? sitting.NotUnderstood(said.Wrong)
                        : MediumRecipe.Of(known, litres, kind) switch
                        {
                            FeedingAnswer<MediumRecipe>.Found { Value: var recipe } => Answer(
                                sitting,
                                recipe
                            ),
                            FeedingAnswer<MediumRecipe>.Refused { Why: var why } => sitting.Refuse([why]),
                            _ => throw new InvalidOperationException("A recipe is found or refused."),
                        }
                );
            }
        );
    }

    private static int Answer(Sitting sitting, MediumRecipe recipe)
    {
        var saying = new Saying(sitting.Zone, null);
        return sitting.Answer(
            new MediumAnswer(
                recipe.Medium.Code,
                recipe.Water.Litres,
                recipe.Nitrogen.MilligramsPerLitre,
                [
                    .. recipe.Pours.Select(pour => new MediumPourJson(
                        EnumWords.Of(pour.Stock),
                        pour.Volume.Millilitres
                    )),
                ],
                [
                    .. recipe.Lines.Select(line => new MediumLineJson(
                        line.Substance.Formula,
                        line.Substance.Dissolved.MilligramsPerLitre,
                        line.Substance.MicromolesPerLitre,
                        line.Mass.Milligrams,
                        EnumWords.Of(line.Substance.Stock),
                        line.StockGramsPerLitre
                    )),
                ],
                [.. recipe.Remarks.Select(saying.Json)]
            ),
            CliJson.Default.MediumAnswer,
            page => Print(page, recipe, saying)
        );
    }

    private static void Print(Page page, MediumRecipe recipe, Saying saying)
    {
        page.Heading($"{recipe.Medium.Code} for {UnitNames.Litres(recipe.Water.Litres)} of sea water")
            .Facts(("Nitrogen", $"{Saying.Number(recipe.Nitrogen.MilligramsPerLitre)} mg/L"))
            .Line()
            .Table(
                ["pour of the stock", "mL"],
                recipe.Pours.Select(pour =>
                    (IReadOnlyList<string>)
                        [EnumWords.Plain(pour.Stock), Saying.Number(pour.Volume.Millilitres)]
                )
            )
            .Line()
            .Table(
                ["substance", "stock", "g/L of stock", "mg/L finished", "umol/L"],
                recipe.Lines.Select(line =>
                    (IReadOnlyList<string>)
                        [
                            line.Substance.Formula,
                            EnumWords.Plain(line.Substance.Stock),
                            Saying.Number(line.StockGramsPerLitre),
                            Saying.Number(line.Substance.Dissolved.MilligramsPerLitre),
                            Saying.Number(line.Substance.MicromolesPerLitre),
                        ]
                )
            )
            .Line();
        FoodText.Print(page, recipe.Remarks, saying);
    }
}
