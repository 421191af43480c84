using Broodtide.Workbench.TideLine;

namespace Broodtide.Phone.Pictures;

/// <summary>One crossing as a stair: minutes across, salinity downward, a disc where the bench stands now.</summary>
public static class CrossingStairLayout
{
    private const double Top = 22;
    private const double Height = 216;
    private const double Left = 34;
    private const double Right = 10;
    private const double BigSize = 17;
    private const double RoomForFigures = 34;

    public static Picture Lay(PictureText spoken, CrossingStairRecord record, double width)
    {
        var deepest = record
            .Steps.Select(step => step.Ppt.High)
            .Append(record.StartPpt)
            .Append(record.Zones.SeaFromPpt + 2)
            .Max();
        var end = Math.Max(1e-6, record.EndMinute);
        double X(double minute) => Left + (Math.Clamp(minute / end, 0, 1) * (width - Left - Right));
        double Y(double ppt) => Top + (Math.Max(0, ppt) / deepest * (Height - Top - RoomForFigures));
        var shapes = new List<Shape>
        {
            new BoxShape("pic-fresh", new(0, 0, width, Y(record.Zones.FreshBelowPpt))),
            new BoxShape(
                "pic-shore",
                new(0, Y(record.Zones.FreshBelowPpt), width, Y(record.Zones.SeaFromPpt))
            ),
            new BoxShape("pic-sea", new(0, Y(record.Zones.SeaFromPpt), width, Height)),
        };
        var corners = Corners(record);
        var all = corners.Select(corner => (X(corner.Minute), Y(corner.Ppt))).ToList();
        shapes.Add(new PathShape("pic-stair-coming", new PathPen().Through(all).ToString()));
        var (atX, atY) = (all[0].Item1, all[0].Item2);
        if (record.NowMinute is { } now)
        {
            var done = corners
                .Where(corner => corner.Minute <= now)
                .Select(corner => (X(corner.Minute), Y(corner.Ppt)))
                .ToList();
            (atX, atY) = (X(now), done.Count > 0 ? done[^1].Item2 : Y(record.StartPpt));
            done.Add((atX, atY));
            shapes.Add(new PathShape("pic-stair-done", new PathPen().Through(done).ToString()));
        }

        shapes.Add(new DiscShape("pic-stair-now", atX, atY, 8));
        Words(spoken, record, width, X, Y, shapes);
        return new(width, Height, shapes, []);
    }

    private static List<(double Minute, double Ppt)> Corners(CrossingStairRecord record)
    {
        var corners = new List<(double Minute, double Ppt)> { (0, record.StartPpt) };
        foreach (var step in record.Steps)
        {
            corners.Add((step.AtMinute, corners[^1].Ppt));
            corners.Add((step.AtMinute, step.Ppt.Middle));
        }

        corners.Add((record.EndMinute, corners[^1].Ppt));
        return corners;
    }

    private static void Words(
        PictureText spoken,
        CrossingStairRecord record,
        double width,
        Func<double, double> x,
        Func<double, double> y,
        List<Shape> shapes
    )
    {
        var drops = new PathPen();
        var boxes = new List<Box>();
        var word = new WordLine(spoken.Step, "pic-word pic-quiet");
        shapes.Add(
            new WordShape(
                word.Class,
                word.Text,
                6,
                14,
                WordAnchor.Start,
                WordPlacer.BoxOf(word, new(6, 14, WordAnchor.Start))
            )
        );
        var lastNumber = WordPlacer.BoxOf(word, new(6, 14, WordAnchor.Start)).Right;
        for (var i = 0; i < record.Steps.Count; i++)
        {
            var step = record.Steps[i];
            var at = x(step.AtMinute);
            drops.Move(at, 4).Line(at, y(0));
            var number = new WordLine(spoken.Whole(i + 1), "pic-word pic-bold");
            var box = WordPlacer.BoxOf(number, new(at + 5, 14, WordAnchor.Start));
            if (box.Left > lastNumber + 2 && box.Right < width - 2)
            {
                shapes.Add(new WordShape(number.Class, number.Text, at + 5, 14, WordAnchor.Start, box));
                lastNumber = box.Right;
            }

            var next = i + 1 < record.Steps.Count ? record.Steps[i + 1].AtMinute : record.EndMinute;
            var isLast = i + 1 == record.Steps.Count;
            var place = new FigurePlace(
                (at + x(next)) / 2,
                y(step.Ppt.Middle),
                isLast ? width : x(next) - at,
                width
            );
            Figure(spoken, step, place, HaloOf(record.Zones, step.Ppt.Middle), boxes, shapes);
        }

        if (!drops.IsEmpty)
        {
            shapes.Add(new PathShape("pic-drop", drops.ToString()));
        }
    }

    // The figure stands under its step, so the ground there is a little saltier than the step itself.
    private static string HaloOf(TideZones zones, double ppt) =>
        ppt < zones.SeaFromPpt - 4 ? "pic-halo-shore" : "pic-halo-sea";

    private sealed record FigurePlace(double Middle, double Line, double Room, double Width);

    private static void Figure(
        PictureText spoken,
        StairStep step,
        FigurePlace place,
        string halo,
        List<Box> boxes,
        List<Shape> shapes
    )
    {
        var text = spoken.Limit(Math.Round(step.Ppt.Middle, 1));
        var half = WordWidths.Of(text, "pic-slant", BigSize) / 2;
        var x = Math.Clamp(place.Middle, half + 4, place.Width - half - 4);
        var y = place.Line + 23;
        var box = new Box(x - half, y - 14, x + half, y + 4);
        if (place.Room < (2 * half) + 8 || boxes.Exists(box.Grown(3).Hits))
        {
            return;
        }

        boxes.Add(box);
        shapes.Add(new WordShape($"pic-word pic-slant pic-big {halo}", text, x, y, WordAnchor.Middle, box));
    }
}
