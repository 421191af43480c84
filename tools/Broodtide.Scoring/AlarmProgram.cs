using System.Globalization;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;

namespace Broodtide.Scoring;

/// <summary>alarms DIR [DIR ...] [--demand FALSE-A-MONTH MISSED-SHARE] [--summary] [--evenings] [--plant tenfold|blind]</summary>
internal static class AlarmProgram
{
    public const string Usage =
        "usage: alarms DIR [DIR ...] [--demand FALSE-A-MONTH MISSED-SHARE] [--summary] [--evenings] [--plant tenfold|blind]";

    /// <returns>0 when all is well, 1 when it is not as few as demanded, 2 for a line that is not understood.</returns>
    public static int Run(string[] args, Func<string, IEnumerable<string>> runs)
    {
        (double False, double Missed)? demand = null;
        var onlySummary = false;
        var evenings = false;
        Func<Fact, Fact?> plant = fact => fact;
        List<string> folders = [];
        for (var i = 0; i < args.Length; i++)
        {
            switch (args[i])
            {
                case "--demand"
                    when i + 2 < args.Length
                        && double.TryParse(args[i + 1], CultureInfo.InvariantCulture, out var most)
                        && double.TryParse(args[i + 2], CultureInfo.InvariantCulture, out var missed):
                    demand = (most, missed);
                    i += 2;
                    break;
                case "--summary":
                    onlySummary = true;
                    break;
                case "--evenings":
                    evenings = true;
                    break;
                case "--plant" when i + 1 < args.Length && Planted(args[i + 1]) is { } planted:
                    plant = planted;
                    i++;
                    break;
                case var folder when !folder.StartsWith('-'):
                    folders.Add(folder);
                    break;
                default:
                    Console.Error.WriteLine(Usage);
                    return 2;
            }
        }

        if (folders.Count == 0)
        {
            Console.Error.WriteLine(Usage);
            return 2;
        }

        var board = new AlarmBoard(plant, evenings);
        if (!onlySummary)
        {
            Console.WriteLine(AlarmBoard.Header);
        }

        foreach (var line in folders.SelectMany(runs).SelectMany(board.Take))
        {
            if (!onlySummary)
            {
                Console.WriteLine(line);
            }
        }

        foreach (var line in board.Summary())
        {
            Console.WriteLine(line);
        }

        return demand is { } asked && (board.FalseAMonth > asked.False || board.MissedShare > asked.Missed)
            ? 1
            : 0;
    }

    // Wrong ideas of a vessel: every ration is taken for ten times what it was, or nobody ever tells that it was fed.
    private static Func<Fact, Fact?>? Planted(string name) =>
        name switch
        {
            "tenfold" => fact =>
                fact is VesselFed { Mass: { } mass } fed
                    ? fed with
                    {
                        Mass = TypedNumber.Of(10 * mass.Value, mass.Unit),
                    }
                    : fact,
            "blind" => fact =>
                fact is VesselFed { Mass: not null } or Domain.Readings.ReadingTaken ? null : fact,
            _ => null,
        };
}
