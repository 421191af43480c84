using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Units;
using Broodtide.Workbench.TideLine;

namespace Broodtide.Cli.Runs;

/// <summary>One line of a run's tide line in words.</summary>
internal sealed record RunWordJson(
    string Tense,
    string Code,
    string At,
    string? Until,
    int? SeaDay,
    string Words,
    PointsJson? Number,
    double? Chance,
    string? Vessel,
    string? Entry,
    bool Corrected
);

/// <summary>A week of the sea phase.</summary>
internal sealed record RunWeekJson(string At, bool Expected, PointsJson? SalinityPpt, PointsJson? Alive);

/// <summary>A run: what happened, what is, what is expected.</summary>
internal sealed record RunAnswer(
    string Name,
    string State,
    string Now,
    IReadOnlyList<RunWordJson> Lines,
    IReadOnlyList<RunWeekJson> Weeks
);

/// <summary>Tells one run in words.</summary>
internal static class RunVerb
{
    public static Command Make()
    {
        var name = Slot.Word("RUN", "Which one.");
        return new VerbCommand(
            "run",
            "Tell a run in words: what happened, the water its larvae live in now, and what is expected.",
            ["run \"Brood 2\"", "run \"Brood 3\" --json"],
            [name],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var id = said.TheRun(name);
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                if (outlook.House.Run(id).Brood is { } brood && outlook.PopulationOf(brood) is { } population)
                {
                    // Who asks a command line can wait for how many are alive.
                    _ = outlook.EstimateOf(population);
                }

                if (TideLineOf.Run(outlook, id) is not { } record)
                {
                    return sitting.Refuse([new Remark("run-without-brood", new Argument("run", id))], saying);
                }

                var words = TideWords.Of(record);
                var told = new TideSaying(saying);
                var answer = new RunAnswer(
                    record.Name,
                    RunState.Of(outlook.House, outlook.House.Run(id)),
                    Saying.Iso(record.Now),
                    [.. words.Select(word => Json(word, told))],
                    [
                        .. TideWords
                            .Weeks(record)
                            .Select(week => new RunWeekJson(
                                Saying.Iso(week.At),
                                week.Expected,
                                week.SalinityPpt is { } ppt ? PointsJson.Of(ppt) : null,
                                week.Alive is { } alive ? PointsJson.Of(alive) : null
                            )),
                    ]
                );
                return sitting.Answer(
                    answer,
                    CliJson.Default.RunAnswer,
                    page => Print(page, answer, words, told)
                );
            }
        );
    }

    private static RunWordJson Json(TideWord word, TideSaying told) =>
        new(
            EnumWords.Of(word.Tense),
            EnumWords.Of(word.Code),
            Saying.Iso(word.At),
            word.Until is { } until ? Saying.Iso(until) : null,
            word.SeaDay,
            told.Of(word),
            word.Number is { } number ? PointsJson.Of(number) : null,
            word.Chance,
            word.Name,
            word.EntryId is { } entry ? Naming.Short(entry) : null,
            word.Corrected
        );

    private static void Print(Page page, RunAnswer answer, IReadOnlyList<TideWord> words, TideSaying told)
    {
        page.Heading($"Run {answer.Name}: {answer.State.Replace('-', ' ')}")
            .Table(
                ["when", "sea day", "what", "entry"],
                words.Select(word =>
                    (IReadOnlyList<string>)
                        [
                            told.When(word),
                            word.SeaDay?.ToString(System.Globalization.CultureInfo.InvariantCulture) ?? "",
                            told.Of(word),
                            (word.EntryId is { } id ? Naming.Short(id) : "")
                                + (word.Corrected ? " corrected" : ""),
                        ]
                )
            );
        if (answer.Weeks.Count > 0)
        {
            page.Line()
                .Table(
                    ["week until", "ppt", "alive"],
                    answer.Weeks.Select(week =>
                        (IReadOnlyList<string>)
                            [
                                week.At[..10] + (week.Expected ? " (expected)" : ""),
                                Points(week.SalinityPpt, 2),
                                Points(week.Alive, 0),
                            ]
                    )
                );
        }
    }

    private static string Points(PointsJson? points, int places)
    {
        string Of(double number) => Saying.Number(Math.Round(number, places));
        return points is null ? "" : $"{Of(points.Middle)} ({Of(points.Low)} to {Of(points.High)})";
    }
}
