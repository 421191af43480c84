using Broodtide.Workbench.TideLine;
using NodaTime;

namespace Broodtide.Phone.Pictures;

/// <summary>The hatch forecast: one column a night with its per cent on top, and the day to isolate by.</summary>
public static class HatchNightsLayout
{
    private const double Floor = 96;
    private const double Tallest = 54;
    private const double Height = 134;
    private const double LeastColumn = 17;
    private const double WidestColumn = 56;

    public static Picture Lay(PictureText spoken, HatchNightsRecord record, double width)
    {
        var nights = Shown(record, width);
        var shapes = new List<Shape> { new BoxShape("pic-fresh-far", new(0, 0, width, Floor)) };
        if (nights.Count == 0)
        {
            var none = new WordLine(spoken.NoForecastYet, "pic-word pic-quiet");
            var place = new WordPlace(width / 2, Floor / 2, WordAnchor.Middle);
            shapes.Add(
                new WordShape(
                    none.Class,
                    none.Text,
                    place.X,
                    place.Y,
                    place.Anchor,
                    WordPlacer.BoxOf(none, place)
                )
            );
            return new(width, Height, shapes, []);
        }

        var column = Math.Min(WidestColumn, width / nights.Count);
        var left = (width - (column * nights.Count)) / 2;
        var most = Math.Max(1e-9, nights.Max(night => night.Chance));
        var words = new WordPlacer(width, Height)
        {
            HaloAt = static (_, y) => y < Floor ? "pic-halo-fresh-far" : "",
        };
        IsolateBy(spoken, record, nights, shapes, words, left, column, width);
        for (var i = 0; i < nights.Count; i++)
        {
            Column(spoken, record, nights[i], shapes, left + (i * column), column, Tallest / most);
        }

        Dates(spoken, nights, shapes, left, column);
        shapes.Add(new PathShape("pic-bed", new PathPen().Move(0, Floor).Line(width, Floor).ToString()));
        words.TryPlace(
            [new(spoken.ChanceEachNight, "pic-word pic-quiet")],
            [new(width - 6, 14, WordAnchor.End), new(6, 14, WordAnchor.Start)]
        );
        shapes.AddRange(words.Placed);
        return new(width, Height, shapes, []);
    }

    // As many nights as have room for a number: those round the likeliest.
    private static List<TideNight> Shown(HatchNightsRecord record, double width)
    {
        var room = (int)(width / LeastColumn);
        var nights = record.Nights.ToList();
        while (nights.Count > room)
        {
            nights.RemoveAt(nights[0].Chance <= nights[^1].Chance ? 0 : nights.Count - 1);
        }

        return nights;
    }

    private static void Column(
        PictureText spoken,
        HatchNightsRecord record,
        TideNight night,
        List<Shape> shapes,
        double x,
        double wide,
        double scale
    )
    {
        var height = night.Chance * scale;
        var gap = wide > 24 ? 4 : 2;
        var box = new Box(x + gap, Floor - height, x + wide - gap, Floor);
        var isPast = night.Evening < record.Tonight;
        if (height >= 0.4)
        {
            shapes.Add(
                night.Collected is not null
                    ? new BoxShape("pic-sure", box)
                    : new BoxShape("pic-chance", box, Hatch.Keel)
            );
        }

        var text = spoken.PerCent(night.Chance);
        if (text != "0" && (wide >= 22 || text.Length < 2 || WordWidths.Of(text, "pic-slant") < wide - 2))
        {
            var line = new WordLine(
                text,
                isPast && night.Collected is not null ? "pic-word" : "pic-word pic-slant"
            );
            var place = new WordPlace(x + (wide / 2), box.Top - 5, WordAnchor.Middle);
            shapes.Add(
                new WordShape(
                    line.Class + " pic-halo-fresh-far",
                    text,
                    place.X,
                    place.Y,
                    place.Anchor,
                    WordPlacer.BoxOf(line, place)
                )
            );
        }
    }

    private static void Dates(
        PictureText spoken,
        List<TideNight> nights,
        List<Shape> shapes,
        double left,
        double column
    )
    {
        var lastRight = double.MinValue;
        var lastMonth = 0;
        for (var i = 0; i < nights.Count; i++)
        {
            var date = nights[i].Evening;
            var middle = left + ((i + 0.5) * column);
            var day = new WordLine(PictureText.DayOfMonth(date), "pic-word pic-quiet");
            var place = new WordPlace(middle, Floor + 17, WordAnchor.Middle);
            var box = WordPlacer.BoxOf(day, place);
            if (box.Left < lastRight + 3)
            {
                continue;
            }

            shapes.Add(new WordShape(day.Class, day.Text, place.X, place.Y, place.Anchor, box));
            lastRight = box.Right;
            if (date.Month != lastMonth)
            {
                var month = new WordLine(spoken.Month(date), day.Class);
                var under = new WordPlace(Math.Max(0, box.Left), Floor + 33, WordAnchor.Start);
                shapes.Add(
                    new WordShape(
                        month.Class,
                        month.Text,
                        under.X,
                        under.Y,
                        under.Anchor,
                        WordPlacer.BoxOf(month, under)
                    )
                );
                lastMonth = date.Month;
            }
        }
    }

    private static void IsolateBy(
        PictureText spoken,
        HatchNightsRecord record,
        List<TideNight> nights,
        List<Shape> shapes,
        WordPlacer words,
        double left,
        double column,
        double width
    )
    {
        if (record.IsolateBy is not { } date)
        {
            return;
        }

        var index = Period.DaysBetween(nights[0].Evening, date);
        if (index < 0 || index > nights.Count)
        {
            // The day lies outside the nights that have room: it is said, not drawn.
            var said = new WordLine(spoken.IsolateByDate(date), "pic-word pic-bold");
            words.TryPlace([said], [new(6, 14, WordAnchor.Start), new(width - 6, 14, WordAnchor.End)]);
            return;
        }

        var x = Math.Clamp(left + (index * column), 2, width - 2);
        shapes.Add(new PathShape("pic-isolate", new PathPen().Move(x, 20).Line(x, Floor + 4).ToString()));
        var line = new WordLine(spoken.IsolateBy, "pic-word pic-bold");
        words.TryPlace(
            [line],
            [new(x, 14, WordAnchor.Middle), new(4, 14, WordAnchor.Start), new(width - 4, 14, WordAnchor.End)]
        );
    }
}
