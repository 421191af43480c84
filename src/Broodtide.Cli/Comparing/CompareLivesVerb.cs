using System.CommandLine;
using System.Globalization;
using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Workbench.Comparing;

namespace Broodtide.Cli.Comparing;

/// <summary>One step of a curve.</summary>
internal sealed record LifeStepJson(double Time, int AtRisk, int Deaths, double Survival, PointsJson Band);

/// <summary>The curve of a group.</summary>
internal sealed record LivesJson(string Group, int Lives, IReadOnlyList<LifeStepJson> Steps);

/// <summary>Lives compared.</summary>
internal sealed record LivesAnswer(
    IReadOnlyList<LivesJson> Groups,
    double? LogRankChiSquare,
    int? DegreesOfFreedom,
    double? P,
    IReadOnlyList<double> Expected
);

/// <summary>Lives watched one by one.</summary>
internal static class CompareLivesVerb
{
    public static Command Make()
    {
        var file = Slot.Word("FILE", "A table with one row a life.");
        var group = Slot.Option("--group", "Column of the group.", "COLUMN");
        var time = Slot.Option("--time", "Column of the time at which it died or was last seen.", "COLUMN");
        var died = Slot.Option(
            "--died",
            "Column with 1 where it died, 0 where it lived when last seen.",
            "COLUMN"
        );
        return new VerbCommand(
            "lives",
            "Lives watched one by one, such as larvae kept singly: curves with bands, and whether groups die alike.",
            ["compare lives lives.csv --group group --time day --died died"],
            [file, group, time, died],
            async sitting =>
            {
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, (await sitting.LookAsync()).House);
                var (table, noTable) = await TableRead.OfAsync(sitting, said.TheText(file));
                if (table is null)
                {
                    return sitting.NotUnderstood([noTable!], saying);
                }

                var (compared, why) = LivesCompared.Of(
                    table,
                    said.Text(group) ?? "group",
                    said.Text(time) ?? "time",
                    said.Text(died) ?? "died"
                );
                if (compared is null)
                {
                    return sitting.NotUnderstood([why!], saying);
                }

                var answer = new LivesAnswer(
                    [
                        .. compared.Groups.Select(one => new LivesJson(
                            one.Group,
                            one.Curve.Lives,
                            [
                                .. one.Curve.Steps.Select(step => new LifeStepJson(
                                    step.Time,
                                    step.AtRisk,
                                    step.Deaths,
                                    step.Survival,
                                    PointsJson.Of(one.Curve.IntervalAt(step.Time))
                                )),
                            ]
                        )),
                    ],
                    compared.LogRank?.ChiSquare,
                    compared.LogRank?.DegreesOfFreedom,
                    compared.LogRank?.PValue,
                    compared.LogRank?.Expected ?? []
                );
                return sitting.Answer(answer, CliJson.Default.LivesAnswer, page => Print(page, answer));
            }
        );
    }

    private static void Print(Page page, LivesAnswer answer)
    {
        page.Table(
            ["group", "time", "at risk", "died", "alive (5 to 95 %)"],
            answer.Groups.SelectMany(group =>
                group.Steps.Select(step =>
                    (IReadOnlyList<string>)
                        [
                            group.Group,
                            step.Time.ToString("0.##", CultureInfo.InvariantCulture),
                            step.AtRisk.ToString(CultureInfo.InvariantCulture),
                            step.Deaths.ToString(CultureInfo.InvariantCulture),
                            $"{ComparedPage.Figure(step.Survival, 3)} ({ComparedPage.Figure(step.Band.Low, 3)} to {ComparedPage.Figure(step.Band.High, 3)})",
                        ]
                )
            )
        );
        if (answer is { LogRankChiSquare: { } square, P: { } p, DegreesOfFreedom: { } freedom })
        {
            page.Line(
                $"log-rank chi-square {ComparedPage.Figure(square, 2)} on {freedom.ToString(CultureInfo.InvariantCulture)}, p {(p < 0.0005 ? "under 0.001" : ComparedPage.Figure(p, 3))}: for lives that do not share a vessel"
            );
        }
    }
}
