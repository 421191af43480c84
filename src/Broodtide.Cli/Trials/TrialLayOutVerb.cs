using Broodtide.Cli.Door;
using Broodtide.Cli.Writing;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Units;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.Trials;

namespace Broodtide.Cli.Trials;

/// <summary>Makes the vessels and the plan of a trial in one step.</summary>
internal static class TrialLayOutVerb
{
    public static VerbCommand Make()
    {
        var slots = new TrialSlots();
        var name = Slot.Word("NAME", "What the trial is called; its vessels are numbered under it.");
        var vary = Slot.Option("--vary", "What is varied; needed.", "TEXT");
        var treatments = Slot.Options(
            "--treatment",
            "A treatment, the usual one first; said once for each. A number with a unit is kept as one: \"20 ppt\".",
            "TEXT"
        );
        var use = Slot.Options(
            "--use",
            "A vessel that stands already, used before new ones are made.",
            "VESSEL"
        );
        var capacity = Slot.Option("--capacity", "What each new vessel holds.", "VOLUME");
        var run = Slot.Option("--run", "The run the larvae come from.", "RUN");
        var compare = Slot.Option(
            "--compare",
            "What will be compared in the end, said before it is known.",
            "TEXT"
        );
        return new(
            "lay-out",
            "Lay a trial out: new vessels whose names do not tell, each treatment dealt by chance within each block, and the plan with its seed, all written in one step.",
            [
                "trial lay-out \"Trial A\" --vary salinity --treatment \"30 ppt\" --treatment \"20 ppt\" --vessels 8 --larvae 240 --compare \"share settled by day 45\"",
            ],
            [name, vary, treatments, .. slots.All, use, capacity, run, compare],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var named = said.Texts(treatments).Select(Treatment).ToList();
                var varied = said.Text(vary);
                if (varied is null)
                {
                    said.Add(new Remark("option-needed", new Argument("field", "vary")));
                }

                var standing = said.Texts(use)
                    .Select(text => said.Naming.Vessel(text))
                    .Where(said.Take)
                    .Select(read => read.Value)
                    .ToList();
                // Kept with the trial: whoever deals again by it gets the same.
                var drawn = Math.Abs(sitting.Surroundings.NewId().GetHashCode() % 1_000_000);
                var wishes = slots.Read(said, named.Count, drawn);
                var called = said.TheName(name);
                var ofRun = said.Run(run);
                var holds = said.Volume(capacity).AsVolume();
                if (wishes is null || said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                var no =
                    wishes.Impossible()
                    ?? (
                        TrialBook.Find(outlook.House, called) is null
                            ? null
                            : new Remark("trial-name-taken", new Argument("name", called))
                    );
                if (no is not null)
                {
                    return sitting.Refuse([no], saying);
                }

                var proposal = TrialPlanning.Of(
                    wishes,
                    outlook.Profiles.Of(ofRun is { } known ? outlook.House.Run(known).Species : null)
                );
                var laid = TrialLayingOut.Of(
                    outlook.House,
                    proposal,
                    new(
                        called,
                        varied!.Trim(),
                        [
                            .. named.Select(
                                (treatment, at) => treatment with { Control = at == 0 ? true : null }
                            ),
                        ],
                        said.Text(compare),
                        ofRun,
                        holds,
                        standing
                    ),
                    sitting.Keeper,
                    sitting.Surroundings.NewId,
                    sitting.Now
                );
                var code = await Entries.AppendAsync(sitting, laid.Drafts);
                if (code == ExitCode.Done && !sitting.Json)
                {
                    var page = new Page(sitting.Out);
                    page.Line();
                    TrialVerb.Print(page, proposal, saying);
                    page.Line($"Labels: broodtide trial labels \"{called}\" --out labels.html");
                }

                return code;
            }
        );
    }

    private static TrialTreatment Treatment(string text)
    {
        var read = AmountText.Parse(
            text,
            "treatment",
            [
                Dimension.Salinity,
                Dimension.Temperature,
                Dimension.Volume,
                Dimension.Mass,
                Dimension.CellDensity,
            ]
        );
        return new(text.Trim(), read.Succeeded ? read.Value : null);
    }
}
