using System.CommandLine;
using System.Globalization;
using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Workbench.WhatIf;

namespace Broodtide.Cli.WhatIf;

/// <summary>Runs a vessel on as it is and under a change.</summary>
internal static class WhatIfVerb
{
    private const int UsualDays = 30;

    public static Command Make()
    {
        var vessel = Slot.Word("VESSEL", "Which one.");
        var slots = new WhatIfSlots();
        var days = Slot.Option("--days", "Days to look ahead, 1 to 60; 30 if left out.", "DAYS");
        return new VerbCommand(
            "whatif",
            "A vessel run forward as it is and under a change: larvae alive, ammonia, oxygen, food, settlement, with the difference.",
            [
                "whatif \"Jar A\" --salinity 25",
                "whatif \"Jar A\" --feed twice --days 14 --json",
                "whatif \"Jar A\" --skip 2 --light 0",
                "whatif \"Jar A\" --temperature 27 --over 3 --change 20 --every 3",
            ],
            [vessel, .. slots.All, days],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var id = said.TheVessel(vessel);
                var changes = slots.Read(said);
                var ahead = said.Count(days) ?? UsualDays;
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                var found = WhatIfGrounds.Of(outlook, id, ahead);
                if (!found.Succeeded)
                {
                    return sitting.Refuse([found.Reason], saying);
                }

                if (WhatIfRules.Refusals(found.Value, changes) is { Count: > 0 } refused)
                {
                    return sitting.Refuse(refused, saying);
                }

                var name = outlook.House.Vessel(id).Name ?? Naming.Short(id.Value);
                var answer = WhatIfAnswerJson.Of(
                    name,
                    WhatIfRun.Of(found.Value, changes, MachineHands.All),
                    saying
                );
                return sitting.Answer(answer, CliJson.Default.WhatIfAnswerJson, page => Print(page, answer));
            }
        );
    }

    private static void Print(Page page, WhatIfAnswerJson answer)
    {
        page.Heading($"{answer.Vessel}: {string.Join(", ", answer.Changes.Select(change => change.Words))}")
            .Line($"{answer.Days} days from now, {answer.Members} suppositions, each run both ways.")
            .Line()
            .Table(
                ["", "as it is", "with the change", "difference", "better in", "worse in"],
                answer.Figures.Select(figure =>
                    (IReadOnlyList<string>)
                        [
                            Words("what-if-quantity", figure.Quantity),
                            Points(figure.AsItIs, figure, signed: false),
                            Points(figure.Changed, figure, signed: false),
                            Points(figure.Difference, figure, signed: true),
                            Hundredth(figure.BetterOfHundred),
                            Hundredth(figure.WorseOfHundred),
                        ]
                )
            )
            .Line();
        foreach (var figure in answer.Figures)
        {
            page.Line(
                $"{Words("what-if-quantity", figure.Quantity)}: {Words("what-if-verdict", figure.Verdict)}"
            );
        }

        if (answer.Limits.Count > 0)
        {
            page.Line()
                .Table(
                    ["chance to pass at any hour", "as it is", "with the change"],
                    answer.Limits.Select(limit =>
                        (IReadOnlyList<string>)
                            [
                                $"{Words("what-if-limit", limit.Quantity)} {Saying.Number(limit.Limit)} mg/L",
                                Saying.Percent(limit.AsItIsChance),
                                Saying.Percent(limit.ChangedChance),
                            ]
                    )
                );
        }

        page.Line();
        foreach (var remark in answer.Remarks)
        {
            page.Line(remark.Words);
        }
    }

    private static string Words(string list, string member) => Sentences.Find($"{list}.{member}") ?? member;

    private static string Hundredth(double members) =>
        Math.Round(members).ToString("0", CultureInfo.InvariantCulture) + " of 100";

    private static string Points(PointsJson points, WhatIfFigureJson figure, bool signed)
    {
        var decimals = figure.Quantity switch
        {
            "alive" or "food" => 0,
            "settlement" => 1,
            "oxygen" => 2,
            _ => 4,
        };
        return $"{Text(points.Middle)} ({Text(points.Low)} to {Text(points.High)})";

        string Text(double value)
        {
            var rounded = Math.Round(value, decimals);
            var text = rounded.ToString("F" + decimals, CultureInfo.InvariantCulture);
            return rounded == 0 ? text.TrimStart('-')
                : signed && rounded > 0 ? "+" + text
                : text;
        }
    }
}
