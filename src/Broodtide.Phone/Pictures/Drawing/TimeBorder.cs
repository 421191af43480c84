using NodaTime;

namespace Broodtide.Phone.Pictures;

/// <summary>A span of time laid across a picture.</summary>
public sealed record TimeAcross(Instant From, Instant To, DateTimeZone Zone, double Width, double Y)
{
    public double X(Instant at) => (at - From).TotalDays / (To - From).TotalDays * Width;
}

/// <summary>The edge of a chart: stretches of civil time filled and open in turn, dates under their starts.</summary>
public static class TimeBorder
{
    public const double Thick = 7;

    /// <summary>Draws weeks from Monday, or days with a tick every six hours.</summary>
    public static void Draw(
        PictureText text,
        List<Shape> shapes,
        TimeAcross across,
        bool days,
        double datesApart
    )
    {
        var first = across.From.InZone(across.Zone).Date;
        first = days ? first : first.With(DateAdjusters.PreviousOrSame(IsoDayOfWeek.Monday));
        var ends = new Box(0, across.Y, across.Width, across.Y + Thick);
        shapes.Add(new BoxShape("pic-border", ends));
        var ticks = new PathPen();
        var lastRight = double.MinValue;
        var lastMonth = 0;
        for (var date = first; ; date = date.PlusDays(days ? 1 : 7))
        {
            var left = across.X(Start(across, date));
            if (left >= across.Width)
            {
                break;
            }

            var right = across.X(Start(across, date.PlusDays(days ? 1 : 7)));
            if (IsFilled(date, days))
            {
                shapes.Add(
                    new BoxShape(
                        "pic-ink",
                        new(Math.Max(0, left), across.Y, Math.Min(across.Width, right), across.Y + Thick)
                    )
                );
            }

            for (var quarter = 1; days && quarter < 4 && right - left > 40; quarter++)
            {
                var x = left + ((right - left) * quarter / 4);
                if (x > 0 && x < across.Width)
                {
                    ticks.Move(x, across.Y + Thick).Line(x, across.Y + Thick + 3);
                }
            }

            Date(
                text,
                shapes,
                across,
                date,
                days ? (left + right) / 2 : left,
                datesApart,
                ref lastRight,
                ref lastMonth
            );
        }

        if (!ticks.IsEmpty)
        {
            shapes.Add(new PathShape("pic-tick", ticks.ToString()));
        }
    }

    private static Instant Start(TimeAcross across, LocalDate date) =>
        across.Zone.AtStartOfDay(date).ToInstant();

    // Counted from a fixed Monday, so that a week keeps its tint however far the picture is moved.
    private static bool IsFilled(LocalDate date, bool days)
    {
        var count = Period.DaysBetween(new(2001, 1, 1), date);
        var turn = days ? count : (int)Math.Floor(count / 7.0);
        return turn % 2 != 0;
    }

    private static void Date(
        PictureText words,
        List<Shape> shapes,
        TimeAcross across,
        LocalDate date,
        double x,
        double apart,
        ref double lastRight,
        ref int lastMonth
    )
    {
        var isNewYear = lastMonth == 12 && date.Month == 1;
        var text =
            isNewYear ? words.DateWithYear(date)
            : date.Month == lastMonth ? PictureText.DayOfMonth(date)
            : words.Date(date);
        var line = new WordLine(text, "pic-word pic-quiet");
        var box = WordPlacer.BoxOf(line, new(x, across.Y + 21, WordAnchor.Middle));
        if (box.Left < 4 || box.Right > across.Width - 4 || box.Left < lastRight + apart)
        {
            return;
        }

        shapes.Add(new WordShape(line.Class, text, x, across.Y + 21, WordAnchor.Middle, box));
        lastRight = box.Right;
        lastMonth = date.Month;
    }
}
