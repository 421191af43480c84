using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Units;
using Broodtide.Workbench.Losses;
using Broodtide.Workbench.Planning;

namespace Broodtide.Cli.Adults;

/// <summary>Something the journal shows.</summary>
internal sealed record SuspectJson(double RatioToLimit, bool Shown, RemarkJson What, RemarkJson Change);

/// <summary>What to do after a loss.</summary>
internal sealed record AfterLossAnswer(
    string Run,
    string Verdict,
    string VerdictWords,
    string? LatestSettlement,
    IReadOnlyList<RemarkJson> Keep,
    IReadOnlyList<RemarkJson> Clean,
    IReadOnlyList<string> Cautions,
    AgainJson? Female,
    SuspectJson OneThing,
    IReadOnlyList<SuspectJson> Others
);

/// <summary>Tells what to do after a loss.</summary>
internal static class AfterLossVerb
{
    public static Command Make()
    {
        var name = Slot.Word("RUN", "Which one.");
        return new VerbCommand(
            "after-loss",
            "After a loss: what to keep, what to clean, when she may carry again, and one thing to change.",
            ["after-loss \"Brood 1\"", "after-loss \"Brood 3\" --json"],
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
                    // Who asks a command line can wait for the latest day of settlement.
                    _ = outlook.EstimateOf(population);
                }

                if (outlook.AfterLossOf(id) is not { } loss)
                {
                    return sitting.Refuse([new Remark("run-without-brood", new Argument("run", id))], saying);
                }

                return sitting.Answer(
                    Json(said.TheText(name), loss, saying),
                    CliJson.Default.AfterLossAnswer,
                    page => Print(page, said.TheText(name), loss, saying)
                );
            }
        );
    }

    private static AfterLossAnswer Json(string run, AfterLoss loss, Saying saying) =>
        new(
            run,
            EnumWords.Of(loss.Verdict),
            Saying.Of(loss.Verdict),
            loss.LatestSettlement is { } latest ? Saying.Iso(latest) : null,
            [.. loss.Keep.Select(saying.Json)],
            [.. loss.Clean.Select(saying.Json)],
            [.. CautionsOf(loss).Select(Saying.Of)],
            loss.Female is { } female ? AnimalVerb.Again(female, saying) : null,
            Suspect(loss.OneThing, saying),
            [.. loss.Others.Select(suspect => Suspect(suspect, saying))]
        );

    private static IEnumerable<CautionCode> CautionsOf(AfterLoss loss) =>
        loss.MayClean ? [CautionCode.BleachAndAcids, CautionCode.NoRelease] : [CautionCode.NoRelease];

    private static SuspectJson Suspect(LossSuspect suspect, Saying saying) =>
        new(suspect.Ratio, suspect.IsShown, saying.Json(suspect.Shown), saying.Json(suspect.Change));

    private static void Print(Page page, string run, AfterLoss loss, Saying saying)
    {
        page.Heading($"After {run}").Line(Saying.Of(loss.Verdict));
        Lines(page, "Keep", loss.Keep, saying);
        Lines(page, "Reset and clean", loss.Clean, saying);
        foreach (var caution in CautionsOf(loss))
        {
            page.Line($"Mind: {Saying.Of(caution)}");
        }

        page.Line().Heading("One thing to change").Line(saying.Of(loss.OneThing.Change));
        page.Line(
            $"{(loss.OneThing.IsShown ? "The journal shows: " : "Not shown, not excluded: ")}{saying.Of(loss.OneThing.Shown)}"
        );
        page.Line("That is what was written, not a cause.");
        if (loss.Others.Count > 0)
        {
            page.Line().Heading("Besides");
            foreach (var other in loss.Others)
            {
                page.Line($"{(other.IsShown ? "beyond" : "within")}: {saying.Of(other.Shown)}");
            }
        }

        if (loss.Female is { } female)
        {
            page.Line().Facts(("She may carry again", AnimalVerb.AgainWords(female, saying)));
        }
    }

    private static void Lines(Page page, string heading, IReadOnlyList<Remark> lines, Saying saying)
    {
        page.Line().Heading(heading);
        foreach (var line in lines)
        {
            page.Line(saying.Of(line));
        }
    }
}
