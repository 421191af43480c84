using System.CommandLine;
using System.Globalization;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Storage.Dossiers;
using Broodtide.Units;
using Broodtide.Workbench.Dossiers;
using Broodtide.Workbench.Review;

namespace Broodtide.Cli.Review;

/// <summary>A rule at one look.</summary>
internal sealed record RuleLookJson(string At, string About, bool Warned, string CameAt, string Outcome);

/// <summary>One rule over all runs.</summary>
internal sealed record RuleJson(
    RemarkJson Rule,
    int Hits,
    int Missed,
    int FalseAlarms,
    int Quiet,
    int Undecided,
    IReadOnlyList<RuleLookJson> Looks
);

/// <summary>All rules.</summary>
internal sealed record HindsightAnswer(IReadOnlyList<RuleJson> Rules);

/// <summary>Advice on trial.</summary>
internal static class HindsightVerb
{
    private const int MostLooks = 10_000;

    public static Command Make()
    {
        var most = Slot.Option("--most", "At most so many looks, the newest; 24 if left out.", "LOOKS");
        var others = Slot.Flag("--with-others", "Also over the runs of the dossiers you took in.");
        return new VerbCommand(
            "hindsight",
            "Advice on trial: each rule with what was known then, held against what came: hit, missed, false alarm, undecided.",
            ["hindsight --most 6", "hindsight --most 4 --json"],
            [most, others],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var looks = Hindsight.UsualMost;
                if (
                    said.Text(most) is { } text
                    && !(
                        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out looks)
                        && looks is >= 1 and <= MostLooks
                    )
                )
                {
                    return sitting.NotUnderstood(
                        [
                            new Remark(
                                "count-not-whole",
                                new Argument("field", "most"),
                                new Argument("typed", text)
                            ),
                        ],
                        saying
                    );
                }

                List<IReadOnlyList<RuleOnTrial>> houses = [Hindsight.InPieces(outlook, looks).Last()!];
                if (said.Flag(others))
                {
                    IDossierShelf shelf = DossierShelf.Beside(sitting.JournalPath);
                    var known = outlook.House.Runs.Select(run => run.Id).ToHashSet();
                    houses.AddRange(
                        (await shelf.RunsAsync(sitting.Cancellation))
                            .Where(run => !known.Contains(run.Run))
                            .DistinctBy(run => run.Dossier.Id)
                            .Select(run => Hindsight.InPieces(run.Look(), looks).Last()!)
                    );
                }

                var rules = RuleOnTrial.Joined(houses);
                var naming = new Naming(outlook.House);
                var answer = new HindsightAnswer([.. rules.Select(rule => Json(rule, saying, naming))]);
                return sitting.Answer(answer, CliJson.Default.HindsightAnswer, page => Print(page, answer));
            }
        );
    }

    private static RuleJson Json(RuleOnTrial rule, Saying saying, Naming naming) =>
        new(
            saying.Json(rule.Rule),
            rule.Count(RuleOutcome.Hit),
            rule.Count(RuleOutcome.Missed),
            rule.Count(RuleOutcome.FalseAlarm),
            rule.Count(RuleOutcome.Quiet),
            rule.Count(RuleOutcome.Undecided),
            [
                .. rule.Looks.Select(look => new RuleLookJson(
                    Saying.Iso(look.At),
                    naming.NameOf(look.About),
                    look.Warned,
                    Saying.Iso(look.ReadAt),
                    EnumWords.Of(look.Outcome)
                )),
            ]
        );

    private static void Print(Page page, HindsightAnswer answer)
    {
        if (answer.Rules.Count == 0)
        {
            page.Line("Nothing to hold a rule against yet: no reading and no first larvae are written.");
            return;
        }

        page.Table(
            ["rule", "hit", "missed", "false alarm", "rightly quiet", "undecided"],
            answer.Rules.Select(rule =>
                (IReadOnlyList<string>)
                    [
                        rule.Rule.Words,
                        .. new[]
                        {
                            rule.Hits,
                            rule.Missed,
                            rule.FalseAlarms,
                            rule.Quiet,
                            rule.Undecided,
                        }.Select(number => number.ToString(CultureInfo.InvariantCulture)),
                    ]
            )
        );
        page.Line(
            "A limit is looked at a day before each reading, with what was written by then. Undecided: read at the limit, or the water was changed in between."
        );
    }
}
