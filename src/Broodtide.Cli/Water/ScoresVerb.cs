using System.CommandLine;
using System.Globalization;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Units;
using Broodtide.Workbench.Safety.Scoring;

namespace Broodtide.Cli.Water;

/// <summary>How well the forecasts of one quantity did.</summary>
internal sealed record QuantityScoreJson(
    string Quantity,
    int Readings,
    int Inside90,
    double Score,
    double PersistenceScore
);

/// <summary>One reading held against one forecast.</summary>
internal sealed record ScoredReadingJson(
    string Quantity,
    string FromForecast,
    string ReadAt,
    double Read,
    SafetyInterval Foretold,
    double Score,
    double? PersistenceScore
);

/// <summary>The scores of a vessel.</summary>
internal sealed record ScoresAnswer(
    string Vessel,
    IReadOnlyList<QuantityScoreJson> ByQuantity,
    IReadOnlyList<ScoredReadingJson> Readings
);

/// <summary>What was foretold of a vessel's water, held against what was read.</summary>
internal static class ScoresVerb
{
    public static Command Make()
    {
        var vessel = Slot.Word("VESSEL", "Which one.");
        return new VerbCommand(
            "scores",
            "What was foretold of a vessel's water held against what was read later, beside the forecast that nothing changes.",
            ["scores \"Jar A\"", "scores \"Jar A\" --json"],
            [vessel],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var id = said.TheVessel(vessel);
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                if (outlook.SafetyOf(id)?.Run is not { } run)
                {
                    return sitting.Refuse(
                        [new Remark("safety-not-told", new Argument("vessel", id))],
                        saying
                    );
                }

                var readings = WaterScoring.Of(outlook.House, run.Story);
                var answer = new ScoresAnswer(
                    said.TheText(vessel),
                    [
                        .. WaterScoring
                            .ByQuantity(readings)
                            .Select(score => new QuantityScoreJson(
                                EnumWords.Of(score.Quantity),
                                score.Number,
                                score.Inside,
                                score.Score,
                                score.PlainScore
                            )),
                    ],
                    [
                        .. readings.Select(read => new ScoredReadingJson(
                            EnumWords.Of(read.Quantity),
                            Saying.Iso(read.FromForecast),
                            Saying.Iso(read.ReadAt),
                            read.Read,
                            SafetyInterval.Of(read.Foretold),
                            read.Score,
                            read.PlainScore
                        )),
                    ]
                );
                return sitting.Answer(answer, CliJson.Default.ScoresAnswer, page => Print(page, answer));
            }
        );
    }

    private static void Print(Page page, ScoresAnswer answer)
    {
        if (answer.ByQuantity.Count == 0)
        {
            page.Line(
                "Nothing to score yet: no reading was taken within two days of a forecast that was written down (broodtide foretell)."
            );
            return;
        }

        page.Table(
            ["", "readings", "inside 90 %", "score", "if nothing changed"],
            answer.ByQuantity.Select(score =>
                (IReadOnlyList<string>)
                    [
                        score.Quantity,
                        score.Readings.ToString(CultureInfo.InvariantCulture),
                        score.Inside90.ToString(CultureInfo.InvariantCulture),
                        Figure(score.Score),
                        Figure(score.PersistenceScore),
                    ]
            )
        );
        page.Line(
            "The score is the continuous ranked probability score, in the unit of the quantity; less is better."
        );
    }

    private static string Figure(double value) => value.ToString("0.####", CultureInfo.InvariantCulture);
}
