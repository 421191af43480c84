using System.Globalization;

namespace Broodtide.Simulation.Larvae;

/// <summary>Writes folders of invented runs: events.csv and truth.csv in each.</summary>
public static class Runs
{
    public static void Write(string folder, Scenario scenario, int count, ulong seed, int aliquots = 4)
    {
        for (var i = 1; i <= count; i++)
        {
            var run = scenario.Number(seed, i, aliquots);
            var place = Path.Combine(folder, i.ToString("000", CultureInfo.InvariantCulture));
            Directory.CreateDirectory(place);
            File.WriteAllLines(
                Path.Combine(place, "events.csv"),
                [Row.Header, .. run.Events.Select(row => row.Written())]
            );
            File.WriteAllLines(Path.Combine(place, "truth.csv"), [Run.TruthHeader, .. run.TruthRows()]);
        }
    }
}
