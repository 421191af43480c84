using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Science.Statistics;
using Broodtide.Units;
using Broodtide.Workbench.Comparing;

namespace Broodtide.Cli.Comparing;

/// <summary>A line by dose.</summary>
internal sealed record DosesAnswer(
    string Link,
    IReadOnlyList<CoefficientJson> Coefficients,
    double Deviance,
    double PearsonChiSquare,
    int DegreesOfFreedom,
    double HalfDose,
    double HalfDoseStandardError,
    double? HalfDoseLow95,
    double? HalfDoseHigh95
);

/// <summary>How a share hangs on a dose.</summary>
internal static class CompareDosesVerb
{
    public static Command Make()
    {
        var file = Slot.Word("FILE", "A table with one row a vessel.");
        var dose = Slot.Option(
            "--dose",
            "Column of the dose, on the scale on which the line is straight.",
            "COLUMN"
        );
        var responded = Slot.Option("--responded", "Column with how many responded.", "COLUMN");
        var of = Slot.Option("--of", "Column with how many there were.", "COLUMN");
        var link = Slot.Option("--link", "logit, probit or cloglog.", "LINK");
        return new VerbCommand(
            "doses",
            "How a share hangs on a dose: the line, the dose of a half with limits, and how far vessels scatter round it.",
            ["compare doses doses.csv --dose dose --responded dead --of n"],
            [file, dose, responded, of, link],
            async sitting =>
            {
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, (await sitting.LookAsync()).House);
                var (table, noTable) = await TableRead.OfAsync(sitting, said.TheText(file));
                if (table is null)
                {
                    return sitting.NotUnderstood([noTable!], saying);
                }

                BinomialLink? chosen = said.Text(link) switch
                {
                    null or "logit" => BinomialLink.Logit,
                    "probit" => BinomialLink.Probit,
                    "cloglog" => BinomialLink.ComplementaryLogLog,
                    _ => null,
                };
                if (chosen is not { } curve)
                {
                    return sitting.NotUnderstood(
                        [
                            new Remark(
                                "word-not-on-the-list",
                                new Argument("field", "link"),
                                new Argument("typed", said.TheText(link)),
                                new Argument("allowed", "logit, probit, cloglog")
                            ),
                        ],
                        saying
                    );
                }

                var (fit, why) = DoseTable.Of(
                    table,
                    said.Text(dose) ?? "dose",
                    said.Text(responded) ?? "dead",
                    said.Text(of) ?? "n",
                    curve
                );
                if (fit is null)
                {
                    return sitting.NotUnderstood([why!], saying);
                }

                var half = Probability.FromFraction(0.5);
                var limits = fit.DoseWithin(half, Probability.FromFraction(0.95));
                var answer = new DosesAnswer(
                    EnumWords.Of(curve),
                    [
                        .. fit.Fit.Coefficients.Select(it => new CoefficientJson(
                            it.Name,
                            it.Estimate,
                            it.StandardError
                        )),
                    ],
                    fit.Fit.Deviance,
                    fit.Fit.PearsonChiSquare,
                    fit.Fit.DegreesOfFreedom,
                    fit.DoseAt(half),
                    fit.DoseErrorAt(half),
                    limits?.Lower,
                    limits?.Upper
                );
                return sitting.Answer(answer, CliJson.Default.DosesAnswer, page => Print(page, answer));
            }
        );
    }

    private static void Print(Page page, DosesAnswer answer)
    {
        page.Facts(
            (
                "dose of a half",
                $"{ComparedPage.Figure(answer.HalfDose, 4)}, standard error {ComparedPage.Figure(answer.HalfDoseStandardError, 5)}"
            ),
            (
                "95 % limits",
                answer is { HalfDoseLow95: { } low, HalfDoseHigh95: { } high }
                    ? $"{ComparedPage.Figure(low, 4)} to {ComparedPage.Figure(high, 4)}"
                    : "none: the slope could be 0"
            ),
            (
                "deviance",
                $"{ComparedPage.Figure(answer.Deviance, 3)} on {answer.DegreesOfFreedom} degrees of freedom, Pearson {ComparedPage.Figure(answer.PearsonChiSquare, 3)}"
            )
        );
        page.Table(
            ["", "estimate", "standard error"],
            answer.Coefficients.Select(it =>
                (IReadOnlyList<string>)
                    [
                        it.Name,
                        ComparedPage.Figure(it.Estimate, 4),
                        it.StandardError is { } error ? ComparedPage.Figure(error, 4) : "",
                    ]
            )
        );
    }
}
