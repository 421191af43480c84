using Broodtide.Workbench.TideLine;
using NodaTime;

namespace Broodtide.Phone.Pictures;

/// <summary>
/// The ledger of one vessel: salinity downward against days, what is known as a band, limits in magenta dashes with
/// the forbidden side hatched, readings with their own error, the forecast broken.
/// </summary>
public static class LedgerLayout
{
    public const double Top = 26;
    private const double Height = 260;
    public const double Floor = Height - 30;
    private const int MostPoints = 400;

    public static Picture Lay(PictureText spoken, LedgerRecord record, double width)
    {
        var axis = new LedgerAxis(record, width);
        var shapes = new List<Shape>
        {
            new BoxShape("pic-sea", new(0, Top, axis.NowX, Floor)),
            new BoxShape("pic-sea-far", new(axis.NowX, Top, width, Floor)),
        };
        var words = new WordPlacer(width, Floor)
        {
            HaloAt = (x, _) => x > axis.NowX ? "pic-halo-sea-far" : "pic-halo-sea",
        };
        Limits(record, axis, shapes, words);
        Line(record, axis, shapes);
        TopUps(record, axis, shapes, words);
        var flag = NowFlag.Draw(shapes, spoken.Now, axis.NowX, Top, Floor, width);
        words.Avoid(flag);
        words.Avoid(new(axis.NowX - 0.8, Top, axis.NowX + 0.8, Floor));
        Readings(spoken, record, axis, shapes, words);
        LimitWords(spoken, record, axis, words);
        Scale(spoken, record, axis, words);
        words.TryPlace([new(spoken.Fresher, "pic-word pic-quiet")], [new(8, Top + 15, WordAnchor.Start)]);
        var days = (record.To - record.From).TotalDays;
        TimeBorder.Draw(
            spoken,
            shapes,
            new(record.From, record.To, record.Zone, width, Floor),
            days <= 35,
            8
        );
        shapes.AddRange(words.Placed);
        return new(width, Height, shapes, [.. Targets(spoken, record, axis)]);
    }

    private static void Limits(LedgerRecord record, LedgerAxis axis, List<Shape> shapes, WordPlacer words)
    {
        void Limit(double ppt, bool below)
        {
            var y = axis.Y(ppt);
            if (y < Top || y > Floor)
            {
                return;
            }

            var forbidden = below ? new Box(0, y, axis.Width, Floor) : new Box(0, Top, axis.Width, y);
            shapes.Add(new BoxShape("pic-forbidden", forbidden, Hatch.Forbidden));
            shapes.Add(new PathShape("pic-limit", new PathPen().Move(0, y).Line(axis.Width, y).ToString()));
            words.Avoid(new(0, y - 0.7, axis.Width, y + 0.7));
        }

        if (record.NotSaltierThanPpt is { } salty)
        {
            Limit(salty, below: true);
        }

        if (record.NotFresherThanPpt is { } fresh)
        {
            Limit(fresh, below: false);
        }
    }

    private static void Line(LedgerRecord record, LedgerAxis axis, List<Shape> shapes)
    {
        if (record.Salinity.Count == 0)
        {
            return;
        }

        var from = Instant.Max(record.From, record.Salinity[0].At);
        var now = Instant.Min(record.Now, record.To);
        if (now > from)
        {
            Stretch(record, axis, shapes, from, now, "pic-known", "pic-line", Hatch.None);
        }

        var to = Instant.Min(record.To, record.Salinity[^1].At);
        if (to > Instant.Max(now, from))
        {
            Stretch(
                record,
                axis,
                shapes,
                Instant.Max(now, from),
                to,
                "pic-coming",
                "pic-line pic-far",
                Hatch.Keel
            );
        }
    }

    private static void Stretch(
        LedgerRecord record,
        LedgerAxis axis,
        List<Shape> shapes,
        Instant from,
        Instant to,
        string band,
        string line,
        Hatch fill
    )
    {
        List<TideRow> rows =
        [
            new(from, TideTrack.At(record.Salinity, from)!.Value),
            .. record.Salinity.Where(row => row.At > from && row.At < to),
            new(to, TideTrack.At(record.Salinity, to - Duration.Epsilon)!.Value),
        ];
        IReadOnlyList<(double X, double Y)> Edge(Func<Broodtide.Units.Interval, double> of) =>
            Thinning.To(MostPoints, [.. rows.Select(row => (axis.X(row.At), axis.Y(of(row.Value))))]);
        var outline = new PathPen()
            .Through(Edge(value => value.Low))
            .Through([.. Edge(value => value.High).Reverse()], goOn: true)
            .Close();
        shapes.Add(new PathShape(band, outline.ToString(), fill));
        shapes.Add(new PathShape(line, new PathPen().Through(Edge(value => value.Middle)).ToString()));
    }

    private static void TopUps(LedgerRecord record, LedgerAxis axis, List<Shape> shapes, WordPlacer words)
    {
        var pen = new PathPen();
        foreach (var topUp in record.TopUps.Where(one => one.At >= record.From && one.At <= record.Now))
        {
            var x = Math.Clamp(axis.X(topUp.At), 5, axis.Width - 5);
            pen.Move(x, Top + 15).Line(x, Top + 5).Move(x - 4, Top + 9).Line(x, Top + 5).Line(x + 4, Top + 9);
            words.Avoid(new(x - 5, Top + 4, x + 5, Top + 16));
        }

        if (!pen.IsEmpty)
        {
            shapes.Add(new PathShape("pic-arrow", pen.ToString()));
        }
    }

    private static void Readings(
        PictureText spoken,
        LedgerRecord record,
        LedgerAxis axis,
        List<Shape> shapes,
        WordPlacer words
    )
    {
        var shown = record.Readings.Where(one => one.At >= record.From && one.At <= record.To).ToList();
        foreach (var reading in shown)
        {
            var (x, y) = (axis.X(reading.At), axis.Y(reading.Ppt.Middle));
            var bar = new PathPen().Move(x, axis.Y(reading.Ppt.Low)).Line(x, axis.Y(reading.Ppt.High));
            shapes.Add(new PathShape("pic-bar", bar.ToString()));
            if (!reading.Fits)
            {
                shapes.Add(new DiscShape("pic-mind-ring", x, y, 9));
            }

            shapes.Add(
                new DiscShape(
                    reading.Fits ? "pic-read" : "pic-ring pic-count",
                    x,
                    y,
                    reading.Fits ? 3.4 : 3.6
                )
            );
            words.Avoid(new(x - 9, y - 9, x + 9, y + 9));
        }

        foreach (var reading in shown.Where(one => !one.Fits))
        {
            var (x, y) = (axis.X(reading.At), axis.Y(reading.Ppt.Middle));
            words.TryPlace(
                [new(spoken.DoesNotFit, "pic-word pic-bold")],
                [
                    new(x - 14, y + 4, WordAnchor.End),
                    new(x + 14, y + 4, WordAnchor.Start),
                    new(x, y - 16, WordAnchor.Middle),
                    new(x, y + 24, WordAnchor.Middle),
                ]
            );
        }
    }

    private static void LimitWords(PictureText spoken, LedgerRecord record, LedgerAxis axis, WordPlacer words)
    {
        if (record.NotSaltierThanPpt is { } salty && axis.Y(salty) is var low and >= Top and <= Floor)
        {
            words.TryPlace(
                [new(spoken.NotSaltierThan(salty), "pic-word")],
                [
                    new(8, Math.Min(low + 18, Floor - 8), WordAnchor.Start),
                    new(8, low - 9, WordAnchor.Start),
                    new(axis.Width - 8, low + 18, WordAnchor.End),
                ]
            );
        }

        if (record.NotFresherThanPpt is { } fresh && axis.Y(fresh) is var high and >= Top and <= Floor)
        {
            words.TryPlace(
                [new(spoken.NotFresherThan(fresh), "pic-word")],
                [
                    new(8, high - 9, WordAnchor.Start),
                    new(8, high + 18, WordAnchor.Start),
                    new(axis.Width - 8, high - 9, WordAnchor.End),
                ]
            );
        }
    }

    private static void Scale(PictureText spoken, LedgerRecord record, LedgerAxis axis, WordPlacer words)
    {
        // The figures stand in the empty future, off the forecast that ends there.
        if (record.Salinity is [.., var last] && last.At >= record.To)
        {
            var end = TideTrack.At(record.Salinity, record.To)!.Value;
            words.Avoid(new(axis.Width - 24, axis.Y(end.Low), axis.Width, axis.Y(end.High)));
        }

        for (var ppt = Math.Ceiling(axis.Least / axis.Tick) * axis.Tick; ppt <= axis.Most; ppt += axis.Tick)
        {
            var text = spoken.Limit(Math.Round(ppt, 2));
            words.TryPlace(
                [new(text, "pic-word pic-quiet")],
                [new(axis.Width - 6, axis.Y(ppt) + 4, WordAnchor.End)]
            );
        }
    }

    private static IEnumerable<TouchTarget> Targets(
        PictureText spoken,
        LedgerRecord record,
        LedgerAxis axis
    ) =>
        record.Readings.Select(reading => new TouchTarget(
            reading.Fits ? 2 : 1,
            axis.X(reading.At),
            axis.Y(reading.Ppt.Middle),
            reading.At,
            spoken.Entry(TideEntryMark.Reading),
            spoken.PptRead(reading.Ppt.Middle)
        ));
}
