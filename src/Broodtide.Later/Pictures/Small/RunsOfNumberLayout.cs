using Interval = Broodtide.Units.Interval;

namespace Broodtide.Phone.Pictures;

/// <summary>One bar of the picture.</summary>
/// <param name="Name">What stands before it.</param>
/// <param name="Points">5, 50 and 95 %.</param>
/// <param name="Kind">How it is drawn.</param>
public sealed record NumberBar(string Name, Interval Points, NumberBarKind Kind);

/// <summary>How a bar is drawn.</summary>
public enum NumberBarKind
{
    /// <summary>What is published: a dashed frame.</summary>
    Published,

    /// <summary>A run that counts: a line with a ring.</summary>
    Run,

    /// <summary>A run that is left out: the same, faint.</summary>
    LeftOut,

    /// <summary>What the next run is begun with: a filled bar.</summary>
    Next,
}

/// <summary>
/// A number as published, as each run has it and as the next run is begun with, one under the other on one scale of
/// ratios: a step to the right is always the same factor.
/// </summary>
public static class RunsOfNumberLayout
{
    private const double Row = 26;
    private const double Names = 112;
    private const double Inset = 8;
    private const double Half = 6;
    private const double Foot = 22;
    private const double WordDrop = 4.5;

    /// <param name="spoken">How numbers are written.</param>
    /// <param name="bars">The bars, from top to bottom; all points above zero.</param>
    /// <param name="width">How wide, in CSS pixels.</param>
    public static Picture Lay(PictureText spoken, IReadOnlyList<NumberBar> bars, double width)
    {
        var shapes = new List<Shape>();
        // What is published and what comes next set the scale; a run that says little runs off the edge.
        var frame = bars.Where(bar => bar.Kind is NumberBarKind.Published or NumberBarKind.Next).ToList();
        var low = Math.Log(frame.Min(bar => bar.Points.Low)) - 0.08;
        var high = Math.Log(frame.Max(bar => bar.Points.High)) + 0.08;
        var (left, right) = (Names, width - Inset);
        for (var place = 0; place < bars.Count; place++)
        {
            Draw(shapes, bars[place], (place + 0.5) * Row, X);
        }

        var bottom = bars.Count * Row;
        shapes.Add(
            new PathShape("pic-rule", new PathPen().Move(left, bottom).Line(right, bottom).ToString())
        );
        var scale = frame[0].Points;
        foreach (var value in new[] { scale.Low, scale.Middle, scale.High })
        {
            var x = X(value);
            shapes.Add(
                new PathShape("pic-tick", new PathPen().Move(x, bottom).Line(x, bottom + 4).ToString())
            );
            Word(shapes, spoken.ThreeFigures(value), x, bottom + 17, "pic-word pic-quiet", WordAnchor.Middle);
        }

        return new(width, bottom + Foot, shapes, []);

        double X(double value) =>
            Math.Clamp(left + ((Math.Log(value) - low) / (high - low) * (right - left)), left, right);
    }

    private static void Draw(List<Shape> shapes, NumberBar bar, double y, Func<double, double> x)
    {
        var (from, middle, to) = (x(bar.Points.Low), x(bar.Points.Middle), x(bar.Points.High));
        var quiet = bar.Kind is NumberBarKind.LeftOut or NumberBarKind.Published ? " pic-quiet" : "";
        Word(
            shapes,
            Shortened(bar.Name),
            0,
            y + WordDrop,
            $"pic-word{quiet}{(bar.Kind is NumberBarKind.Next ? " pic-bold" : "")}",
            WordAnchor.Start
        );
        switch (bar.Kind)
        {
            case NumberBarKind.Published:
                shapes.Add(new BoxShape("pic-band", new(from, y - Half, to, y + Half)));
                break;
            case NumberBarKind.Next:
                shapes.Add(new BoxShape("pic-keel-95", new(from, y - Half, to, y + Half)));
                break;
            default:
                shapes.Add(
                    new PathShape(
                        bar.Kind is NumberBarKind.Run ? "pic-bar" : "pic-strand",
                        new PathPen().Move(from, y).Line(to, y).ToString()
                    )
                );
                break;
        }

        if (bar.Kind is NumberBarKind.Run)
        {
            shapes.Add(new DiscShape("pic-ring pic-count", middle, y, 4));
        }
        else
        {
            shapes.Add(
                new PathShape(
                    bar.Kind is NumberBarKind.Next ? "pic-end-thick" : "pic-end-thin",
                    new PathPen().Move(middle, y - Half).Line(middle, y + Half).ToString()
                )
            );
        }
    }

    private static string Shortened(string name)
    {
        var shown = name;
        while (shown.Length > 1 && WordWidths.Of(shown, "pic-word pic-bold") > Names - 10)
        {
            shown = shown[..^2].TrimEnd() + "…";
        }

        return shown;
    }

    private static void Word(
        List<Shape> shapes,
        string text,
        double x,
        double y,
        string kind,
        WordAnchor anchor
    )
    {
        var line = new WordLine(text, kind);
        var place = new WordPlace(x, y, anchor);
        shapes.Add(new WordShape(kind, text, x, y, anchor, WordPlacer.BoxOf(line, place)));
    }
}
