using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Workbench.Trials;

namespace Broodtide.Cli.Trials;

/// <summary>Trials: planned with what is at hand, laid out by chance, and what to try next.</summary>
internal static class TrialVerb
{
    public static Command Make()
    {
        var trial = new Command(
            "trial",
            "Plan a trial with the vessels and larvae at hand, lay it out by chance, label its vessels, and choose what to try next."
        );
        trial.Subcommands.Add(Plan());
        trial.Subcommands.Add(TrialLayOutVerb.Make());
        trial.Subcommands.Add(TrialLabelsVerb.Make());
        trial.Subcommands.Add(TrialNextVerb.Make());
        return trial;
    }

    private static VerbCommand Plan()
    {
        var slots = new TrialSlots();
        var treatments = Slot.Option(
            "--treatments",
            "Treatments, the usual one among them; 2 if left out.",
            "NUMBER"
        );
        var species = Slot.Option("--species", "The species; that of the house if left out.", "SPECIES");
        return new(
            "plan",
            "How a trial would be laid out with what is at hand, the chance that it finds what you wish, and what cannot be learnt with so few vessels. Nothing is written.",
            [
                "trial plan --vessels 8 --larvae 240",
                "trial plan --vessels 6 --larvae 240 --usual 30% --wished 50%",
                "trial plan --vessels 12 --larvae 480 --treatments 3 --blocks 2 --water 2L --json",
            ],
            [.. slots.All, treatments, species],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var wishes = slots.Read(said, said.Count(treatments) ?? 2, seed: 1);
                if (wishes is null)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                if (wishes.Impossible() is { } no)
                {
                    return sitting.Refuse([no], saying);
                }

                var proposal = TrialPlanning.Of(wishes, outlook.Profiles.Of(said.Text(species)));
                return sitting.Answer(
                    TrialPlanAnswer.Of(proposal, saying),
                    CliJson.Default.TrialPlanAnswer,
                    page =>
                    {
                        page.Heading("A trial with what is at hand");
                        Print(page, proposal, saying);
                    }
                );
            }
        );
    }

    internal static void Print(Page page, TrialProposal proposal, Saying saying)
    {
        var wishes = proposal.Wishes;
        page.Facts(
            (
                "Vessels",
                $"{proposal.PerTreatment} for each of {wishes.Treatments} treatments, in {wishes.Blocks} {(wishes.Blocks == 1 ? "block" : "blocks")}"
            ),
            ("Larvae", $"{proposal.LarvaePerVessel} in each vessel"),
            (
                "Smallest p",
                $"{Saying.Number(proposal.SmallestP.Value)}, where {Saying.Number(proposal.Level.Value)} is needed"
            ),
            (
                $"Finds {Saying.Percent(wishes.Wished.Value)} against {Saying.Percent(wishes.Usual.Value)}",
                proposal.Power is { } power
                    ? $"in {Saying.Percent(power.Power.Value)} of such trials ({Saying.Percent(power.Within.Lower)} to {Saying.Percent(power.Within.Upper)}, {power.Trials} simulated)"
                    : "never: no test is possible"
            ),
            (
                "Found eight times in ten",
                proposal.Found is { } found
                    ? $"from about {Saying.Percent(found.Value)} on"
                    : "no share at all"
            ),
            (
                "Vessels for that wish",
                $"about {proposal.VesselsWanted} for each treatment; {proposal.VesselsAtLeast} at least, however many larvae"
            )
        );
        foreach (var remark in proposal.Remarks)
        {
            page.Line(saying.Of(remark));
        }

        page.Line()
            .Line($"Dealt with seed {wishes.Seed}, treatments by number:")
            .Table(
                ["block", "vessels in order"],
                proposal
                    .Layout.GroupBy(dealt => dealt.Block)
                    .Select(block =>
                        (IReadOnlyList<string>)
                            [$"{block.Key}", string.Join("  ", block.Select(dealt => dealt.Treatment + 1))]
                    )
            );
    }
}
