using Broodtide.Science.Comparing;
using Broodtide.Science.Statistics;
using Broodtide.Units;

namespace Broodtide.Workbench.Comparing;

/// <summary>A line by dose over the vessels of a table.</summary>
public static class DoseTable
{
    /// <summary>Fits the line.</summary>
    /// <param name="table">The table.</param>
    /// <param name="dose">Column of the dose.</param>
    /// <param name="responded">Column with how many responded.</param>
    /// <param name="of">Column with how many there were.</param>
    /// <param name="link">How the share hangs on the line.</param>
    /// <returns>The line, or what is wrong with the table.</returns>
    public static (DoseResponse? Fit, Remark? Why) Of(
        CellTable table,
        string dose,
        string responded,
        string of,
        BinomialLink link
    )
    {
        var (vessels, why) = VesselTable.Of(table, new([dose], null, responded, of, null));
        if (why is not null)
        {
            return (null, why);
        }

        var doses = new List<double>();
        foreach (var ((line, _), vessel) in table.Rows.Zip(vessels))
        {
            var (value, noNumber) = CellTable.Number(dose, line, vessel.Levels[0]);
            if (noNumber is not null)
            {
                return (null, noNumber);
            }

            doses.Add(value);
        }

        return doses.Distinct().Count() < 3
            ? (null, new Remark("table-too-few-doses"))
            : (
                DoseResponse.Of(
                    doses,
                    [.. vessels.Select(vessel => new Tally(vessel.Alive, vessel.Started))],
                    link
                ),
                null
            );
    }
}
