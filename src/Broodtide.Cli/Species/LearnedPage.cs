using System.Globalization;
using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Workbench.Pooling;

namespace Broodtide.Cli.Species;

/// <summary>Prints what runs taught.</summary>
internal static class LearnedPage
{
    public static void All(Page page, LearnedAnswer answer)
    {
        page.Table(
            ["quantity", "unit", "published", "next run", "runs", "narrower by"],
            answer.Numbers.Select(number =>
                (IReadOnlyList<string>)
                    [
                        number.Code + (number.Chosen ? " (yours)" : ""),
                        UnitNames.OfProfile(number.Unit),
                        Points(number.Published),
                        Points(number.Next),
                        number.RunsCounted == 0 && number.Runs.Count > 0
                            ? $"0 of {number.Runs.Count}"
                            : $"{number.RunsCounted}",
                        number.RunsCounted == 0 ? "" : Saying.Percent(Math.Max(0, 1 - number.WidthRatio)),
                    ]
            )
        );
        page.Line(
            "Middle, and between in brackets: nine in ten sure. Nothing is changed until you say species learn."
        );
    }

    public static void One(Page page, LearnedNumberJson number, Saying saying)
    {
        var unit = UnitNames.OfProfile(number.Unit);
        page.Facts(
            (number.Code, $"in {unit}, {number.Provenance}"),
            ("Published", Points(number.Published)),
            (
                "Next run",
                Points(number.Next) + (number.RunsCounted == 0 ? ", as published: no run is counted in" : "")
            ),
            (
                "Runs alone",
                number.RunsAlone is { } alone
                    ? $"mean {Points(alone.Mean)}, next {Points(alone.Next)}, {Saying.Percent(alone.ShareBetween)} of the variance lies between runs"
                    : null
            )
        );
        if (number.Runs.Count > 0)
        {
            page.Line()
                .Table(
                    ["run", "says by itself", "weight", "next run without it", ""],
                    number.Runs.Select(run =>
                        (IReadOnlyList<string>)
                            [
                                Whose(new PooledSource("", run.Run, run.From)),
                                Points(run.Alone),
                                run.Counted ? Saying.Percent(run.Weight) : "",
                                run.NextWithout is { } next ? Points(next) : "",
                                run.LeftOutBecause is { } why ? $"left out: {why.Replace('-', ' ')}" : "",
                            ]
                    )
                );
        }

        if (number.Moves is { Count: > 0 } moves)
        {
            page.Line()
                .Table(
                    ["what it moves", "brood", "if low", "if high"],
                    moves.Select(move =>
                        (IReadOnlyList<string>)
                            [
                                move.Answer.Replace('-', ' '),
                                move.Brood,
                                move.AtLow is { } low ? saying.Day(At(low)) : Whole(move.LarvaeAtLow),
                                move.AtHigh is { } high ? saying.Day(At(high)) : Whole(move.LarvaeAtHigh),
                            ]
                    )
                );
        }
        else
        {
            page.Line("It moves no answer of a brood that is under way now.");
        }
    }

    private static NodaTime.Instant At(string iso) =>
        NodaTime.Text.InstantPattern.ExtendedIso.Parse(iso).Value;

    private static string Whole(double? larvae) =>
        larvae is { } some ? Math.Round(some).ToString("0", CultureInfo.InvariantCulture) : "";

    public static string Whose(PooledSource source) =>
        source.From is { } from ? $"{source.Name} of {from}" : source.Name;

    private static string Points(PointsJson points) =>
        $"{Figures(points.Middle)} ({Figures(points.Low)} to {Figures(points.High)})";

    // Three figures: more would promise what no run can keep.
    private static string Figures(double value) =>
        double.Parse(value.ToString("G3", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture)
            is var short3
            ? Saying.Number(short3)
            : "";
}
