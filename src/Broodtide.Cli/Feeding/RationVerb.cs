using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Feeding;
using Broodtide.Workbench.Mixing;
using Broodtide.Workbench.Safety;

namespace Broodtide.Cli.Feeding;

/// <summary>A ration a day and what it does.</summary>
internal sealed record RationAnswer(
    double GivenMilligramsPerDay,
    double MostMilligramsPerDay,
    double DryMilligramsPerLitreDay,
    double OxygenDemandMilligramsPerLitreDay,
    double? OxygenShareOfSaturation,
    PointsJson NitrogenMilligramsPerLitreDay,
    PointsJson TanAfterTenDaysMilligramsPerLitre,
    double LikeTetraselmisPerMillilitre,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>Yeast and powder.</summary>
internal static class RationVerb
{
    public static Command Make()
    {
        var vessel = Slot.Word("WATER", $"The vessel's water: {WaterText.Form}.");
        var kind = Slot.Word(
            "FOOD",
            $"The food: {EnumWords.All<DryFoodKind>()}, or the name of a feed described in the journal."
        );
        var given = Slot.Option(
            "--give",
            "What is meant to be given a day; else what needs no warning.",
            "MASS"
        );
        var air = Slot.Option(
            "--air",
            "Whether air runs day and night: yes or no; no if left out.",
            "YES|NO"
        );
        var protein = Slot.Option("--protein", "Protein as the pack says; else the usual.", "PERCENT");
        var moisture = Slot.Option("--moisture", "Water as the pack says; 10 % if left out.", "PERCENT");
        return new VerbCommand(
            "ration",
            "How much yeast or powder a vessel stands a day, and what it does to oxygen and ammonia where nobody eats it.",
            [
                "food ration \"6 L; 30; 24 C\" dry-yeast",
                "food ration \"6 L; 30; 24 C\" powder --give 20mg --protein 52 --moisture 8 --json",
            ],
            [vessel, kind, given, air, protein, moisture],
            async sitting =>
            {
                var said = new Said(sitting, new Domain.House(new Domain.Journal.Account()));
                var water = WaterText.The(said, vessel, SaltProduct.Unmeasured);
                var feed = await DescribedAsync(sitting, said.TheText(kind));
                var food = feed is null ? said.TheMember<DryFoodKind>(kind) : DryFood.KindOf(feed);
                var mass = FoodText.Mass(said, given);
                var aerated = said.YesNo(air) ?? false;
                var share = FoodText.Share(said, protein, 0, 100);
                var wet = FoodText.Share(said, moisture, 0, 99);
                if (food is null)
                {
                    said.Add(new Remark("ration-feed-lives", new Argument("name", feed!.Name)));
                }

                if (said.Wrong.Count > 0 || food is not { } dry)
                {
                    return sitting.NotUnderstood(said.Wrong);
                }

                var order = new RationOrder
                {
                    Vessel = water,
                    Kind = dry,
                    Food =
                        share is { } pack
                            ? DryFood.FromPack(
                                Probability.FromFraction(pack),
                                Probability.FromFraction(wet ?? 0.1)
                            )
                        : feed is null ? null
                        : DryFood.Described(feed, dry),
                    Given = mass,
                    Aerated = aerated,
                };
                return Ration.Plan(order) switch
                {
                    FeedingAnswer<Ration>.Found { Value: var ration } => Answer(sitting, ration),
                    FeedingAnswer<Ration>.Refused { Why: var why } => sitting.Refuse([why]),
                    _ => throw new InvalidOperationException("A ration is found or refused."),
                };
            }
        );
    }

    // The usual foods need no journal.
    private static async Task<FeedDescribed?> DescribedAsync(Sitting sitting, string name) =>
        Enum.GetValues<DryFoodKind>().Any(known => EnumWords.Of(known) == name)
            ? null
            : FoodComposition.Find((await sitting.LookAsync()).House, name);

    private static int Answer(Sitting sitting, Ration ration)
    {
        var saying = new Saying(sitting.Zone, null);
        return sitting.Answer(
            new RationAnswer(
                ration.Given.Milligrams,
                ration.Most.Milligrams,
                ration.Dry.MilligramsPerLitre,
                ration.OxygenDemand.MilligramsPerLitre,
                ration.OxygenShare,
                PointsJson.Of(ration.NitrogenMilligramsPerLitre),
                PointsJson.Of(ration.TanAfterTenDays),
                ration.LikeAlga.PerMillilitre,
                [.. ration.Remarks.Select(saying.Json)]
            ),
            CliJson.Default.RationAnswer,
            page =>
            {
                page.Facts(
                    ("Give a day", $"{Milligrams(ration.Given)}, never more than {Milligrams(ration.Most)}"),
                    ("Dry", $"{Saying.Number(ration.Dry.MilligramsPerLitre)} mg/L"),
                    (
                        "Uneaten, oxygen",
                        $"{Saying.Number(Math.Round(ration.OxygenDemand.MilligramsPerLitre, 2))} mg/L a day"
                            + (
                                ration.OxygenShare is { } part
                                    ? $", {Saying.Percent(part)} of all it holds"
                                    : ""
                            )
                    ),
                    (
                        "Uneaten, nitrogen",
                        $"{Saying.Number(Math.Round(ration.NitrogenMilligramsPerLitre.Middle, 3))} mg/L a day ({Saying.Number(Math.Round(ration.NitrogenMilligramsPerLitre.Low, 3))} to {Saying.Number(Math.Round(ration.NitrogenMilligramsPerLitre.High, 3))})"
                    ),
                    (
                        "Ten days so",
                        $"{Saying.Number(Math.Round(ration.TanAfterTenDays.Middle, 2))} mg/L TAN-N in clear water never changed ({Saying.Number(Math.Round(ration.TanAfterTenDays.Low, 2))} to {Saying.Number(Math.Round(ration.TanAfterTenDays.High, 2))})"
                    ),
                    (
                        "As much as",
                        $"{FoodText.Cells(ration.LikeAlga.PerMillilitre)} cells/mL of Tetraselmis, by dry mass"
                    )
                );
                FoodText.Print(page, ration.Remarks, saying);
            }
        );
    }

    private static string Milligrams(Mass mass) => $"{Saying.Number(FoodText.Rounded(mass.Milligrams))} mg";
}
