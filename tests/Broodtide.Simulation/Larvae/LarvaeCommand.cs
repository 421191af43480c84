using System.Globalization;

namespace Broodtide.Simulation.Larvae;

/// <summary>The command line after the word larvae.</summary>
public static class LarvaeCommand
{
    /// <returns>0, or 2 for a line that is not understood.</returns>
    public static async Task<int> Run(IReadOnlyList<string> arguments)
    {
        var runs = 400;
        var aliquots = 4;
        ulong seed = 1;
        var folder = "";
        Scenario? scenario = null;
        var understood = arguments.Count % 2 == 0;
        for (var i = 0; i + 1 < arguments.Count; i += 2)
        {
            var value = arguments[i + 1];
            switch (arguments[i])
            {
                case "--scenario":
                    scenario = Scenario.Find(value);
                    break;
                case "--runs"
                    when int.TryParse(value, CultureInfo.InvariantCulture, out var count) && count > 0:
                    runs = count;
                    break;
                case "--seed" when ulong.TryParse(value, CultureInfo.InvariantCulture, out var number):
                    seed = number;
                    break;
                case "--aliquots"
                    when int.TryParse(value, CultureInfo.InvariantCulture, out var each) && each > 0:
                    aliquots = each;
                    break;
                case "--out":
                    folder = value;
                    break;
                default:
                    understood = false;
                    break;
            }
        }

        if (!understood || scenario is null || folder.Length == 0)
        {
            await Console.Error.WriteLineAsync(
                "usage: larvae --scenario NAME --out DIR [--runs 400] [--seed 1] [--aliquots 4]\nscenarios:\n"
                    + string.Join('\n', Scenario.All.Select(known => $"  {known.Name}: {known.Line}"))
            );
            return 2;
        }

        Runs.Write(folder, scenario, runs, seed, aliquots);
        return 0;
    }
}
