using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Workbench.Due;

namespace Broodtide.Cli.Ahead;

/// <summary>One item of the list.</summary>
internal sealed record DueJson(string Part, bool Next, ActionJson Action);

/// <summary>What is due.</summary>
internal sealed record DueAnswer(string Now, IReadOnlyList<DueJson> Items);

/// <summary>Tells what is due.</summary>
internal static class DueVerb
{
    public static Command Make() =>
        new VerbCommand(
            "due",
            "What is due: one list from plans, ledgers and instruments, the next one first, each with why and how.",
            ["due", "due --json"],
            [],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var words = new ActionWords(saying, outlook.House);
                var answer = new DueAnswer(
                    Saying.Iso(outlook.Now),
                    [
                        .. outlook.Due.Items.Select(item => new DueJson(
                            EnumWords.Of(item.Part),
                            item.IsNext,
                            words.Json(item.Action)
                        )),
                    ]
                );
                return sitting.Answer(
                    answer,
                    CliJson.Default.DueAnswer,
                    page => Print(page, outlook.Due, words)
                );
            }
        );

    private static void Print(Page page, DueList due, ActionWords words)
    {
        if (due.Items.Count == 0)
        {
            page.Line("Nothing is due.");
            return;
        }

        DuePart? part = null;
        foreach (var item in due.Items)
        {
            if (item.Part != part)
            {
                part = item.Part;
                page.Line().Heading(Saying.Of(item.Part));
            }

            words.Print(page, item.Action, item.IsNext);
        }

        page.Line().Line("When it is done: broodtide write done KEY. This program cannot wake you.");
    }
}
