using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Units;
using Broodtide.Workbench.Settling;

namespace Broodtide.Cli.Settling;

/// <summary>A care card, or all givings where none was named.</summary>
internal sealed record CardAnswer(
    IReadOnlyList<GiftJson> Gifts,
    string? Card,
    string? Species,
    string? Generation,
    string? Hatched,
    double? LeastDaysInFreshWater,
    double? MostDaysInFreshWater,
    double? HardnessMilligramsPerLitre,
    string? Food,
    IReadOnlyList<RemarkJson> Remarks,
    string? File
);

/// <summary>Makes the card that goes with juveniles.</summary>
internal static class CardVerb
{
    public static Command Make()
    {
        var code = Slot.MaybeWord(
            "CARD",
            "Code of the card; all that were given away are listed if left out."
        );
        var generation = Slot.Option("--generation", "How far from the wild, such as F1.", "TEXT");
        var hardness = Slot.Option("--hardness", "Hardness of their water, such as \"8 dH\".", "HARDNESS");
        var food = Slot.Option("--food", "What they eat.", "TEXT");
        var file = Slot.Option("--out", "Write the card as a page to print.", "FILE");
        return new VerbCommand(
            "card",
            "The care card that goes with juveniles: what they are, how they lived, how to keep them, and the code by which their survival comes back.",
            ["return card", "return card --json"],
            [code, generation, hardness, food, file],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var wishes = new CareWishes
                {
                    Generation = said.Text(generation),
                    HardnessMilligramsPerLitre = ReturnPlanVerb.Hardness(said, hardness),
                    Food = said.Text(food),
                };
                var gifts = NurseryBook.GiftsOf(outlook.House);
                var gift = Chosen(said, code, gifts);
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                if (gift is null)
                {
                    return sitting.Answer(
                        new CardAnswer(
                            [.. gifts.Select(it => NurseryVerb.Of(it, saying))],
                            null,
                            null,
                            null,
                            null,
                            null,
                            null,
                            null,
                            null,
                            [],
                            null
                        ),
                        CliJson.Default.CardAnswer,
                        page => PrintList(page, gifts, saying)
                    );
                }

                var card = CareCard.Of(outlook.House, outlook.Profiles, gift, wishes);
                if (said.Text(file) is { } path)
                {
                    if (File.Exists(path))
                    {
                        return sitting.Refuse(
                            [new Remark("file-is-there", new Argument("file", path))],
                            saying
                        );
                    }

                    await File.WriteAllTextAsync(path, CardPage.Of(card, saying), sitting.Cancellation);
                }

                return sitting.Answer(
                    Of(card, gifts, saying, said.Text(file)),
                    CliJson.Default.CardAnswer,
                    page => Print(page, card, saying, said.Text(file))
                );
            }
        );
    }

    internal static IEnumerable<(string What, string? Value)> Lines(CareCard card, Saying saying) =>
        [
            ("Species", card.IsSpeciesKnown ? card.Species : $"{card.Species} (not named by the keeper)"),
            ("Juveniles", $"{card.Gift.Number}"),
            ("Left on", saying.Day(card.Gift.When.Middle)),
            ("Generation", card.Wishes.Generation ?? "not known"),
            ("Came into the sea", card.Hatched is { } hatched ? saying.Day(hatched) : "not known"),
            ("In fresh water", Days(card)),
            (
                "Hardness",
                card.Wishes.HardnessMilligramsPerLitre is { } hard
                    ? $"{Saying.Number(hard)} mg/L calcium carbonate, {Saying.Number(Math.Round(hard / HardnessText.MilligramsPerGermanDegree, 1))} German degrees"
                    : "not measured"
            ),
            ("Food", card.Wishes.Food),
            ("Code", card.Gift.Code.Text),
        ];

    private static string Days(CareCard card) =>
        card.DaysInFreshWater is not { } days ? "not known"
        : Math.Round(days.Least) == Math.Round(days.Most) ? $"{Saying.Number(Math.Round(days.Most))} days"
        : $"{Saying.Number(Math.Round(days.Least))} to {Saying.Number(Math.Round(days.Most))} days";

    private static Gift? Chosen(Said said, Slot slot, IReadOnlyList<Gift> gifts)
    {
        if (said.Text(slot) is not { } text)
        {
            return null;
        }

        if (CareCode.Read(text) is not { } code)
        {
            said.Add(new Remark("survival-code-wrong", new Argument("typed", text)));
            return null;
        }

        var gift = gifts.FirstOrDefault(it => it.Code == code);
        if (gift is null)
        {
            said.Add(new Remark("survival-code-of-no-card", new Argument("card", code.Text)));
        }

        return gift;
    }

    private static CardAnswer Of(CareCard card, IReadOnlyList<Gift> gifts, Saying saying, string? file) =>
        new(
            [
                .. gifts
                    .Where(gift => gift.Code == card.Gift.Code)
                    .Select(gift => NurseryVerb.Of(gift, saying)),
            ],
            card.Gift.Code.Text,
            card.Species,
            card.Wishes.Generation,
            card.Hatched is { } hatched ? saying.Day(hatched) : null,
            card.DaysInFreshWater?.Least,
            card.DaysInFreshWater?.Most,
            card.Wishes.HardnessMilligramsPerLitre,
            card.Wishes.Food,
            [.. card.Remarks.Select(saying.Json)],
            file
        );

    private static void PrintList(Page page, IReadOnlyList<Gift> gifts, Saying saying)
    {
        page.Heading("Juveniles given away");
        if (gifts.Count == 0)
        {
            page.Line("None were given away: `write given-away` tells of some.");
            return;
        }

        page.Table(
            ["card", "given", "number", "to", "heard alive"],
            gifts
                .Select(gift => NurseryVerb.Of(gift, saying))
                .Select(gift =>
                    (IReadOnlyList<string>)
                        [
                            gift.Card,
                            gift.When,
                            $"{gift.Number}",
                            gift.To ?? "",
                            gift.LastHeardAlive is { } heard ? $"{heard}" : "",
                        ]
                )
        );
    }

    private static void Print(Page page, CareCard card, Saying saying, string? file)
    {
        page.Heading($"Care card {card.Gift.Code.Text}");
        page.Facts([.. Lines(card, saying)]);
        foreach (var remark in card.Remarks)
        {
            page.Line(saying.Of(remark));
        }

        page.Line(saying.Of(new Remark("card-send-back", new Argument("card", card.Gift.Code.Text))));
        if (file is not null)
        {
            page.Line($"The card is in {file}.");
        }
    }
}
