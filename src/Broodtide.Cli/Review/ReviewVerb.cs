using System.CommandLine;
using System.Globalization;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Review;

namespace Broodtide.Cli.Review;

/// <summary>Reviews one run.</summary>
internal static class ReviewVerb
{
    public static Command Make()
    {
        var name = Slot.Word("RUN", "Which one.");
        return new VerbCommand(
            "review",
            "Review a run, won or lost: what happened, what was lost when, what the record rules out, what to do otherwise.",
            ["review \"Brood 1\"", "review \"Brood 2\" --json"],
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

                if (outlook.ReviewOf(id) is not { } review)
                {
                    return sitting.Refuse([new Remark("run-without-brood", new Argument("run", id))], saying);
                }

                var naming = new Naming(outlook.House);
                return sitting.Answer(
                    ReviewAnswer.Of(said.TheText(name), review, saying, naming),
                    CliJson.Default.ReviewAnswer,
                    page => Print(page, said.TheText(name), review, saying, naming)
                );
            }
        );
    }

    private static void Print(Page page, string run, RunReview review, Saying saying, Naming naming)
    {
        page.Heading(review.IsSoFar ? $"{run} so far" : $"Review of {run}");
        foreach (var chapter in review.Chapters)
        {
            page.Line(
                $"{saying.Day(chapter.From)}{(chapter.Until is { } until && saying.Day(until) != saying.Day(chapter.From) ? $" to {saying.Day(until)}" : "")}  {Saying.Of(chapter.Code)}"
            );
            foreach (var line in chapter.Lines)
            {
                page.Line($"  {saying.Of(line)}");
            }
        }

        page.Line().Heading("Lost in each phase (5 to 95 %)");
        page.Table(
            ["phase", "came", "lost", "share", "how it is known"],
            review.Phases.Select(phase =>
                (IReadOnlyList<string>)
                    [
                        Saying.Of(phase.Phase),
                        Whole(phase.Came),
                        Whole(phase.Lost),
                        Share(phase.LostShare),
                        saying.Of(phase.Why),
                    ]
            )
        );
        Water(page, review, naming);
        Forecasts(page, review, saying);
        Causes(page, review, saying);
        page.Line().Heading("To do otherwise");
        if (review.Differently.Count == 0)
        {
            page.Line("Nothing that this record speaks for.");
        }

        foreach (var it in review.Differently)
        {
            page.Line($"{saying.Of(it.Change)} [{Saying.Of(it.Basis)}]").Line($"  {saying.Of(it.Why)}");
        }

        page.Line("No size of an effect: that takes four vessels of each kind or more.");
        foreach (var remark in review.Remarks)
        {
            page.Line(saying.Of(remark));
        }
    }

    private static void Water(Page page, RunReview review, Naming naming)
    {
        if (review.Water.Count == 0)
        {
            return;
        }

        page.Line().Heading("Water and food while they lived there");
        page.Table(
            ["vessel", "", "readings", "lowest", "median", "highest", "limits", "beyond", "longest gap"],
            review.Water.Select(water =>
                (IReadOnlyList<string>)
                    [
                        naming.NameOf(Subject.Of(water.Vessel)),
                        Saying.Of(water.Quantity),
                        water.Readings.ToString(CultureInfo.InvariantCulture),
                        Figure(water.Read?.Low),
                        Figure(water.Read?.Middle),
                        Figure(water.Read?.High),
                        Limits(water),
                        water.Readings == 0 ? "" : water.Outside.ToString(CultureInfo.InvariantCulture),
                        $"{Saying.Number(Math.Round(water.LongestGapDays, 1))} d",
                    ]
            )
        );
        page.Table(
            ["vessel", "feedings", "first after", "longest gap", "food", "looks at it"],
            review.Food.Select(food =>
                (IReadOnlyList<string>)
                    [
                        naming.NameOf(Subject.Of(food.Vessel)),
                        food.Feedings.ToString(CultureInfo.InvariantCulture),
                        food.FirstAfterHours is { } hours ? $"{Saying.Number(Math.Round(hours))} h" : "",
                        $"{Saying.Number(Math.Round(food.LongestGapDays, 1))} d",
                        string.Join(", ", food.Foods.Select(EnumWords.Plain)),
                        food.CellCounts.ToString(CultureInfo.InvariantCulture),
                    ]
            )
        );
    }

    private static void Forecasts(Page page, RunReview review, Saying saying)
    {
        if (review.Forecasts.Count == 0)
        {
            return;
        }

        page.Line().Heading("Foretold, and what came");
        page.Table(
            ["", "as known on", "foretold (90 %)", "came", ""],
            review.Forecasts.Select(outcome =>
                (IReadOnlyList<string>)
                    [
                        Saying.Of(outcome.Subject),
                        saying.Day(outcome.MadeOn) + (outcome.IsIssued ? " (written then)" : ""),
                        $"{saying.Day(outcome.Middle)} ({saying.Day(outcome.Early)} to {saying.Day(outcome.Late)})",
                        outcome.To is { } to ? saying.Day(to) : "nothing seen",
                        outcome.IsInside switch
                        {
                            true => "inside",
                            false => "outside",
                            _ => "",
                        },
                    ]
            )
        );
    }

    private static void Causes(Page page, RunReview review, Saying saying)
    {
        page.Line().Heading("What the record says of causes");
        foreach (var verdict in review.Causes.GroupBy(cause => cause.Verdict))
        {
            page.Line($"{Saying.Of(verdict.Key)}:");
            foreach (var cause in verdict)
            {
                page.Line(
                    $"  {(cause.Rank is { } rank ? $"{rank.ToString(CultureInfo.InvariantCulture)}. " : "")}{Saying.Of(cause.Cause)}"
                );
                foreach (var (mark, remark) in Evidence(cause))
                {
                    page.Line($"    {mark} {saying.Of(remark)}");
                }
            }
        }

        foreach (var tied in review.Tied)
        {
            page.Line(
                $"Cannot be told apart: {string.Join(", ", tied.Causes.Select(Saying.Of))}. {saying.Of(tied.Why)}"
            );
        }
    }

    private static IEnumerable<(string Mark, Remark Remark)> Evidence(CauseFinding cause) =>
        cause
            .For.Select(it => ("+", it))
            .Concat(cause.Against.Select(it => ("-", it)))
            .Concat(cause.Lacks.Select(it => ("?", it)));

    private static string Limits(ReviewedWater water) =>
        (water.LowLimit, water.HighLimit) switch
        {
            ({ } low, { } high) => $"{Figure(low)} to {Figure(high)}",
            ({ } low, null) => $"from {Figure(low)}",
            (null, { } high) => $"to {Figure(high)}",
            _ => "",
        };

    private static string Whole(Interval? number) =>
        number is { } known
            ? known.Width == 0
                ? Saying.Number(known.Middle)
                : $"{Saying.Number(known.Middle)} ({Saying.Number(known.Low)} to {Saying.Number(known.High)})"
            : "";

    private static string Share(Interval? share) =>
        share is { } known
            ? $"{Saying.Percent(known.Middle)} ({Saying.Percent(known.Low)} to {Saying.Percent(known.High)})"
            : "cannot be told";

    private static string Figure(double? value) =>
        value is { } known ? known.ToString("0.##", CultureInfo.InvariantCulture) : "";
}
