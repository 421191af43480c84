using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Water;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Feeding;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Cli.Feeding;

/// <summary>A count of a culture and how it stood to what was believed before it.</summary>
internal sealed record CultureCountJson(string At, double Density, double Expected, double OffSd);

/// <summary>What can be taken.</summary>
internal sealed record CultureHarvestJson(
    PointsJson LastingSharePerDay,
    double TodayLitres,
    double TodayCells
);

/// <summary>When it can be used.</summary>
internal sealed record CultureReadyJson(
    double WantedDensity,
    bool IsReady,
    string? Earliest,
    string? Middle,
    string? Latest
);

/// <summary>A culture. Densities are cells or animals a mL; of a film the share of the surface covered.</summary>
internal sealed record CultureJson(
    string Vessel,
    string Kind,
    string Started,
    double AgeDays,
    double? WaterLitres,
    PointsJson Density,
    PointsJson GrowthPerDay,
    PointsJson Capacity,
    CultureHarvestJson? Harvest,
    CultureReadyJson Ready,
    string NextCount,
    IReadOnlyList<RemarkJson> Warnings,
    IReadOnlyList<RemarkJson> Remarks,
    IReadOnlyList<CultureCountJson> Counts
);

/// <summary>The cultures of a house.</summary>
internal sealed record CulturesAnswer(string Now, IReadOnlyList<CultureJson> Cultures);

/// <summary>The culture bench.</summary>
internal static class CulturesVerb
{
    public static Command Make()
    {
        var vessel = Slot.MaybeWord("VESSEL", "Which one, with its counts. All if left out.");
        return new VerbCommand(
            "cultures",
            "The cultures: how dense they are, how fast they grow by their own counts, what to harvest today, what warns of a crash.",
            ["cultures", "cultures --json"],
            [vessel],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var id = said.Vessel(vessel);
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                IReadOnlyList<CultureState> cultures =
                    id is not { } one ? outlook.Cultures
                    : outlook.CultureOf(one) is { } found ? [found]
                    : [];
                if (id is { } none && cultures.Count == 0)
                {
                    return sitting.Refuse(
                        [new Remark("vessel-is-no-culture", new Argument("vessel", none))],
                        saying
                    );
                }

                return sitting.Answer(
                    new CulturesAnswer(
                        Saying.Iso(outlook.Now),
                        [.. cultures.Select(culture => Json(culture, said.Naming, saying))]
                    ),
                    CliJson.Default.CulturesAnswer,
                    page =>
                    {
                        if (cultures.Count == 0)
                        {
                            page.Line("No culture is described yet: write culture VESSEL ALGA.");
                        }
                        else if (id is null)
                        {
                            PrintAll(page, cultures, said.Naming, saying);
                        }
                        else
                        {
                            PrintOne(page, cultures[0], said.Naming, saying);
                        }
                    }
                );
            }
        );
    }

    private static CultureJson Json(CultureState culture, Naming naming, Saying saying) =>
        new(
            naming.NameOf(Subject.Of(culture.Vessel)),
            EnumWords.Of(culture.Described.Alga),
            Saying.Iso(culture.Started),
            Math.Round(culture.AgeDays, 2),
            culture.Water?.Litres,
            PointsJson.Of(culture.Density),
            PointsJson.Of(culture.RatePerDay),
            PointsJson.Of(culture.Capacity),
            culture.Harvest is { } harvest
                ? new(PointsJson.Of(harvest.LastingShare), harvest.Today.Litres, harvest.CellsToday)
                : null,
            new(
                culture.Ready.Wanted,
                culture.Ready.IsReady,
                Iso(culture.Ready.Earliest),
                Iso(culture.Ready.Middle),
                Iso(culture.Ready.Latest)
            ),
            Saying.Iso(culture.NextCount),
            [.. culture.Warnings.Select(saying.Json)],
            [.. culture.Remarks.Select(saying.Json)],
            [
                .. culture.Counts.Zip(
                    culture.Fits,
                    (count, fit) =>
                        new CultureCountJson(Saying.Iso(count.At), count.Density, fit.Expected, fit.Off)
                ),
            ]
        );

    private static string? Iso(Instant? instant) => instant is { } known ? Saying.Iso(known) : null;

    private static void PrintAll(
        Page page,
        IReadOnlyList<CultureState> cultures,
        Naming naming,
        Saying saying
    )
    {
        page.Table(
            ["culture", "of", "density", "growth a day", "harvest today", "count next"],
            cultures.Select(culture =>
                (IReadOnlyList<string>)
                    [
                        naming.NameOf(Subject.Of(culture.Vessel)),
                        EnumWords.Plain(culture.Described.Alga),
                        Density(culture, culture.Density),
                        Growth(culture.RatePerDay),
                        culture.Harvest is { } harvest
                            ? UnitNames.Litres(FoodText.Rounded(harvest.Today.Litres))
                            : "nothing",
                        saying.Day(culture.NextCount),
                    ]
            )
        );
        foreach (var culture in cultures)
        {
            foreach (var warning in culture.Warnings)
            {
                page.Line($"{naming.NameOf(Subject.Of(culture.Vessel))}: {saying.Of(warning)}");
            }
        }
    }

    private static void PrintOne(Page page, CultureState culture, Naming naming, Saying saying)
    {
        page.Heading(
                $"{naming.NameOf(Subject.Of(culture.Vessel))}: {EnumWords.Plain(culture.Described.Alga)}, {Saying.Number(Math.Round(culture.AgeDays))} days old"
            )
            .Facts(
                ("Density", Density(culture, culture.Density)),
                ("Growth", $"{Growth(culture.RatePerDay)} a day while thin"),
                ("Approaches", Density(culture, culture.Capacity)),
                ("Water", culture.Water is { } water ? UnitNames.Litres(water.Litres) : null),
                ("Ready", Ready(culture, saying)),
                ("Harvest today", Harvest(culture)),
                ("Count next", saying.Day(culture.NextCount))
            );
        FoodText.Print(page, culture.Warnings.Concat(culture.Remarks), saying);
        if (culture.Counts.Count > 0)
        {
            page.Line()
                .Table(
                    ["counted", "density", "expected"],
                    culture.Counts.Zip(
                        culture.Fits,
                        (count, fit) =>
                            (IReadOnlyList<string>)
                                [
                                    saying.Time(count.At),
                                    One(culture, count.Density),
                                    One(culture, fit.Expected),
                                ]
                    )
                );
        }
    }

    private static string Harvest(CultureState culture) =>
        culture.Harvest is { } harvest
            ? $"{UnitNames.Litres(FoodText.Rounded(harvest.Today.Litres))}; {Saying.Percent(harvest.LastingShare.Middle)} a day lasts ({Saying.Percent(harvest.LastingShare.Low)} to {Saying.Percent(harvest.LastingShare.High)})"
            : "nothing";

    private static string Ready(CultureState culture, Saying saying) =>
        culture.Ready.IsReady ? "now"
        : culture.Ready.Middle is { } middle
            ? $"{saying.Day(middle)} ({(culture.Ready.Earliest is { } early ? saying.Day(early) : "now")} to {(culture.Ready.Latest is { } late ? saying.Day(late) : "later than two months")})"
        : "not within two months";

    private static string Growth(Interval rate) =>
        $"{Saying.Percent(Math.Exp(rate.Middle) - 1)} ({Saying.Percent(Math.Exp(rate.Low) - 1)} to {Saying.Percent(Math.Exp(rate.High) - 1)})";

    private static string Density(CultureState culture, Interval density) =>
        culture.IsFilm
            ? $"{Saying.Percent(Math.Min(1, density.Middle))} covered ({Saying.Percent(Math.Min(1, density.Low))} to {Saying.Percent(Math.Min(1, density.High))})"
            : $"{FoodText.Cells(density.Middle)} ({FoodText.Cells(density.Low)} to {FoodText.Cells(density.High)}) a mL";

    private static string One(CultureState culture, double density) =>
        culture.IsFilm ? Saying.Percent(Math.Min(1, density)) : FoodText.Cells(density);
}
