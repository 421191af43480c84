using Broodtide.Workbench.Feeding;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Phone.Pictures;

/// <summary>
/// The growth of one culture: density upward by tens against days, what is known as a band, what is to come broken, counts
/// as discs, and the density from which it can be used as a line.
/// </summary>
public static class CultureLayout
{
    public const double Top = 26;
    private const double Height = 230;
    public const double Floor = Height - 30;

    // A culture over more than four tens is drawn from where it can be seen.
    private const double MostTens = 4;

    public static Picture Lay(PictureText spoken, CultureRecord record, double width)
    {
        var axis = new Axis(record, width);
        var nowX = axis.X(record.Now);
        var shapes = new List<Shape>
        {
            new BoxShape("pic-sea", new(0, Top, nowX, Floor)),
            new BoxShape("pic-sea-far", new(nowX, Top, width, Floor)),
        };
        var words = new WordPlacer(width, Floor)
        {
            HaloAt = (x, _) => x > nowX ? "pic-halo-sea-far" : "pic-halo-sea",
        };
        Ready(spoken, record, axis, shapes, words);
        var past = record.Points.Where(point => point.At <= record.Now).ToList();
        var coming = record.Points.Where(point => point.At >= record.Now && point.At <= record.To).ToList();
        if (past.Count > 0)
        {
            coming.Insert(0, past[^1] with { At = record.Now });
        }

        Stretch(past, axis, shapes, "pic-known", "pic-line", Hatch.None);
        Stretch(coming, axis, shapes, "pic-coming", "pic-line pic-far", Hatch.Keel);
        var flag = NowFlag.Draw(shapes, spoken.Now, nowX, Top, Floor, width);
        words.Avoid(flag);
        foreach (var count in record.Counts)
        {
            var (x, y) = (axis.X(count.At), axis.Y(count.Density));
            shapes.Add(new DiscShape("pic-read", x, y, 3.4));
            words.Avoid(new(x - 6, y - 6, x + 6, y + 6));
        }

        Scale(spoken, record, axis, words);
        TimeBorder.Draw(
            spoken,
            shapes,
            new(record.From, record.To, record.Zone, width, Floor),
            (record.To - record.From).TotalDays <= 35,
            8
        );
        shapes.AddRange(words.Placed);
        return new(
            width,
            Height,
            shapes,
            [
                .. record.Counts.Select(count => new TouchTarget(
                    1,
                    axis.X(count.At),
                    axis.Y(count.Density),
                    count.At,
                    spoken.Counted(record.IsFilm),
                    spoken.Cells(count.Density, record.IsFilm)
                )),
            ]
        );
    }

    private static void Stretch(
        List<CulturePointAt> points,
        Axis axis,
        List<Shape> shapes,
        string band,
        string line,
        Hatch fill
    )
    {
        if (points.Count < 2)
        {
            return;
        }

        IReadOnlyList<(double X, double Y)> Edge(Func<Interval, double> of) =>
            [.. points.Select(point => (axis.X(point.At), axis.Y(of(point.Density))))];
        var outline = new PathPen()
            .Through(Edge(density => density.Low))
            .Through([.. Edge(density => density.High).Reverse()], goOn: true)
            .Close();
        shapes.Add(new PathShape(band, outline.ToString(), fill));
        shapes.Add(new PathShape(line, new PathPen().Through(Edge(density => density.Middle)).ToString()));
    }

    private static void Ready(
        PictureText spoken,
        CultureRecord record,
        Axis axis,
        List<Shape> shapes,
        WordPlacer words
    )
    {
        var y = axis.Y(record.Ready);
        if (y < Top || y > Floor)
        {
            return;
        }

        shapes.Add(
            new PathShape("pic-line pic-far", new PathPen().Move(0, y).Line(axis.Width, y).ToString())
        );
        words.Avoid(new(0, y - 0.7, axis.Width, y + 0.7));
        words.TryPlace(
            [new(spoken.ReadyFrom(record.IsFilm), "pic-word pic-quiet")],
            [new(8, y - 7, WordAnchor.Start), new(8, y + 16, WordAnchor.Start)]
        );
    }

    private static void Scale(PictureText spoken, CultureRecord record, Axis axis, WordPlacer words)
    {
        for (var ten = Math.Ceiling(axis.Least); ten <= axis.Most; ten++)
        {
            words.TryPlace(
                [new(spoken.Cells(Math.Pow(10, ten), record.IsFilm), "pic-word pic-quiet")],
                [new(axis.Width - 6, axis.Y(Math.Pow(10, ten)) + 4, WordAnchor.End)]
            );
        }
    }

    /// <summary>Tens of density upward, days across.</summary>
    private sealed class Axis
    {
        private readonly CultureRecord _record;

        public Axis(CultureRecord record, double width)
        {
            _record = record;
            Width = width;
            var lows = record.Points.Select(point => point.Density.Low).Append(record.Ready);
            var highs = record.Points.Select(point => point.Density.High).Append(record.Ready);
            Most =
                Math.Log10(
                    record.IsFilm ? 1 : highs.Concat(record.Counts.Select(count => count.Density)).Max()
                ) + 0.1;
            Least = Math.Max(
                Math.Log10(lows.Concat(record.Counts.Select(count => count.Density)).Min()) - 0.1,
                Most - MostTens
            );
        }

        public double Width { get; }
        public double Least { get; }
        public double Most { get; }

        public double X(Instant at) =>
            Math.Clamp((at - _record.From).TotalDays / (_record.To - _record.From).TotalDays, 0, 1) * Width;

        public double Y(double density) =>
            Math.Clamp(
                Floor - ((Math.Log10(density) - Least) / (Most - Least) * (Floor - Top)),
                Top - 1,
                Floor + 1
            );
    }
}
