using Broodtide.Science.Development;
using Broodtide.Scoring;

const string usage = "usage: score-hatch DIR [DIR ...] [--demand-calibrated] | score-hatch --rows FILE";
if (args is ["alive", ..])
{
    try
    {
        return AliveProgram.Run(args[1..], Runs);
    }
    catch (FileTroubleException trouble)
    {
        await Console.Error.WriteLineAsync(trouble.Message);
        return 2;
    }
}

if (args is ["vessels", ..])
{
    try
    {
        return VesselProgram.Run(args[1..]);
    }
    catch (FileTroubleException trouble)
    {
        await Console.Error.WriteLineAsync(trouble.Message);
        return 2;
    }
}

if (args is ["alarms", ..])
{
    try
    {
        return AlarmProgram.Run(args[1..], Runs);
    }
    catch (FileTroubleException trouble)
    {
        await Console.Error.WriteLineAsync(trouble.Message);
        return 2;
    }
}

var prior = ReferencePriors.ReferenceSpecies;
var rowsOnly = args is ["--rows", _];
var demand = args.Contains("--demand-calibrated", StringComparer.Ordinal);
string[] folders = [.. args.Where(arg => arg != "--demand-calibrated")];
if (!rowsOnly && (folders.Length == 0 || folders.Any(folder => folder.StartsWith('-'))))
{
    await Console.Error.WriteLineAsync(usage);
    return 2;
}

try
{
    if (rowsOnly)
    {
        Console.WriteLine(DevelopmentRows.Header);
        foreach (var row in DevelopmentRows.Beside(prior, args[1]))
        {
            Console.WriteLine(row);
        }

        return 0;
    }

    var board = new Board(prior);
    Console.WriteLine(Board.Header);
    foreach (var run in folders.SelectMany(Runs))
    {
        Console.WriteLine(board.Take(run));
    }

    foreach (var line in board.Summary())
    {
        Console.WriteLine(line);
    }

    return !demand || IsCalibrated(board) ? 0 : 1;
}
catch (FileTroubleException trouble)
{
    await Console.Error.WriteLineAsync(trouble.Message);
    return 2;
}
catch (Exception outside) when (outside is IOException or UnauthorizedAccessException)
{
    await Console.Error.WriteLineAsync(outside.Message);
    return 2;
}

// 86 % to 93.75 %, that is 344 to 375 of 400, and better than the plain forecast.
static bool IsCalibrated(Board board) =>
    board.Scored > 0
    && board.Covered >= 0.86 * board.Scored
    && board.Covered <= 0.9375 * board.Scored
    && board.IntervalScore < board.PlainIntervalScore;

// A folder is a run itself, or holds runs.
static IEnumerable<string> Runs(string folder)
{
    if (!Directory.Exists(folder))
    {
        throw new FileTroubleException($"{folder}: no such folder.");
    }

    if (File.Exists(Path.Combine(folder, "events.csv")))
    {
        return [Path.TrimEndingDirectorySeparator(folder)];
    }

    var runs = Directory
        .GetDirectories(folder)
        .Where(run =>
            File.Exists(Path.Combine(run, "events.csv")) || File.Exists(Path.Combine(run, "truth.csv"))
        )
        .Order(StringComparer.Ordinal)
        .ToArray();
    return runs.Length > 0
        ? runs
        : throw new FileTroubleException(
            $"{folder}: holds no run; a run is a folder with events.csv and truth.csv."
        );
}
