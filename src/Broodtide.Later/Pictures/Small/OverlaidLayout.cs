using Broodtide.Workbench.WhatIf;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Phone.Pictures;

/// <summary>
/// Two futures of one quantity laid over each other, told apart by their strokes and not by colour: as it is hatched with
/// a broken line, with the change outlined in dots with a line of dashes and dots. A limit as everywhere.
/// </summary>
public static class OverlaidLayout
{
    private const double Top = 8;
    private const double Floor = 132;
    private const double Height = 162;
    private const double Scale = 52;
    private const double LimitWorthShowing = 2;

    /// <param name="spoken">How words and numbers are written.</param>
    /// <param name="picture">What is drawn.</param>
    /// <param name="zone">The zone whose days are drawn.</param>
    /// <param name="width">How wide, in CSS pixels.</param>
    public static Picture Lay(PictureText spoken, WhatIfPicture picture, DateTimeZone zone, double width)
    {
        var points = picture.Points;
        var plot = Math.Max(48, width - Scale);
        var across = new TimeAcross(points[0].At, points[^1].At, zone, plot, Floor);
        var most = Rounded(MostOf(picture));
        double Y(double value) => Floor - (Math.Clamp(value / most, 0, 1) * (Floor - Top));
        var shapes = new List<Shape> { new BoxShape("pic-sea-far", new(0, Top, plot, Floor)) };
        var words = new WordPlacer(plot, Floor) { HaloAt = static (_, _) => "pic-halo-sea-far" };
        if (picture.Limit is { } limit && limit <= most)
        {
            var y = Y(limit);
            shapes.Add(
                new BoxShape(
                    "pic-forbidden",
                    picture.IsLimitBelow ? new(0, y, plot, Floor) : new(0, Top, plot, y),
                    Hatch.Forbidden
                )
            );
            shapes.Add(new PathShape("pic-limit", new PathPen().Move(0, y).Line(plot, y).ToString()));
        }

        Band(Hatch.Keel, "pic-coming", point => point.AsItIs);
        Line("pic-line pic-far", point => point.AsItIs);
        Band(Hatch.None, "pic-if-band", point => point.Changed);
        Line("pic-if", point => point.Changed);
        Name(spoken.AsItIs, point => point.AsItIs, 0.3);
        Name(spoken.WithTheChange, point => point.Changed, 0.7);
        foreach (var value in new[] { 0, most / 2, most })
        {
            var place = new WordPlace(width - 2, Math.Max(Top + 6, Y(value) + 4), WordAnchor.End);
            var line = new WordLine(spoken.Axis(value), "pic-word pic-quiet");
            shapes.Add(
                new WordShape(
                    line.Class,
                    line.Text,
                    place.X,
                    place.Y,
                    place.Anchor,
                    WordPlacer.BoxOf(line, place)
                )
            );
        }

        TimeBorder.Draw(spoken, shapes, across, days: false, 8);
        shapes.AddRange(words.Placed);
        return new(width, Height, shapes, []);

        void Band(Hatch hatch, string cssClass, Func<WhatIfPicturePoint, Interval> of)
        {
            var upper = points.Select(point => (across.X(point.At), Y(of(point).High)));
            var lower = points.Reverse().Select(point => (across.X(point.At), Y(of(point).Low)));
            shapes.Add(
                new PathShape(cssClass, new PathPen().Through([.. upper, .. lower]).Close().ToString(), hatch)
            );
        }

        void Line(string cssClass, Func<WhatIfPicturePoint, Interval> of) =>
            shapes.Add(
                new PathShape(
                    cssClass,
                    new PathPen()
                        .Through([.. points.Select(point => (across.X(point.At), Y(of(point).Middle)))])
                        .ToString()
                )
            );

        void Name(string name, Func<WhatIfPicturePoint, Interval> of, double first)
        {
            var places = new List<WordPlace>();
            foreach (var share in new[] { first, 0.5, 1 - first, 0.15, 0.85 })
            {
                var point = points[(int)(share * (points.Length - 1))];
                var (x, y) = (across.X(point.At), Y(of(point).Middle));
                places.Add(new(x, y - 7, WordAnchor.Middle));
                places.Add(new(x, y + 16, WordAnchor.Middle));
            }

            words.TryPlace([new(name, "pic-word pic-bold")], places);
        }
    }

    // A limit far above all there is would press the picture flat.
    private static double MostOf(WhatIfPicture picture)
    {
        var most = picture.Points.Max(point => Math.Max(point.AsItIs.High, point.Changed.High));
        return picture.Limit is { } limit && limit <= LimitWorthShowing * most
            ? Math.Max(most, limit * 1.1)
            : most;
    }

    // The next of 1, 2, 5, with its tenfolds.
    private static double Rounded(double most)
    {
        if (most <= 0)
        {
            return 1;
        }

        var tens = Math.Pow(10, Math.Floor(Math.Log10(most)));
        var share = most / tens;
        return tens
            * (
                share <= 1 ? 1
                : share <= 1.5 ? 1.5
                : share <= 2 ? 2
                : share <= 3 ? 3
                : share <= 5 ? 5
                : 10
            );
    }
}
