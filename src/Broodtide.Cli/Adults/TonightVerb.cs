using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Workbench;
using Broodtide.Workbench.Hatching;
using NodaTime.Text;

namespace Broodtide.Cli.Adults;

/// <summary>One brood this evening.</summary>
internal sealed record TonightRowJson(
    string Brood,
    string? Female,
    string? Place,
    double ChanceTonight,
    double ChanceOutAlready,
    string Deed,
    string DeedWords,
    string? NotBefore
);

/// <summary>The list for the evening.</summary>
internal sealed record TonightAnswer(
    string Evening,
    double ChanceOfAny,
    IReadOnlyList<TonightRowJson> Rows,
    IReadOnlyList<RemarkJson> IntoTheBox,
    IReadOnlyList<RemarkJson> Back,
    IReadOnlyList<RemarkJson> OrLeaveHer
);

/// <summary>Tells which broods may hatch tonight and what to do this evening.</summary>
internal static class TonightVerb
{
    public static Command Make() =>
        new VerbCommand(
            "tonight",
            "Which broods may hatch tonight, the likeliest first; how to isolate, when she goes back, or how to leave her.",
            ["tonight", "tonight --json"],
            [],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var tonight = outlook.Tonight;
                var naming = new Naming(outlook.House);
                var steps = StepsOf(outlook, tonight);
                var answer = new TonightAnswer(
                    LocalDatePattern.Iso.Format(tonight.Evening),
                    tonight.Any.Value,
                    [
                        .. tonight.Rows.Select(row => new TonightRowJson(
                            naming.NameOf(Subject.Of(row.Brood)),
                            row.Animal is { } animal ? naming.NameOf(Subject.Of(animal)) : null,
                            row.Place is { } place ? naming.NameOf(Subject.Of(place)) : null,
                            row.Chance.Value,
                            row.OutAlready.Value,
                            EnumWords.Of(row.Deed),
                            Saying.Of(row.Deed),
                            row.NotBefore is { } hard ? Saying.Iso(hard) : null
                        )),
                    ],
                    [.. steps.Select(saying.Json)],
                    [.. IsolatingSteps.Back.Select(saying.Json)],
                    [.. IsolatingSteps.OrLeaveHer.Select(saying.Json)]
                );
                return sitting.Answer(
                    answer,
                    CliJson.Default.TonightAnswer,
                    page => Print(page, answer, saying, steps)
                );
            }
        );

    private static IReadOnlyList<Units.Remark> StepsOf(Outlook outlook, Tonight tonight) =>
        tonight.Rows.Count > 0
            ? IsolatingSteps.IntoTheBox(
                outlook.House,
                outlook.House.Brood(
                    tonight
                        .Rows.FirstOrDefault(
                            row => row.Deed is TonightDeed.Isolate or TonightDeed.LetHerHarden,
                            tonight.Rows[0]
                        )
                        .Brood
                ),
                outlook.Now
            )
            : [];

    private static void Print(
        Page page,
        TonightAnswer answer,
        Saying saying,
        IReadOnlyList<Units.Remark> steps
    )
    {
        if (answer.Rows.Count == 0)
        {
            page.Line("No brood is under way that could hatch.");
            return;
        }

        page.Heading($"Night of {answer.Evening}: chance of any {Saying.Percent(answer.ChanceOfAny)}")
            .Table(
                ["brood", "female", "where", "tonight", "out already", "this evening"],
                answer.Rows.Select(row =>
                    (IReadOnlyList<string>)
                        [
                            row.Brood,
                            row.Female ?? "?",
                            row.Place ?? "?",
                            Saying.Percent(row.ChanceTonight),
                            Saying.Percent(row.ChanceOutAlready),
                            row.DeedWords,
                        ]
                )
            );
        Lines(page, "Into the box", steps, saying);
        Lines(page, "Back", IsolatingSteps.Back, saying);
        Lines(page, "Or leave her", IsolatingSteps.OrLeaveHer, saying);
        page.Line("Common practice, no source. This program cannot wake you: set the phone's own clock.");
    }

    private static void Lines(Page page, string heading, IReadOnlyList<Units.Remark> steps, Saying saying)
    {
        page.Line().Heading(heading);
        foreach (var step in steps)
        {
            page.Line(saying.Of(step));
        }
    }
}
