using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Units;
using Broodtide.Workbench.Population;
using Broodtide.Workbench.Settling;

namespace Broodtide.Cli.Settling;

/// <summary>Numbers with their 5 and 95 % points.</summary>
internal sealed record CountsJson(double Low, double Middle, double High);

/// <summary>An uncertain day.</summary>
internal sealed record DaysJson(string Early, string Middle, string Late);

/// <summary>When to look, and for what.</summary>
internal sealed record WatchAnswer(
    string Vessel,
    DaysJson First,
    DaysJson Tenth,
    DaysJson Half,
    DaysJson NineTenths,
    CountsJson Settled,
    CountsJson Zoeae,
    double SettledSharePercent,
    IReadOnlyList<string> Signs,
    string? FirstSeen,
    string NotGivenUpBefore,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>Tells when larvae settle and what to look for.</summary>
internal static class WatchVerb
{
    public static Command Make()
    {
        var vessel = Slot.Word("VESSEL", "The larval vessel.");
        return new VerbCommand(
            "watch",
            "When to look for settled ones, what is seen of them, and what a look does not tell.",
            ["return watch \"Jar A\"", "return watch \"Jar A\" --json"],
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

                if (SettlementWatch.Of(outlook, id) is not { } watch)
                {
                    return sitting.Refuse([new Remark("return-larvae-not-known")], saying);
                }

                var answer = new WatchAnswer(
                    said.TheText(vessel),
                    Of(watch.Settlement.First, saying),
                    Of(watch.Settlement.Tenth, saying),
                    Of(watch.Settlement.Half, saying),
                    Of(watch.Settlement.NineTenths, saying),
                    Of(watch.Now.Settled),
                    Of(watch.Now.Zoeae),
                    Math.Round(100 * watch.Now.SettledShare, 1),
                    [.. watch.Signs.Select(sign => sign.Code)],
                    watch.FirstSeen is { } seen ? saying.Time(seen) : null,
                    saying.Day(watch.NotGivenUpBefore),
                    [.. watch.Remarks.Select(saying.Json)]
                );
                return sitting.Answer(
                    answer,
                    CliJson.Default.WatchAnswer,
                    page => Print(page, answer, [.. watch.Remarks.Select(saying.Of)])
                );
            }
        );
    }

    internal static CountsJson Of(Interval interval) => new(interval.Low, interval.Middle, interval.High);

    internal static string Told(CountsJson counts) =>
        $"{Saying.Number(counts.Middle)} ({Saying.Number(counts.Low)} to {Saying.Number(counts.High)})";

    private static DaysJson Of(InstantRange range, Saying saying) =>
        new(saying.Day(range.Early), saying.Day(range.Middle), saying.Day(range.Late));

    private static string Told(DaysJson days) => $"{days.Middle} ({days.Early} to {days.Late})";

    private static void Print(Page page, WatchAnswer answer, IReadOnlyList<string> remarks)
    {
        page.Heading($"Settlement in {answer.Vessel}");
        page.Facts(
            ("First settles", Told(answer.First)),
            ("One in ten", Told(answer.Tenth)),
            ("Half", Told(answer.Half)),
            ("Nine in ten", Told(answer.NineTenths)),
            ("Settled now", Told(answer.Settled)),
            ("Zoeae now", Told(answer.Zoeae)),
            ("First seen", answer.FirstSeen),
            ("Look for", string.Join(", ", answer.Signs.Select(sign => sign.Replace('-', ' '))))
        );
        foreach (var remark in remarks)
        {
            page.Line(remark);
        }
    }
}
