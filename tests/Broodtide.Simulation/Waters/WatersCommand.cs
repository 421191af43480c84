using System.Globalization;

namespace Broodtide.Simulation.Waters;

/// <summary>
/// The command line after the word waters: writes folders of invented vessel months, what the keeper wrote in
/// events.csv (t_days, kind, x, y) and the truth of every hour in truth.csv.
/// </summary>
/// <remarks>
/// Kinds: filled (litres, salinity), light (hours, µmol), air on, air off, filter (an old sponge came with the water),
/// larvae (number), temperature (degC), colour (0 clear to 3 deep green), salinity, algae (mL in place of as much water, cells a mL as the keeper believes),
/// yeast and powder (mg dry), tan, nitrite (mg N/L), ph, oxygen (mg/L), changed (litres, salinity of the new water), topped up (litres of pure water).
/// </remarks>
public static class WatersCommand
{
    private const string Usage = "usage: waters --out DIR [--months 200] [--seed 1]";

    /// <returns>0, or 2 for a line that is not understood.</returns>
    public static async Task<int> Run(IReadOnlyList<string> arguments)
    {
        var months = 200;
        ulong seed = 1;
        var folder = "";
        var understood = arguments.Count % 2 == 0;
        for (var i = 0; i + 1 < arguments.Count; i += 2)
        {
            var value = arguments[i + 1];
            switch (arguments[i])
            {
                case "--months"
                    when int.TryParse(value, CultureInfo.InvariantCulture, out var count) && count > 0:
                    months = count;
                    break;
                case "--seed" when ulong.TryParse(value, CultureInfo.InvariantCulture, out var number):
                    seed = number;
                    break;
                case "--out":
                    folder = value;
                    break;
                default:
                    understood = false;
                    break;
            }
        }

        if (!understood || folder.Length == 0)
        {
            await Console.Error.WriteLineAsync(Usage);
            return 2;
        }

        for (var i = 1; i <= months; i++)
        {
            var month = new Month((seed * 1_000_003) + (ulong)i);
            month.Live();
            Write(Path.Combine(folder, i.ToString("000", CultureInfo.InvariantCulture)), month);
        }

        return 0;
    }

    private static void Write(string folder, Month month)
    {
        Directory.CreateDirectory(folder);
        File.WriteAllText(Path.Combine(folder, "habit.txt"), month.Habit + "\n");
        File.WriteAllLines(
            Path.Combine(folder, "events.csv"),
            [
                "t_days,kind,x,y",
                .. month
                    .Notes.OrderBy(note => note.Day)
                    .Select(note =>
                        string.Create(
                            CultureInfo.InvariantCulture,
                            $"{note.Day:0.#####},{note.Kind},{Number(note.X)},{Number(note.Y)}"
                        )
                    ),
            ]
        );
        File.WriteAllLines(
            Path.Combine(folder, "truth.csv"),
            [
                "t_days,nh3_n,oxygen,nitrite,ph,celsius,salinity,tan,cells_per_ml",
                .. month.Truth.Select(hour =>
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{hour.Day:0.#####},{hour.UnionisedAmmonia:0.#####},{hour.Oxygen:0.###},{hour.Nitrite:0.####},{hour.Ph:0.###},{hour.Celsius:0.##},{hour.Salinity:0.##},{hour.Ammonia:0.####},{hour.CellsPerMl:0}"
                    )
                ),
            ]
        );
    }

    private static string Number(double value) =>
        double.IsNaN(value) ? "" : value.ToString("0.####", CultureInfo.InvariantCulture);
}
