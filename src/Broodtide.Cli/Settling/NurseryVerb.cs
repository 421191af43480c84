using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Units;
using Broodtide.Workbench.Settling;

namespace Broodtide.Cli.Settling;

/// <summary>A count of a nursery.</summary>
internal sealed record NurseryCountJson(string When, int Seen, string Method, CountsJson Lived);

/// <summary>Juveniles that left, and what was heard of them.</summary>
internal sealed record GiftJson(string Card, string When, int Number, string? To, int? LastHeardAlive);

/// <summary>The juveniles of a vessel.</summary>
internal sealed record NurseryAnswer(
    string Vessel,
    int? Came,
    IReadOnlyList<NurseryCountJson> Counts,
    CountsJson? Alive,
    CountsJson? SurvivedPercent,
    double? LengthFromMillimetres,
    double? LengthToMillimetres,
    string? AdultFrom,
    string? AdultBy,
    IReadOnlyList<GiftJson> Gifts
);

/// <summary>Tells of juveniles in fresh water.</summary>
internal static class NurseryVerb
{
    public static Command Make()
    {
        var vessel = Slot.Word("VESSEL", "The nursery, or a vessel diluted to fresh water.");
        return new VerbCommand(
            "nursery",
            "Juveniles in fresh water: how many came, were counted and live, how long they are by the reports, and who has some.",
            ["return nursery \"River tank\"", "return nursery \"River tank\" --json"],
            [vessel],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var id = said.TheVessel(vessel);
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                var profile = outlook.Profiles.Of(outlook.House.Vessel(id));
                var book = NurseryBook.Of(outlook.House, id, profile, outlook.Now);
                var answer = Of(book, said.TheText(vessel), saying);
                return sitting.Answer(
                    answer,
                    CliJson.Default.NurseryAnswer,
                    page => Print(page, answer, book is null)
                );
            }
        );
    }

    internal static GiftJson Of(Gift gift, Saying saying) =>
        new(
            gift.Code.Text,
            saying.Time(gift.When.Middle),
            gift.Number,
            gift.To,
            gift.Heard.Count > 0 ? gift.Heard[^1].Told.Alive : null
        );

    private static NurseryAnswer Of(NurseryBook? book, string vessel, Saying saying) =>
        new(
            vessel,
            book is { Home: var home } && home.All(it => it.Number is not null)
                ? home.Sum(it => it.Number!.Value)
                : null,
            [
                .. (book?.Counts ?? []).Select(count => new NurseryCountJson(
                    saying.Time(count.When.Middle),
                    count.Seen,
                    EnumWords.Of(count.Method),
                    WatchVerb.Of(count.Lived)
                )),
            ],
            book?.Alive is { } alive ? WatchVerb.Of(alive) : null,
            book?.SurvivedShare is { } share ? WatchVerb.Of(Percent(share)) : null,
            book?.LengthMillimetres?.Low,
            book?.LengthMillimetres?.High,
            book?.AdultFrom is { } adult ? saying.Day(adult.Early) : null,
            book?.AdultFrom is { } by ? saying.Day(by.Late) : null,
            [.. (book?.Gifts ?? []).Select(gift => Of(gift, saying))]
        );

    private static Interval Percent(Interval share) =>
        Interval.FromPoints(
            Math.Round(100 * share.Low, 1),
            Math.Round(100 * share.Middle, 1),
            Math.Round(100 * share.High, 1)
        );

    private static void Print(Page page, NurseryAnswer answer, bool isEmpty)
    {
        page.Heading($"Juveniles in {answer.Vessel}");
        if (isEmpty)
        {
            page.Line("No juveniles came here, were counted or left.");
            return;
        }

        page.Facts(
            ("Came", answer.Came is { } came ? $"{came}" : "number not written"),
            ("Alive now", answer.Alive is { } alive ? WatchVerb.Told(alive) : null),
            (
                "Alive or given away",
                answer.SurvivedPercent is { } share ? $"{WatchVerb.Told(share)} %" : null
            ),
            (
                "Length by the reports",
                answer.LengthFromMillimetres is { } low
                    ? $"{Saying.Number(low)} to {Saying.Number(answer.LengthToMillimetres!.Value)} mm"
                    : null
            ),
            ("Adult", answer.AdultFrom is { } from ? $"{from} to {answer.AdultBy}" : null)
        );
        page.Table(
            ["counted", "seen", "how", "lived"],
            answer.Counts.Select(count =>
                (IReadOnlyList<string>)
                    [count.When, $"{count.Seen}", count.Method, WatchVerb.Told(count.Lived)]
            )
        );
        page.Table(
            ["given away", "number", "to", "card", "heard alive"],
            answer.Gifts.Select(gift =>
                (IReadOnlyList<string>)
                    [
                        gift.When,
                        $"{gift.Number}",
                        gift.To ?? "",
                        gift.Card,
                        gift.LastHeardAlive is { } heard ? $"{heard}" : "",
                    ]
            )
        );
    }
}
