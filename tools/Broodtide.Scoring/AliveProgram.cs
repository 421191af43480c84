using Broodtide.Science.Estimation.Larvae;

namespace Broodtide.Scoring;

/// <summary>score-alive DIR [DIR ...] [--demand-calibrated WIDEST] [--summary] [--plant poisson|detection]</summary>
internal static class AliveProgram
{
    public const string Usage =
        "usage: score-alive DIR [DIR ...] [--demand-calibrated WIDEST] [--summary] [--plant poisson|detection]";

    /// <returns>0 when all is well, 1 when not calibrated although that was demanded.</returns>
    public static int Run(string[] args, Func<string, IEnumerable<string>> runs)
    {
        double? widest = null;
        var onlySummary = false;
        Func<LarvalRun, LarvalRun> plant = run => run;
        List<string> folders = [];
        for (var i = 0; i < args.Length; i++)
        {
            switch (args[i])
            {
                case "--demand-calibrated"
                    when i + 1 < args.Length && Table.Number(args[i + 1]) is { } number:
                    widest = number;
                    i++;
                    break;
                case "--plant" when i + 1 < args.Length && PlantedModels.Find(args[i + 1]) is { } wrong:
                    plant = wrong;
                    i++;
                    break;
                case "--summary":
                    onlySummary = true;
                    break;
                case var folder when !folder.StartsWith('-'):
                    folders.Add(folder);
                    break;
                default:
                    throw new FileTroubleException(Usage);
            }
        }

        if (folders.Count == 0)
        {
            throw new FileTroubleException(Usage);
        }

        List<string> all = [.. folders.SelectMany(runs)];
        var ofEach = FractionReading.IsOfEach(all);
        var board = new AliveBoard(plant, ofEach);
        IEnumerable<string> lines = all.SelectMany(board.Take);
        if (onlySummary)
        {
            lines = lines.ToList()[..0];
        }
        else
        {
            Console.WriteLine(AliveBoard.Header);
        }

        foreach (var line in lines.Concat(board.Summary()))
        {
            Console.WriteLine(line);
        }

        if (ofEach)
        {
            Console.WriteLine(
                "fractions were read as those of each aliquot: together they fit no number that crossed"
            );
        }

        return widest is not { } limit || board.IsCalibrated(limit) ? 0 : 1;
    }
}
