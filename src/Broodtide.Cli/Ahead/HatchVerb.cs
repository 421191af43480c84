using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Units;
using Broodtide.Workbench.Hatching;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Cli.Ahead;

/// <summary>A stretch of time.</summary>
internal sealed record WindowJson(string From, string To, double LengthDays);

/// <summary>One night.</summary>
internal sealed record NightJson(string Evening, string From, string To, double Chance);

/// <summary>Both risks of one evening.</summary>
internal sealed record IsolationJson(
    string Evening,
    double ChanceLarvaeFirst,
    double DaysInBox,
    double ChanceHarmInBox,
    double ExpectedLossShare
);

/// <summary>What moved the forecast.</summary>
internal sealed record MovedJson(
    string Since,
    double LaterByDays,
    double NarrowedByDays,
    IReadOnlyList<MoveReasonJson> Reasons
);

/// <summary>One reason.</summary>
internal sealed record MoveReasonJson(string What, string When, double LaterByDays, double NarrowedByDays);

/// <summary>The hatch forecast of a brood.</summary>
internal sealed record HatchAnswer(
    string Brood,
    string Now,
    string Median,
    WindowJson Window50,
    WindowJson Window90,
    double ChanceOutAlready,
    IReadOnlyList<NightJson> Nights,
    string Advice,
    string AdviceWords,
    IReadOnlyList<IsolationJson> Isolation,
    MovedJson? Moved,
    string WarmthSource,
    double WarmthCelsius,
    double WarmthSdCelsius,
    int WarmthReadings,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>Tells when a brood hatches.</summary>
internal static class HatchVerb
{
    public static Command Make()
    {
        var brood = Slot.Word("BROOD", "Which one.");
        return new VerbCommand(
            "hatch",
            "When a brood will hatch: the chance of every night, both windows, both risks of putting her alone.",
            ["hatch \"Brood 3\"", "hatch \"Brood 3\" --json"],
            [brood],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var id = said.TheBrood(brood);
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                if (outlook.ForecastOf(id) is not { } forecast)
                {
                    return sitting.Refuse(
                        [new Remark("brood-never-seen", new Argument("brood", id))],
                        saying
                    );
                }

                return sitting.Answer(
                    Json(said.TheText(brood), forecast, saying),
                    CliJson.Default.HatchAnswer,
                    page => Print(page, said.TheText(brood), forecast, saying)
                );
            }
        );
    }

    private static HatchAnswer Json(string brood, BroodForecast forecast, Saying saying) =>
        new(
            brood,
            Saying.Iso(forecast.Now),
            Saying.Iso(forecast.Median),
            Window(forecast.Window50),
            Window(forecast.Window90),
            forecast.OutAlready.Value,
            [
                .. forecast.Nights.Select(night => new NightJson(
                    Iso(night.Evening),
                    Saying.Iso(night.From),
                    Saying.Iso(night.To),
                    night.Chance.Value
                )),
            ],
            EnumWords.Of(forecast.Isolation.Code),
            Advice(forecast),
            [
                .. forecast.Isolation.Evenings.Select(evening => new IsolationJson(
                    Iso(evening.Evening),
                    evening.LarvaeFirst.Value,
                    evening.DaysInBox,
                    evening.HarmInBox.Value,
                    evening.ExpectedLossShare
                )),
            ],
            forecast.Moved is { } moved
                ? new MovedJson(
                    Saying.Iso(moved.Since),
                    moved.LaterByDays,
                    moved.NarrowedByDays,
                    [
                        .. moved.Reasons.Select(reason => new MoveReasonJson(
                            EnumWords.Of(reason.Code),
                            Saying.Iso(reason.When),
                            reason.LaterByDays,
                            reason.NarrowedByDays
                        )),
                    ]
                )
                : null,
            EnumWords.Of(forecast.Warmth.Source),
            forecast.Warmth.Mean.Celsius,
            forecast.Warmth.Sd.Celsius,
            forecast.Warmth.ReadingCount,
            [.. forecast.Remarks.Select(saying.Json)]
        );

    private static void Print(Page page, string brood, BroodForecast forecast, Saying saying)
    {
        page.Heading($"Hatch of {brood}")
            .Facts(
                ("Larvae seen", forecast.SeenHatching is { } seen ? saying.Time(seen) : null),
                ("As likely before as after", saying.Time(forecast.Median)),
                (
                    "One chance in two",
                    $"{saying.Time(forecast.Window50.From)} to {saying.Time(forecast.Window50.To)}"
                ),
                (
                    "Nine chances in ten",
                    $"{saying.Time(forecast.Window90.From)} to {saying.Time(forecast.Window90.To)}"
                ),
                ("Out already", Saying.Percent(forecast.OutAlready.Value)),
                (
                    "Warmth",
                    $"{forecast.Warmth.ReadingCount} readings followed her; else {Saying.Number(forecast.Warmth.Mean.Celsius)} ± "
                        + $"{Saying.Number(forecast.Warmth.Sd.Celsius)} °C is assumed ({EnumWords.Plain(forecast.Warmth.Source)})"
                ),
                ("Advice", Advice(forecast))
            );
        if (forecast.Moved is { } moved)
        {
            page.Line().Line(Moved(moved, saying));
        }

        page.Line()
            .Table(
                ["night of", "chance", ""],
                forecast
                    .Nights.Where(night => night.Chance.Value >= 0.005)
                    .Select(night =>
                        (IReadOnlyList<string>)
                            [
                                Iso(night.Evening),
                                Saying.Percent(night.Chance.Value),
                                new string('#', (int)Math.Round(40 * night.Chance.Value)),
                            ]
                    )
            );
        page.Line("Every other night: under 1 %.");
        if (forecast.Isolation.Evenings.Count > 0)
        {
            page.Line()
                .Table(
                    [
                        "alone from",
                        "larvae before (too late)",
                        "days in the box",
                        "drop or moult (too early)",
                        "loss",
                    ],
                    forecast.Isolation.Evenings.Select(evening =>
                        (IReadOnlyList<string>)
                            [
                                Iso(evening.Evening),
                                Saying.Percent(evening.LarvaeFirst.Value),
                                Saying.Number(evening.DaysInBox),
                                Saying.Percent(evening.HarmInBox.Value),
                                Saying.Percent(evening.ExpectedLossShare),
                            ]
                    )
                );
        }

        foreach (var remark in forecast.Remarks)
        {
            page.Line(saying.Of(remark));
        }
    }

    private static string Advice(BroodForecast forecast) =>
        Saying.Of(forecast.Isolation.Code)
        + (
            forecast.Isolation.Code is Science.Development.IsolationCode.IsolateOn
                ? $" {Iso(forecast.Isolation.Evening)}"
                : ""
        );

    private static string Moved(HatchMove moved, Saying saying)
    {
        if (moved.Reasons.Count == 0)
        {
            return $"Nothing new since {saying.Time(moved.Since)}.";
        }

        var way = moved.LaterByDays >= 0 ? "later" : "earlier";
        return $"Since {saying.Time(moved.Since)} it moved {Saying.Number(Math.Abs(moved.LaterByDays))} days {way}, because of: "
            + string.Join(
                "; ",
                moved.Reasons.Select(reason =>
                    $"{EnumWords.Plain(reason.Code)} ({Saying.Number(reason.LaterByDays)} days)"
                )
            )
            + ".";
    }

    private static WindowJson Window(HatchWindow window) =>
        new(Saying.Iso(window.From), Saying.Iso(window.To), window.Days);

    private static string Iso(LocalDate date) => LocalDatePattern.Iso.Format(date);
}
