namespace Broodtide.Looking;

/// <summary>What was found in one scene, beside the truth.</summary>
/// <param name="Name">The scene.</param>
/// <param name="Truth">How many there are.</param>
/// <param name="Number">What the counter answers: 5, 50, 95 %.</param>
/// <param name="F1">Mean over the frames of the agreement of marks with truths.</param>
/// <param name="FarOff">Frames whose marks are off the truth by more than half.</param>
/// <param name="Note">What was said beside it.</param>
public sealed record Line(string Name, int Truth, Units.Interval Number, double F1, int FarOff, string Note)
{
    /// <summary>A scene that was not counted: taken as none, all its frames as far off.</summary>
    public static Line Refused(Scene scene, int frames, Units.Remark reason) =>
        new(scene.Name, scene.Count, Units.Interval.Exactly(0), 0, frames, $"refused: {reason}");
}

/// <summary>Prints a table of counts and the figures the bars are given in.</summary>
public static class Board
{
    public static void Print(string title, IReadOnlyList<Line> lines)
    {
        Write($"\n{title}");
        Write("scene       truth    5 %   50 %   95 %   error     F1");
        foreach (var line in lines)
        {
            Write(
                $"{line.Name, -10} {line.Truth, 6} {line.Number.Low, 6:0} {line.Number.Middle, 6:0} "
                    + $"{line.Number.High, 6:0} {Error(line), 7:0.0 %} {line.F1, 6:0.00}  {line.Note}"
            );
        }

        var bias = lines.Average(line => Signed(line));
        var width = lines.Average(line => line.Number.Width / Math.Max(1, line.Truth));
        Write(
            $"MAPE {lines.Average(Error):0.0 %}, median {Median(lines):0.0 %}, bias {bias:+0.0 %;-0.0 %}, "
                + $"F1 {lines.Average(line => line.F1):0.000}; intervals hold the truth in "
                + $"{lines.Count(line => line.Number.Contains(line.Truth))} of {lines.Count} (not judged on so few), "
                + $"mean relative width {width:0.00}; frames off by more than half: {lines.Sum(line => line.FarOff)}"
        );
    }

    public static bool IsFarOff(int truth, int marks) => Math.Abs(marks - truth) > 0.5 * truth;

    // The culture of the process is the invariant one.
    public static void Write(string text) => Console.Out.WriteLine(text);

    private static double Signed(Line line) => (line.Number.Middle - line.Truth) / Math.Max(1, line.Truth);

    private static double Error(Line line) => Math.Abs(Signed(line));

    private static double Median(IReadOnlyList<Line> lines) =>
        lines.Select(Error).Order().ElementAt(lines.Count / 2);
}
