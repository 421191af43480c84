using Broodtide.Cli.BadDays;
using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Units;
using Broodtide.Workbench.Hatching;
using NodaTime.Text;

namespace Broodtide.Cli.Ahead;

/// <summary>Eggs off their mother.</summary>
internal sealed record DroppedEggsAnswer(
    string Brood,
    string Now,
    string Since,
    bool SupposedOffNow,
    string Worth,
    string WorthWords,
    SafetyInterval DevelopedShare,
    SafetyInterval? HatchingShare,
    double? HatchingShareOnMother,
    SafetyInterval? Larvae,
    double? WarmestWithoutLossCelsius,
    string Median,
    WindowJson Window90,
    IReadOnlyList<string> GatherAt,
    IReadOnlyList<RemarkJson> First,
    IReadOnlyList<string> Cautions,
    IReadOnlyList<RemarkJson> Assumes
);

/// <summary>Tells whether dropped eggs are worth it, what they want and when they hatch.</summary>
internal static class DroppedEggsVerb
{
    private static readonly LocalTimePattern Minute = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

    public static VerbCommand Make()
    {
        var brood = Slot.Word("BROOD", "Which one.");
        var asleep = Slot.Option(
            "--asleep",
            "When you sleep, over midnight too; 23-7 if left out.",
            "FROM-UNTIL"
        );
        return new(
            "dropped-eggs",
            "Eggs off their mother, or as if they came off now: is it worth it, what they want, when they hatch, when to gather.",
            ["dropped-eggs \"Brood 3\"", "dropped-eggs \"Brood 3\" --asleep 22-6 --json"],
            [brood, asleep],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var id = said.TheBrood(brood);
                KeeperHours? hours = null;
                if (said.Text(asleep) is { } typed)
                {
                    var read = KeeperHours.Read(typed, asleep.Name);
                    hours = said.Take(read) ? new([read.Value]) : null;
                }

                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                if (DroppedEggs.Of(outlook, id, hours) is not { } eggs)
                {
                    return sitting.Refuse([new Remark("eggs-never-seen", new Argument("brood", id))], saying);
                }

                var answer = Json(said.TheText(brood), eggs, saying);
                return sitting.Answer(
                    answer,
                    CliJson.Default.DroppedEggsAnswer,
                    page => Print(page, answer, eggs, saying)
                );
            }
        );
    }

    private static DroppedEggsAnswer Json(string brood, DroppedEggs eggs, Saying saying) =>
        new(
            brood,
            Saying.Iso(eggs.Forecast.Now),
            Saying.Iso(eggs.Since),
            eggs.IsSupposed,
            EnumWords.Of(eggs.Worth),
            Saying.Of(eggs.Worth),
            SafetyInterval.Of(eggs.DevelopedShare),
            eggs.HatchingShare is { } share ? SafetyInterval.Of(share) : null,
            eggs.OnMother?.Value,
            eggs.Larvae is { } larvae ? SafetyInterval.Of(larvae) : null,
            eggs.WarmestWithoutLoss?.Value,
            Saying.Iso(eggs.Forecast.Median),
            new(
                Saying.Iso(eggs.Forecast.Window90.From),
                Saying.Iso(eggs.Forecast.Window90.To),
                eggs.Forecast.Window90.Days
            ),
            [.. eggs.GatherAt.Select(Minute.Format)],
            BadDayVerb.Json(eggs.First, saying),
            BadDayVerb.Cautions(eggs.Cautions),
            BadDayVerb.Json(eggs.Assumed, saying)
        );

    private static void Print(Page page, DroppedEggsAnswer answer, DroppedEggs eggs, Saying saying)
    {
        page.Heading($"Dropped eggs of {answer.Brood}").Line(answer.WorthWords);
        if (answer.HatchingShare is { } share)
        {
            page.Line(
                $"About {Saying.Percent(share.Middle)} hatch ({Saying.Percent(share.Low)} to {Saying.Percent(share.High)}); "
                    + $"they were {Saying.Percent(answer.DevelopedShare.Middle)} developed ({Saying.Percent(answer.DevelopedShare.Low)} to {Saying.Percent(answer.DevelopedShare.High)})."
            );
        }

        if (answer.Larvae is { } larvae)
        {
            page.Line(
                $"Larvae to expect: {Math.Round(larvae.Middle)} ({Math.Round(larvae.Low)} to {Math.Round(larvae.High)})."
            );
        }

        page.Line(
                $"First larvae: as likely before as after {saying.Time(eggs.Forecast.Median)}; nine chances in ten {saying.Time(eggs.Forecast.Window90.From)} to {saying.Time(eggs.Forecast.Window90.To)}."
            )
            .Line($"Gather then at {string.Join(", ", answer.GatherAt)}.")
            .Line();
        BadDayVerb.PrintFirst(page, answer.First, answer.Cautions);
        BadDayVerb.PrintAssumed(page, answer.Assumes);
    }
}
