using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Workbench.Planning;

namespace Broodtide.Cli.Ahead;

/// <summary>The plan of a brood.</summary>
internal sealed record PlanAnswer(
    string Brood,
    string Now,
    IReadOnlyList<ActionJson> Actions,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>Tells the plan of a brood.</summary>
internal static class PlanVerb
{
    public static Command Make()
    {
        var brood = Slot.Word("BROOD", "Which one.");
        var all = Slot.Flag("--all", "What is done or left out too.");
        return new VerbCommand(
            "plan",
            "The plan of a brood, backward from its hatch: what, by when, why, how much, and what may slip.",
            ["plan \"Brood 3\"", "plan \"Brood 3\" --all --json"],
            [brood, all],
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

                var plan = outlook.PlanOf(id);
                var actions = (said.Flag(all) ? plan.Actions : plan.Open).ToList();
                var words = new ActionWords(saying, outlook.House);
                var answer = new PlanAnswer(
                    said.TheText(brood),
                    Saying.Iso(plan.Now),
                    [.. actions.Select(words.Json)],
                    [.. plan.Remarks.Select(saying.Json)]
                );
                return sitting.Answer(
                    answer,
                    CliJson.Default.PlanAnswer,
                    page =>
                        Print(page, said.TheText(brood), actions, words, [.. plan.Remarks.Select(saying.Of)])
                );
            }
        );
    }

    private static void Print(
        Page page,
        string brood,
        List<PlannedAction> actions,
        ActionWords words,
        IReadOnlyList<string> remarks
    )
    {
        page.Heading($"Plan of {brood}");
        if (actions.Count == 0)
        {
            page.Line("Nothing is left to do.");
        }

        foreach (var action in actions)
        {
            words.Print(page, action, false);
        }

        foreach (var remark in remarks)
        {
            page.Line(remark);
        }
    }
}
