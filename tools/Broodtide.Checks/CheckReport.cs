namespace Broodtide.Checks;

/// <summary>Runs files and tells of every line that did not pass, then how many did.</summary>
public static class CheckReport
{
    /// <summary>Runs the files.</summary>
    /// <returns>0 if nothing failed, else 1. A line of an unknown quantity is told and counted, but no failure.</returns>
    public static int Run(IReadOnlyList<string> files, string dataFolder, TextWriter output)
    {
        var outcomes = files.SelectMany(file => RunFile(file, dataFolder, output)).ToArray();
        var failed = Count(CheckVerdict.Failed);
        output.WriteLine(
            $"{Count(CheckVerdict.Passed)} passed, {failed} failed, {Count(CheckVerdict.Unknown)} unknown"
        );
        return failed == 0 ? 0 : 1;

        int Count(CheckVerdict verdict) => outcomes.Count(outcome => outcome.Verdict == verdict);
    }

    private static List<CheckOutcome> RunFile(string file, string dataFolder, TextWriter output)
    {
        var outcomes = new List<CheckOutcome>();
        try
        {
            var surroundings = CheckSurroundings.Of(file, dataFolder);
            outcomes.AddRange(CheckFile.Read(file).Select(row => CheckRunner.Run(row, surroundings)));
        }
        catch (CheckFormatException problem)
        {
            // A file that cannot be read at all counts as one failure, so that it never passes unseen.
            outcomes.Add(new(1, CheckVerdict.Failed, problem.Message));
        }

        foreach (var outcome in outcomes.Where(outcome => outcome.Words.Length > 0))
        {
            output.WriteLine($"{file}:{outcome.Line}: {outcome.Words}");
        }

        return outcomes;
    }
}
