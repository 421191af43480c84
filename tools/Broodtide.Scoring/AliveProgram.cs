namespace Broodtide.Scoring;

/// <summary>score-alive DIR [DIR ...] [--demand-calibrated WIDEST]</summary>
internal static class AliveProgram
{
    public const string Usage = "usage: score-alive DIR [DIR ...] [--demand-calibrated WIDEST]";

    /// <returns>0 when all is well, 1 when not calibrated although that was demanded.</returns>
    public static int Run(string[] args, Func<string, IEnumerable<string>> runs)
    {
        var demand = Array.IndexOf(args, "--demand-calibrated");
        double? widest =
            demand < 0 ? null
            : demand + 1 < args.Length && Table.Number(args[demand + 1]) is { } number ? number
            : throw new FileTroubleException(Usage);
        string[] folders = demand < 0 ? args : [.. args[..demand], .. args[(demand + 2)..]];
        if (folders.Length == 0 || folders.Any(folder => folder.StartsWith('-')))
        {
            throw new FileTroubleException(Usage);
        }

        var board = new AliveBoard();
        Console.WriteLine(AliveBoard.Header);
        foreach (var line in folders.SelectMany(runs).SelectMany(board.Take))
        {
            Console.WriteLine(line);
        }

        foreach (var line in board.Summary())
        {
            Console.WriteLine(line);
        }

        return widest is not { } limit || board.IsCalibrated(limit) ? 0 : 1;
    }
}
