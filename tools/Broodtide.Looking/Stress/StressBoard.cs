using Broodtide.Scenes;

namespace Broodtide.Looking.Stress;

/// <summary>Prints how counting fares on invented scenes, in all and by what is in the way.</summary>
public static class StressBoard
{
    private const string Heads =
        "                      scenes  refused   held      %   width    MAPE    bias     F1  left out  far off";

    public static void Print(string title, IReadOnlyList<Outcome> outcomes)
    {
        Board.Write($"\n{title}\n{Heads}");
        Row("all", outcomes);
        Split(
            "larvae",
            outcomes,
            facts =>
                facts.Number switch
                {
                    0 => "0 none",
                    < 6 => "1 to 5",
                    < 30 => "6 to 29",
                    < 100 => "30 to 99",
                    _ => "over 99",
                }
        );
        Split("difficulty", outcomes, facts => $"{(int)facts.Difficulty} {facts.Difficulty}");
        Split("lens blur px", outcomes, facts => Third(facts.LensBlurPixels, 1, 1.35));
        Split("motion blur lengths", outcomes, facts => Third(facts.MotionBlur, 0.1, 0.3));
        Split(
            "dirt for each",
            outcomes,
            facts => Third((facts.Debris + facts.Bubbles) / Math.Max(1.0, facts.Number), 0.6, 2)
        );
        Split(
            "light scattered",
            outcomes,
            facts => facts.FloorScattered > 0.12 ? "3 too bright" : Third(facts.FloorScattered, 0.06, 0.09)
        );
        Split("albedo", outcomes, facts => Third(facts.Albedo, 0.35, 0.45));
        Split("ripples px", outcomes, facts => Third(facts.RipplePixels, 0.2, 0.6));
        Split("wall", outcomes, facts => facts.HasWall ? "yes" : "no");
        Split("file quality", outcomes, facts => Third(facts.JpegQuality, 76, 86));
    }

    private static string Third(double value, double low, double high) =>
        value < low ? $"0 below {low}"
        : value < high ? $"1 to {high}"
        : "2 above";

    private static void Split(string by, IReadOnlyList<Outcome> outcomes, Func<SceneFacts, string> key)
    {
        Board.Write($"{by}");
        foreach (
            var group in outcomes
                .GroupBy(outcome => key(outcome.Facts))
                .OrderBy(group => group.Key, StringComparer.Ordinal)
        )
        {
            Row($"  {group.Key}", [.. group]);
        }
    }

    private static void Row(string name, IReadOnlyList<Outcome> outcomes)
    {
        var told = outcomes.Where(outcome => outcome.Number is not null).ToList();
        var some = told.Where(outcome => outcome.Facts.Number > 0).ToList();
        if (told.Count == 0)
        {
            Board.Write($"{name, -22}{outcomes.Count, 6} {outcomes.Count, 8}");
            return;
        }

        var held = told.Count(outcome => outcome.Holds);
        Board.Write(
            $"{name, -22}{outcomes.Count, 6} {outcomes.Count - told.Count, 8} {held, 6} {100.0 * held / told.Count, 6:0.0} "
                + $"{told.Average(outcome => outcome.Width), 7:0.00} "
                + (
                    some.Count == 0
                        ? $"{"", 22} "
                        : $"{100 * some.Average(outcome => Math.Abs(outcome.Error)), 6:0.0}% "
                            + $"{100 * some.Average(outcome => outcome.Error), 6:+0.0;-0.0}% {some.Average(outcome => outcome.F1), 6:0.000} "
                )
                + $"{told.Sum(outcome => outcome.LeftOut), 9} {told.Sum(outcome => outcome.FarOff), 8}"
        );
    }
}
