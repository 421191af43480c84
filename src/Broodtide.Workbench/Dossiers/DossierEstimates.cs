using Broodtide.Domain;
using Broodtide.Workbench.Population;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Dossiers;

/// <summary>
/// What is computed of a dossier's runs, as one table: how many live, in which stage, how salt their water was, when they
/// settle. These are the numbers that a replay must give again.
/// </summary>
public static class DossierEstimates
{
    private const string Alive = "alive";

    /// <summary>The table. Estimates that are not at hand are worked out.</summary>
    public static DataTable Of(Dossier dossier)
    {
        ArgumentNullException.ThrowIfNull(dossier);
        return new(
            "estimates",
            "Estimates",
            "One row a computed number with the points that it is under with 5, 50 and 95 chances in a hundred. Rows "
                + "after the instant of telling are forecasts.",
            [
                new("run", ColumnType.Text, "Identity of the run.", Required: true),
                new(
                    "quantity",
                    ColumnType.Text,
                    "What it is: larvae alive in all vessels or in one, the share in a stage, practical salinity, or "
                        + "days since the first crossing until the first, half and nine in ten have settled.",
                    Codes:
                    [
                        Alive,
                        "stage-share",
                        "salinity",
                        "settled-first-day",
                        "settled-half-day",
                        "settled-nine-tenths-day",
                    ],
                    Required: true
                ),
                new("vessel", ColumnType.Text, "Identity of the vessel; empty for all together."),
                new("stage", ColumnType.Text, "The stage, for a share."),
                new("at", ColumnType.Instant, "The instant it is told of.", Required: true),
                new("low", ColumnType.Number, "The 5 % point; for a share the share.", Required: true),
                new("middle", ColumnType.Number, "The 50 % point; for a share the share.", Required: true),
                new("high", ColumnType.Number, "The 95 % point; for a share the share.", Required: true),
                new("unit", ColumnType.Text, "Its unit, as a UCUM code.", Required: true),
                new(
                    "is_rough",
                    ColumnType.YesNo,
                    "Whether it rests on too little for its middle to be used.",
                    Required: true
                ),
            ],
            [.. dossier.Runs.SelectMany(run => OfRun(dossier, run))]
        );
    }

    private static IEnumerable<IReadOnlyList<string>> OfRun(Dossier dossier, RunId run)
    {
        var line = dossier.TideLineOf(run);
        foreach (var row in line.Alive)
        {
            yield return Row(run, Alive, null, "", row.At, row.Value, "1", line.AliveIsRough);
        }

        foreach (var vessel in line.Vessels)
        {
            foreach (var row in vessel.Alive)
            {
                yield return Row(run, Alive, vessel.Id, "", row.At, row.Value, "1", vessel.AliveIsRough);
            }

            foreach (var row in vessel.Salinity)
            {
                yield return Row(run, "salinity", vessel.Id, "", row.At, row.Value, "1", false);
            }
        }

        foreach (var row in line.Stages)
        {
            foreach (var (stage, share) in line.StageNames.Zip(row.Shares))
            {
                yield return Row(
                    run,
                    "stage-share",
                    null,
                    stage.Name,
                    row.At,
                    Interval.Exactly(share),
                    "1",
                    line.AliveIsRough
                );
            }
        }

        if (
            dossier.Outlook.House.Run(run).Brood is { } brood
            && dossier.Outlook.PopulationOf(brood) is { } population
            && dossier.Outlook.House.Brood(brood).Crossings is [var first, ..]
        )
        {
            var estimate = dossier.Outlook.EstimateOf(population);
            foreach (
                var (code, range) in new (string, InstantRange)[]
                {
                    ("settled-first-day", estimate.Settlement.First),
                    ("settled-half-day", estimate.Settlement.Half),
                    ("settled-nine-tenths-day", estimate.Settlement.NineTenths),
                }
            )
            {
                double Days(Instant at) => (at - first.When.Middle).TotalDays;
                yield return Row(
                    run,
                    code,
                    null,
                    "",
                    dossier.Outlook.Now,
                    Interval.FromPoints(Days(range.Early), Days(range.Middle), Days(range.Late)),
                    "d",
                    estimate.IsRough
                );
            }
        }
    }

    private static IReadOnlyList<string> Row(
        RunId run,
        string quantity,
        Guid? vessel,
        string stage,
        Instant at,
        Interval value,
        string unit,
        bool isRough
    ) =>
        [
            Cell.Of(run.Value),
            quantity,
            Cell.Of(vessel),
            stage,
            Cell.Of(at),
            Cell.Of(value.Low),
            Cell.Of(value.Middle),
            Cell.Of(value.High),
            unit,
            Cell.Of(isRough),
        ];
}
