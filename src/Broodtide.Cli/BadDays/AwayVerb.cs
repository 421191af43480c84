using Broodtide.Cli.Ahead;
using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.BadDays;
using Broodtide.Workbench.Planning;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Cli.BadDays;

/// <summary>A dose of every day.</summary>
internal sealed record AwayPortionJson(
    string Food,
    string? Name,
    double? DryMilligramsPerDay,
    double? MillilitresPerDay
);

/// <summary>One vessel during an absence.</summary>
internal sealed record AwayVesselJson(
    string Vessel,
    double TopUpMillilitresPerDay,
    string? LeavesBand,
    IReadOnlyList<AwayPortionJson> Portions,
    bool FoodNotKnown,
    SafetyInterval? AliveWithDoses,
    SafetyInterval? AliveIfNobodyComes,
    double? ChanceAmmoniaWithDoses,
    double? ChanceLowOxygenWithDoses,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>A brood that may hatch meanwhile.</summary>
internal sealed record AwayHatchJson(string Brood, double Chance, double ChanceOutBefore);

/// <summary>An absence.</summary>
internal sealed record AwayAnswer(
    string Now,
    string From,
    string Until,
    int Days,
    IReadOnlyList<RemarkJson> First,
    IReadOnlyList<string> Cautions,
    IReadOnlyList<AwayHatchJson> Hatches,
    IReadOnlyList<ActionJson> Before,
    IReadOnlyList<ActionJson> Cannot,
    IReadOnlyList<ActionJson> CanWait,
    IReadOnlyList<AwayVesselJson> Vessels,
    IReadOnlyList<RemarkJson> Assumes
);

/// <summary>Plans an absence.</summary>
internal static class AwayVerb
{
    public static VerbCommand Make()
    {
        var days = Slot.Word("DAYS", "Days away, 1 to 45.");
        var from = Slot.Option("--from", "First day away; tomorrow if left out.", "DATE");
        var sheet = Slot.Option("--sheet", "Write the helper's sheet as a page to print.", "FILE");
        return new(
            "away",
            "An absence: what cannot slip, what to do before, what can wait, doses for a helper with amounts a day.",
            ["badday away 7", "badday away 3 --json"],
            [days, from, sheet],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var number = said.TheCount(days);
                var first = outlook.Now.InZone(outlook.Zone).Date.PlusDays(1);
                if (said.Text(from) is { } typed)
                {
                    var read = LocalDatePattern.Iso.Parse(typed);
                    if (read.Success)
                    {
                        first = read.Value;
                    }
                    else
                    {
                        said.Add(new Remark("day-unreadable", new("field", "from"), new("typed", typed)));
                    }
                }

                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                var told = AwayPlanning.Of(outlook, first, number);
                if (!told.Succeeded)
                {
                    return sitting.Refuse([told.Reason], saying);
                }

                var words = new ActionWords(saying, outlook.House);
                if (said.Text(sheet) is { } path)
                {
                    if (File.Exists(path))
                    {
                        return sitting.Refuse(
                            [new Remark("file-is-there", new Argument("file", path))],
                            saying
                        );
                    }

                    await File.WriteAllTextAsync(
                        path,
                        HelperSheet.Of(told.Value, outlook, said.Naming, words),
                        sitting.Cancellation
                    );
                }

                var answer = Json(told.Value, said.Naming, saying, words);
                return sitting.Answer(
                    answer,
                    CliJson.Default.AwayAnswer,
                    page => Print(page, answer, told.Value, words)
                );
            }
        );
    }

    private static AwayAnswer Json(AwayPlan plan, Naming naming, Saying saying, ActionWords words) =>
        new(
            Saying.Iso(plan.Now),
            Iso(plan.From),
            Iso(plan.Until),
            plan.Days,
            BadDayVerb.Json(plan.First, saying),
            BadDayVerb.Cautions(plan.Cautions),
            [
                .. plan.Hatches.Select(hatch => new AwayHatchJson(
                    naming.NameOf(Subject.Of(hatch.Brood)),
                    hatch.Chance.Value,
                    hatch.OutBefore.Value
                )),
            ],
            [.. plan.Before.Select(words.Json)],
            [.. plan.Cannot.Select(words.Json)],
            [.. plan.CanWait.Select(words.Json)],
            [
                .. plan.Vessels.Select(one => new AwayVesselJson(
                    naming.NameOf(Subject.Of(one.Vessel)),
                    one.TopUpMillilitresPerDay,
                    one.LeavesBand is { } leaves ? Saying.Iso(leaves) : null,
                    [
                        .. one.Portions.Select(portion => new AwayPortionJson(
                            EnumWords.Of(portion.Food),
                            portion.Name,
                            portion.DryMilligrams,
                            portion.Millilitres
                        )),
                    ],
                    one.FoodNotKnown,
                    one.AliveTended is { } tended ? SafetyInterval.Of(tended) : null,
                    one.AliveLeft is { } left ? SafetyInterval.Of(left) : null,
                    one.FoulsTended?.Value,
                    one.ChokesTended?.Value,
                    BadDayVerb.Json(one.Remarks, saying)
                )),
            ],
            BadDayVerb.Json(plan.Assumed, saying)
        );

    private static void Print(Page page, AwayAnswer answer, AwayPlan plan, ActionWords words)
    {
        BadDayVerb.PrintFirst(page, answer.First, answer.Cautions);
        Actions(page, "Before you go", plan.Before, words);
        Actions(page, "Cannot slip: a helper does it, or it is lost", plan.Cannot, words);
        Actions(page, "Can wait for you", plan.CanWait, words);
        page.Heading($"Every day, {answer.From} to {answer.Until}")
            .Table(
                ["vessel", "fresh water", "food", "alive at the end", "if nobody comes"],
                answer.Vessels.Zip(
                    plan.Vessels,
                    (one, told) =>
                        (IReadOnlyList<string>)
                            [
                                one.Vessel,
                                one.TopUpMillilitresPerDay > 0
                                    ? $"{Saying.Number(one.TopUpMillilitresPerDay)} mL"
                                    : "none",
                                one.Portions.Count == 0
                                    ? (told.FoodNotKnown ? "not known: see below" : "none")
                                    : string.Join(", ", one.Portions.Select(Told)),
                                Alive(one.AliveWithDoses),
                                Alive(one.AliveIfNobodyComes),
                            ]
                )
            );
        BadDayVerb.PrintAssumed(page, [.. answer.Vessels.SelectMany(one => one.Remarks), .. answer.Assumes]);
    }

    private static void Actions(
        Page page,
        string heading,
        IReadOnlyCollection<PlannedAction> actions,
        ActionWords words
    )
    {
        if (actions.Count == 0)
        {
            return;
        }

        page.Heading(heading);
        foreach (var action in actions)
        {
            page.Line($"  {words.Words(action)}, {words.When(action)}");
        }

        page.Line();
    }

    private static string Told(AwayPortionJson portion) =>
        portion.DryMilligramsPerDay is { } milligrams
            ? $"{portion.Name ?? portion.Food} {Saying.Number(milligrams)} mg dry"
            : $"{portion.Name ?? portion.Food} {Saying.Number(portion.MillilitresPerDay ?? 0)} mL";

    private static string Alive(SafetyInterval? alive) =>
        alive is null
            ? ""
            : $"{Math.Round(alive.Middle)} ({Math.Round(alive.Low)} to {Math.Round(alive.High)})";

    private static string Iso(LocalDate day) => LocalDatePattern.Iso.Format(day);
}
