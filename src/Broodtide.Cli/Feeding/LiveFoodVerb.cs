using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Species;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Workbench.Feeding;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Cli.Feeding;

/// <summary>One stage of a schedule.</summary>
internal sealed record LiveStageJson(string Stage, string? From, string? To, bool Given);

/// <summary>Live food a day and what it takes.</summary>
internal sealed record LiveFoodAnswer(
    string Food,
    string FromStage,
    PointsJson AnimalsPerMillilitre,
    PointsJson AnimalsPerDay,
    double? CystsGramsPerDay,
    double? HatcheryAtLeastLitres,
    double? RotiferCultureLitres,
    double? FreshYeastGramsPerDay,
    IReadOnlyList<LiveStageJson> Stages,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>Rotifers and brine shrimps.</summary>
internal static class LiveFoodVerb
{
    public static Command Make()
    {
        var food = Slot.Word("FOOD", $"The food: {EnumWords.All<LiveFoodKind>()}.");
        var water = Slot.Word("WATER", "Water of the larvae, such as \"7 L\".");
        var stage = Slot.Option("--stage", "Stage that most larvae are in, such as Z3.", "STAGE");
        var hatched = Slot.Option("--hatched", "When they hatched, for dates.", "TIME");
        var from = Slot.Option(
            "--from",
            "The first stage that takes it, if you saw them eat it earlier or later.",
            "STAGE"
        );
        var culture = Slot.Option(
            "--rotifers-per-ml",
            "Rotifers a mL in your culture; 150 if left out.",
            "NUMBER"
        );
        var species = SpeciesSlot.Make();
        return new VerbCommand(
            "live",
            "Rotifers or brine shrimps by larval stage: from when, how many a day, and the culture or cysts behind them.",
            [
                "food live rotifers \"7 L\" --stage Z3",
                "food live artemia \"7 L\" --hatched 2026-03-01 --json",
            ],
            [food, water, stage, hatched, from, culture, species],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var said = new Said(sitting, outlook.House);
                var profile = SpeciesSlot.Read(said, species, outlook.Profiles);
                var kind = said.TheMember<LiveFoodKind>(food);
                var volume = FoodText.Volume(said, water);
                var now = Stage(said, stage);
                var first = Stage(said, from);
                var day = said.Time(hatched)?.Middle.InZone(sitting.Zone).Date;
                var dense = FoodText.Number(said, culture, 1, 1e4);
                if (said.Wrong.Count > 0 || volume is not { } litres)
                {
                    return sitting.NotUnderstood(said.Wrong);
                }

                var order = new LiveFeedingOrder
                {
                    Vessel = litres,
                    Food = kind,
                    Profile = profile,
                    Stage = now,
                    Hatched = day,
                    FromStage = first,
                };
                order = dense is { } perMillilitre
                    ? order with
                    {
                        RotiferCulturePerMillilitre = perMillilitre,
                    }
                    : order;
                return LiveFeeding.Plan(order) switch
                {
                    FeedingAnswer<LiveFeeding>.Found { Value: var feeding } => Answer(sitting, feeding),
                    FeedingAnswer<LiveFeeding>.Refused { Why: var why } => sitting.Refuse([why]),
                    _ => throw new InvalidOperationException("A schedule is found or refused."),
                };
            }
        );
    }

    // "Z3" or "3".
    private static int? Stage(Said said, Slot slot)
    {
        if (said.Text(slot) is not { } text)
        {
            return null;
        }

        if (int.TryParse(text.TrimStart('Z', 'z'), out var number) && number is >= 1 and <= 30)
        {
            return number;
        }

        said.Add(FoodText.Impossible(slot.Name, text, 30, 1));
        return null;
    }

    private static int Answer(Sitting sitting, LiveFeeding feeding)
    {
        var saying = new Saying(sitting.Zone, null);
        return sitting.Answer(
            new LiveFoodAnswer(
                EnumWords.Of(feeding.Gate.Food),
                $"Z{feeding.Gate.FromStage}",
                PointsJson.Of(feeding.Gate.PerMillilitre),
                PointsJson.Of(feeding.AnimalsPerDay),
                feeding.CystsPerDay?.Grams,
                feeding.HatcheryAtLeast?.Litres,
                feeding.Culture?.Litres,
                feeding.YeastPerDay?.Grams,
                [
                    .. feeding.Stages.Select(stage => new LiveStageJson(
                        $"Z{stage.Stage}",
                        Day(stage.From),
                        Day(stage.To),
                        stage.Given
                    )),
                ],
                [.. feeding.Remarks.Select(saying.Json)]
            ),
            CliJson.Default.LiveFoodAnswer,
            page => Print(page, feeding, saying)
        );
    }

    private static void Print(Page page, LiveFeeding feeding, Saying saying)
    {
        var animals = feeding.AnimalsPerDay;
        page.Facts(
                ("From stage", $"Z{feeding.Gate.FromStage}"),
                (
                    "A day",
                    $"{Saying.Number(FoodText.Rounded(animals.Middle))} {EnumWords.Plain(feeding.Gate.Food)} ({Saying.Number(FoodText.Rounded(animals.Low))} to {Saying.Number(FoodText.Rounded(animals.High))}), less what still swims"
                ),
                (
                    "Cysts a day",
                    feeding.CystsPerDay is { } cysts
                        ? $"{Saying.Number(FoodText.Rounded(cysts.Grams))} g, set a day before"
                        : null
                ),
                (
                    "Hatching bottle",
                    feeding.HatcheryAtLeast is { } bottle
                        ? $"{UnitNames.Litres(bottle.Litres)} at least"
                        : null
                ),
                (
                    "Rotifer culture",
                    feeding.Culture is { } culture
                        ? $"{UnitNames.Litres(FoodText.Rounded(culture.Litres))}, a quarter of it taken a day"
                        : null
                ),
                (
                    "Its fresh yeast",
                    feeding.YeastPerDay is { } yeast
                        ? $"{Saying.Number(FoodText.Rounded(yeast.Grams))} g a day, if it has no algae"
                        : null
                )
            )
            .Line()
            .Table(
                ["stage", "between", "and", "given"],
                feeding.Stages.Select(stage =>
                    (IReadOnlyList<string>)
                        [
                            $"Z{stage.Stage}",
                            Day(stage.From) ?? "",
                            Day(stage.To) ?? "",
                            stage.Given ? "yes" : "no",
                        ]
                )
            )
            .Line();
        FoodText.Print(page, feeding.Remarks, saying);
    }

    private static string? Day(LocalDate? date) =>
        date is { } known ? LocalDatePattern.Iso.Format(known) : null;
}
