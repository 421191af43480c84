using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Workbench.Comparing;

namespace Broodtide.Cli.Comparing;

/// <summary>Compares the treatments of a table of vessels.</summary>
internal static class CompareTableVerb
{
    public static Command Make()
    {
        var file = Slot.Word(
            "FILE",
            "A table with one row a vessel: comma, semicolon or tab between the cells."
        );
        var treatment = Slot.Options(
            "--treatment",
            "Column of the treatment; once for each factor.",
            "COLUMN"
        );
        var vessel = Slot.Option("--vessel", "Column of the vessel's name.", "COLUMN");
        var alive = Slot.Option("--alive", "Column with how many lived.", "COLUMN");
        var of = Slot.Option("--of", "Column with how many there were.", "COLUMN");
        var dead = Slot.Option("--dead", "Column with how many died.", "COLUMN");
        var against = Slot.Options(
            "--against",
            "The level to hold the others against, one for each factor.",
            "LEVEL"
        );
        var together = Slot.Flag("--together", "Fit what several factors do together.");
        return new VerbCommand(
            "table",
            "Compare the treatments of a table: columns treatment, vessel, alive, dead, or those you name.",
            [
                "compare table vessels.csv",
                "compare table vessels.csv --treatment treatment --alive alive --dead dead --json",
            ],
            [file, treatment, vessel, alive, of, dead, against, together],
            async sitting =>
            {
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, (await sitting.LookAsync()).House);
                var (table, noTable) = await TableRead.OfAsync(sitting, said.TheText(file));
                if (table is null)
                {
                    return sitting.NotUnderstood([noTable!], saying);
                }

                var usual = TableColumns.Usual;
                var columns = new TableColumns(
                    said.Texts(treatment) is { Count: > 0 } named ? named : usual.Factors,
                    said.Text(vessel) ?? usual.Vessel,
                    said.Text(alive) ?? usual.Alive,
                    said.Text(of),
                    said.Text(dead) ?? (said.Text(of) is null ? usual.Dead : null)
                );
                var (vessels, why) = VesselTable.Of(table, columns);
                if (why is not null)
                {
                    return sitting.NotUnderstood([why], saying);
                }

                var baselines = said.Texts(against);
                var compared = TreatmentsCompared.Of(
                    columns.Factors.Count == 1 ? AgainstFirst(vessels, baselines) : vessels,
                    columns.Factors,
                    baselines,
                    said.Flag(together)
                );
                return sitting.Answer(
                    ComparedJson.Of(compared, saying),
                    CliJson.Default.ComparedJson,
                    page => ComparedPage.Print(page, compared, saying)
                );
            }
        );
    }

    // What the others are held against stands first.
    private static IReadOnlyList<TableVessel> AgainstFirst(
        IReadOnlyList<TableVessel> vessels,
        IReadOnlyList<string> baselines
    ) =>
        baselines.Count == 0
            ? vessels
            :
            [
                .. vessels.OrderBy(vessel =>
                    string.Equals(vessel.Treatment, baselines[0], StringComparison.Ordinal) ? 0 : 1
                ),
            ];
}
