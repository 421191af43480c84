using System.Diagnostics;
using System.Globalization;
using Broodtide.Science.Estimation.Vessels;

namespace Broodtide.Scoring;

/// <summary>score-vessels [--vessels N] [--days N] [--seed N] [--planted growth|decay] [--demand]</summary>
internal static class VesselProgram
{
    public const string Usage =
        "usage: score-vessels [--vessels N] [--days N] [--seed N] [--planted growth|decay] [--demand]";

    // The 90 % intervals may hold this share of the truths.
    private const double Fewest = 0.84;
    private const double Most = 0.96;
    private const double FewestOfOne = 0.78;

    /// <returns>0 when all is well, 1 when not calibrated although that was demanded.</returns>
    public static int Run(string[] args)
    {
        var (vessels, days, seed, demand, believed) = (100, 30, 1, false, VesselPriors.Usual);
        for (var i = 0; i < args.Length; i++)
        {
            var next = i + 1 < args.Length ? args[i + 1] : "";
            var number = int.TryParse(next, NumberStyles.None, CultureInfo.InvariantCulture, out var told)
                ? told
                : -1;
            switch (args[i])
            {
                case "--vessels" when number > 0:
                    vessels = number;
                    i++;
                    break;
                case "--days" when number >= 7:
                    days = number;
                    i++;
                    break;
                case "--seed" when number >= 0:
                    seed = number;
                    i++;
                    break;
                case "--planted" when PlantedVessels.Find(next) is { } wrong:
                    believed = wrong;
                    i++;
                    break;
                case "--demand":
                    demand = true;
                    break;
                default:
                    throw new FileTroubleException(Usage);
            }
        }

        var board = new VesselBoard { Believed = believed };
        var watch = Stopwatch.StartNew();
        for (var vessel = 0; vessel < vessels; vessel++)
        {
            board.Take((10_000 * seed) + vessel, days);
        }

        Console.WriteLine(
            FormattableString.Invariant(
                $"{vessels} vessels of {days} days, seed {seed}, {watch.Elapsed.TotalSeconds:0} s"
            )
        );
        foreach (var line in board.Summary())
        {
            Console.WriteLine(line);
        }

        return
            !demand
            || (
                board.Covered is >= Fewest and <= Most
                && board.Quantities.All(each => board.CoveredOf(each) >= FewestOfOne)
            )
            ? 0
            : 1;
    }
}
