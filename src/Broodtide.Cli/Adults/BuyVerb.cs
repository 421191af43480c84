using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Units;
using Broodtide.Workbench.Adults;

namespace Broodtide.Cli.Adults;

/// <summary>The chance of one number of animals.</summary>
internal sealed record BuyRowJson(int Animals, double Chance, double ChanceIfEven);

/// <summary>How many animals to buy.</summary>
internal sealed record BuyAnswer(
    double WantedChance,
    int Females,
    int Males,
    int Lots,
    int? Animals,
    int? AnimalsIfEven,
    int? AnimalsFromOneSidedLot,
    PointsJson FemaleShare,
    IReadOnlyList<BuyRowJson> Rows,
    IReadOnlyList<RemarkJson> Remarks,
    string Copper,
    string Disease
);

/// <summary>Tells how many unsexed animals to buy for both sexes.</summary>
internal static class BuyVerb
{
    public static Command Make()
    {
        var chance = Slot.Option("--chance", "The chance wanted, percent; 95 if left out.", "PERCENT");
        var females = Slot.Option("--females", "At least so many females; 1 if left out.", "N");
        var males = Slot.Option("--males", "At least so many males; 1 if left out.", "N");
        var lots = Slot.Option("--lots", "From how many shops or tanks in equal parts; 1 if left out.", "N");
        var species = Slot.Option("--species", "Scientific name; that of your animals if left out.", "NAME");
        return new VerbCommand(
            "buy",
            "How many unsexed animals to buy for a wanted chance of both sexes, where lots are graded by size.",
            ["buy", "buy --chance 90 --females 2 --lots 2 --json"],
            [chance, females, males, lots, species],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var wanted = Within(said, chance, said.Number(chance) ?? 95, 1, 99.99);
                var (f, m, n) = (
                    Within(said, females, said.Count(females) ?? 1, 0, 20),
                    Within(said, males, said.Count(males) ?? 1, 0, 20),
                    Within(said, lots, said.Count(lots) ?? 1, 1, 6)
                );
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                var buying = outlook.Buying(
                    new(Probability.FromPercent(wanted), (int)f, (int)m, (int)n),
                    said.Text(species)
                );
                return sitting.Answer(
                    Json(buying, saying),
                    CliJson.Default.BuyAnswer,
                    page => Print(page, buying, saying)
                );
            }
        );
    }

    private static double Within(Said said, Slot slot, double number, double least, double most)
    {
        if (number >= least && number <= most)
        {
            return number;
        }

        said.Add(
            new Remark("number-out-of-range", new("field", slot.Name), new("least", least), new("most", most))
        );
        return least;
    }

    private static BuyAnswer Json(BuyingBothSexes buying, Saying saying) =>
        new(
            buying.Wish.Chance.Value,
            buying.Wish.Females,
            buying.Wish.Males,
            buying.Wish.Lots,
            buying.Animals,
            buying.AnimalsIfEven,
            buying.AnimalsByLot.OneSidedLot,
            PointsJson.Of(buying.FemaleShare),
            [
                .. buying.Rows.Select(row => new BuyRowJson(
                    row.Animals,
                    row.Chance.Value,
                    row.ChanceIfEven.Value
                )),
            ],
            [.. buying.Remarks.Select(saying.Json)],
            Saying.Of(Workbench.Planning.CautionCode.Copper),
            Saying.Of(Workbench.Planning.CautionCode.Disease)
        );

    private static void Print(Page page, BuyingBothSexes buying, Saying saying)
    {
        static string Number(int? animals) => animals is { } known ? $"{known}" : "more than 100";
        page.Heading(
                $"{Saying.Percent(buying.Wish.Chance.Value)} chance of {buying.Wish.Females} female and {buying.Wish.Males} male or more"
            )
            .Facts(
                ("Buy", Number(buying.Animals)),
                ("If every lot were half and half", $"{Number(buying.AnimalsIfEven)} (too good)"),
                (
                    $"From a lot with {Saying.Percent(Math.Min(buying.FemaleShare.Low, 1 - buying.FemaleShare.High))} of one sex",
                    Number(buying.AnimalsByLot.OneSidedLot)
                )
            )
            .Line()
            .Table(
                ["animals", "chance", "if half and half"],
                buying.Rows.Select(row =>
                    (IReadOnlyList<string>)
                        [
                            $"{row.Animals}",
                            Saying.Percent(row.Chance.Value),
                            Saying.Percent(row.ChanceIfEven.Value),
                        ]
                )
            );
        foreach (var remark in buying.Remarks)
        {
            page.Line(saying.Of(remark));
        }

        page.Line($"Mind: {Saying.Of(Workbench.Planning.CautionCode.Copper)}")
            .Line($"Mind: {Saying.Of(Workbench.Planning.CautionCode.Disease)}")
            .Line($"Mind: {Saying.Of(Workbench.Planning.CautionCode.CollectingRules)}");
    }
}
