using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Science.Food;
using Broodtide.Units;
using Broodtide.Workbench.Feeding;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Cli.Feeding;

/// <summary>One step from a bottle to the next.</summary>
internal sealed record ScaleUpStepJson(double FromLitres, double ToLitres, PointsJson Days, string? StartBy);

/// <summary>The way from a starter to a culture that feeds the larvae.</summary>
internal sealed record ScaleUpAnswer(
    string Alga,
    PointsJson CellsPerDay,
    double FirstDoseLitres,
    double SharePerDay,
    double StandingLitres,
    PointsJson Days,
    string? Ready,
    string? StartBy,
    IReadOnlyList<ScaleUpStepJson> Steps,
    IReadOnlyList<RemarkJson> Remarks
);

/// <summary>Standing culture and the way to it.</summary>
internal static class ScaleUpVerb
{
    public static Command Make()
    {
        var water = Slot.Word("WATER", "Water of the larvae, such as \"7 L\".");
        var alga = Slot.Option("--alga", $"The alga: {FoodText.Algae}; tetraselmis if left out.", "ALGA");
        var target = Slot.Option("--target", "Cells wanted in it, per mL; 5e4 if left out.", "CELLS");
        var larvae = Slot.Option("--larvae", "Larvae a litre; 20 if left out.", "NUMBER");
        var starter = Slot.Option(
            "--starter",
            "Starter at hand and its cells per mL, such as \"200 mL; 1e6\"; 100 mL of the usual density if left out.",
            "VOLUME; CELLS"
        );
        var harvest = Slot.Option("--harvest", "Cells of the culture at harvest, per mL.", "CELLS");
        var share = Slot.Option("--share", "Harvested a day; else what lasts with slow growth.", "PERCENT");
        var ready = Slot.Option("--ready", "The day it must be ready, for dates.", "TIME");
        return new VerbCommand(
            "scale-up",
            "How much standing culture a larval vessel needs, and the steps from a starter to it, backward from a day.",
            [
                "food scale-up \"7 L\" --larvae 30 --starter \"200 mL; 1e6\" --ready 2026-04-20",
                "food scale-up \"10 L\" --alga isochrysis --target 1e5 --json",
            ],
            [water, alga, target, larvae, starter, harvest, share, ready],
            sitting =>
            {
                var said = new Said(sitting, new Domain.House(new Domain.Journal.Account()));
                var kind = FoodText.Alga(said, alga) ?? AlgaKind.Find("tetraselmis")!;
                var (volume, dense) = Starter(said, starter);
                var litres = FoodText.Volume(said, water);
                var order = new ScaleUpOrder
                {
                    Alga = kind,
                    LarvalWater = litres ?? default,
                    Target = FoodText.Cells(said, target) ?? CellDensity.FromPerMillilitre(5e4),
                    LarvaePerLitre = FoodText.Number(said, larvae, 0, 1e4) ?? 20,
                    Starter = volume,
                    StarterDensity = dense,
                    Harvest = FoodText.Cells(said, harvest),
                    SharePerDay = FoodText.Share(said, share, 0.1, 90) is { } part
                        ? Probability.FromFraction(part)
                        : null,
                };
                var day = said.Time(ready)?.Middle.InZone(sitting.Zone).Date;
                return Task.FromResult(
                    said.Wrong.Count > 0 || litres is null
                        ? sitting.NotUnderstood(said.Wrong)
                        : ScaleUp.Plan(order) switch
                        {
                            FeedingAnswer<ScaleUp>.Found { Value: var plan } => Answer(
                                sitting,
                                kind,
                                plan,
                                day
                            ),
                            FeedingAnswer<ScaleUp>.Refused { Why: var why } => sitting.Refuse([why]),
                            _ => throw new InvalidOperationException("A plan is found or refused."),
                        }
                );
            }
        );
    }

    private static (Volume Volume, CellDensity? Density) Starter(Said said, Slot slot)
    {
        var usual = Volume.FromMillilitres(100);
        if (said.Text(slot) is not { } text)
        {
            return (usual, null);
        }

        var parts = text.Split(';', StringSplitOptions.TrimEntries);
        return (
            FoodText.Volume(said, parts[0], slot.Name) ?? usual,
            parts.Length > 1 ? FoodText.Cells(said, parts[1], $"{slot.Name} cells") : null
        );
    }

    private static int Answer(Sitting sitting, AlgaKind alga, ScaleUp plan, LocalDate? ready)
    {
        var saying = new Saying(sitting.Zone, null);
        var starts = StartDays(plan, ready);
        return sitting.Answer(
            new ScaleUpAnswer(
                alga.Code,
                PointsJson.Of(plan.CellsPerDay),
                plan.FirstDose.Litres,
                plan.SharePerDay.Value,
                plan.Standing.Litres,
                PointsJson.Of(plan.Days),
                Day(ready),
                ready is { } wanted ? Day(plan.StartBy(wanted)) : null,
                [
                    .. plan.Steps.Select(
                        (step, i) =>
                            new ScaleUpStepJson(
                                step.From.Litres,
                                step.To.Litres,
                                PointsJson.Of(step.Days),
                                Day(starts[i])
                            )
                    ),
                ],
                [.. plan.Remarks.Select(saying.Json)]
            ),
            CliJson.Default.ScaleUpAnswer,
            page => Print(page, plan, ready, starts, saying)
        );
    }

    // Each step by when, so that all that follow are done in nineteen of twenty cases.
    private static List<LocalDate?> StartDays(ScaleUp plan, LocalDate? ready) =>
        [
            .. plan.Steps.Select(
                (_, i) => ready?.PlusDays(-(int)Math.Ceiling(plan.Steps.Skip(i).Sum(step => step.Days.High)))
            ),
        ];

    private static void Print(
        Page page,
        ScaleUp plan,
        LocalDate? ready,
        List<LocalDate?> starts,
        Saying saying
    )
    {
        page.Facts(
                (
                    "Cells a day",
                    $"{FoodText.Cells(plan.CellsPerDay.Middle)} ({FoodText.Cells(plan.CellsPerDay.Low)} to {FoodText.Cells(plan.CellsPerDay.High)})"
                ),
                ("First dose", UnitNames.Litres(FoodText.Rounded(plan.FirstDose.Litres))),
                (
                    "Standing culture",
                    $"{UnitNames.Litres(FoodText.Rounded(plan.Standing.Litres))}, {Saying.Percent(plan.SharePerDay.Value)} of it taken a day"
                ),
                (
                    "Days to it",
                    $"{Saying.Number(Math.Round(plan.Days.Middle))} ({Saying.Number(Math.Round(plan.Days.Low))} to {Saying.Number(Math.Round(plan.Days.High))})"
                ),
                (
                    "Start by",
                    ready is { } wanted ? $"{Day(plan.StartBy(wanted))}, to be ready on {Day(wanted)}" : null
                )
            )
            .Line()
            .Table(
                ["from", "to", "days", "start by"],
                plan.Steps.Select(
                    (step, i) =>
                        (IReadOnlyList<string>)
                            [
                                UnitNames.Litres(FoodText.Rounded(step.From.Litres)),
                                UnitNames.Litres(FoodText.Rounded(step.To.Litres)),
                                $"{Saying.Number(Math.Round(step.Days.Middle))} ({Saying.Number(Math.Round(step.Days.Low))} to {Saying.Number(Math.Round(step.Days.High))})",
                                Day(starts[i]) ?? "",
                            ]
                )
            )
            .Line();
        FoodText.Print(page, plan.Remarks, saying);
    }

    private static string? Day(LocalDate? date) =>
        date is { } known ? LocalDatePattern.Iso.Format(known) : null;
}
