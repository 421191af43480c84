using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Phone.Pictures;

/// <summary>The hours of a sensor for drawing.</summary>
/// <param name="Hours">The hours, by time.</param>
/// <param name="Low">Its lower limit.</param>
/// <param name="High">Its upper limit.</param>
/// <param name="Alarms">From when to when there was an alarm.</param>
/// <param name="From">Left edge.</param>
/// <param name="To">Right edge.</param>
/// <param name="Zone">The keeper's zone.</param>
public sealed record SensorBand(
    IReadOnlyList<HourSeen> Hours,
    double? Low,
    double? High,
    IReadOnlyList<(Instant From, Instant To)> Alarms,
    Instant From,
    Instant To,
    DateTimeZone Zone
);

/// <summary>
/// The hours of one sensor: from the least to the greatest as a band, the mean as a line, limits in magenta dashes with the
/// forbidden side hatched, alarms as a bar along the floor. A gap in the readings is a gap in the drawing.
/// </summary>
public static class SensorBandLayout
{
    private const double Top = 12;
    private const double Height = 180;
    private const double Floor = Height - 30;
    private const double Margin = 0.12;
    private static readonly Duration Gap = Duration.FromHours(2);

    /// <summary>Lays the drawing.</summary>
    public static Picture Lay(PictureText spoken, SensorBand band, double width)
    {
        ArgumentNullException.ThrowIfNull(spoken);
        ArgumentNullException.ThrowIfNull(band);
        var (least, most) = Range(band);
        double X(Instant at) =>
            Math.Clamp((at - band.From).TotalDays / (band.To - band.From).TotalDays, 0, 1) * width;
        double Y(double value) =>
            Math.Clamp(Floor - ((value - least) / (most - least) * (Floor - Top)), Top - 1, Floor + 1);
        var shapes = new List<Shape> { new BoxShape("pic-sea", new(0, Top, width, Floor)) };
        var words = new WordPlacer(width, Floor) { HaloAt = (_, _) => "pic-halo-sea" };
        Limit(band.Low, isLower: true);
        Limit(band.High, isLower: false);
        foreach (var stretch in Stretches(band.Hours))
        {
            Draw(stretch);
        }

        foreach (var (from, to) in band.Alarms)
        {
            var (left, right) = (X(from), Math.Max(X(to), X(from) + 3));
            shapes.Add(new BoxShape("pic-forbidden", new(left, Floor - 8, right, Floor), Hatch.Forbidden));
            shapes.Add(
                new PathShape(
                    "pic-limit",
                    new PathPen().Move(left, Floor - 8).Line(right, Floor - 8).ToString()
                )
            );
        }

        foreach (var value in new[] { least + ((most - least) * Margin), most - ((most - least) * Margin) })
        {
            words.TryPlace(
                [new(spoken.ThreeFigures(value), "pic-word pic-quiet")],
                [new(width - 6, Y(value) + 4, WordAnchor.End)]
            );
        }

        TimeBorder.Draw(spoken, shapes, new(band.From, band.To, band.Zone, width, Floor), days: true, 8);
        shapes.AddRange(words.Placed);
        return new(width, Height, shapes, []);

        void Limit(double? limit, bool isLower)
        {
            if (limit is not { } value || value < least || value > most)
            {
                return;
            }

            var y = Y(value);
            shapes.Add(
                new BoxShape(
                    "pic-forbidden",
                    isLower ? new Box(0, y, width, Floor) : new Box(0, Top, width, y),
                    Hatch.Forbidden
                )
            );
            shapes.Add(new PathShape("pic-limit", new PathPen().Move(0, y).Line(width, y).ToString()));
            words.Avoid(new(0, y - 0.7, width, y + 0.7));
        }

        void Draw(IReadOnlyList<HourSeen> stretch)
        {
            IReadOnlyList<(double X, double Y)> Edge(Func<HourSeen, double> of) =>
                [.. stretch.Select(hour => (X(Middle(hour)), Y(of(hour))))];
            var outline = new PathPen()
                .Through(Edge(hour => hour.Highest))
                .Through([.. Edge(hour => hour.Lowest).Reverse()], goOn: true)
                .Close();
            shapes.Add(new PathShape("pic-known", outline.ToString(), Hatch.None));
            if (stretch.Count > 1)
            {
                shapes.Add(
                    new PathShape("pic-line", new PathPen().Through(Edge(hour => hour.Mean)).ToString())
                );
            }
            else
            {
                shapes.Add(new DiscShape("pic-read", X(Middle(stretch[0])), Y(stretch[0].Mean), 2.4));
            }
        }
    }

    private static Instant Middle(HourSeen hour) =>
        Instant.FromUnixTimeMilliseconds(hour.At) + Duration.FromMinutes(30);

    private static List<List<HourSeen>> Stretches(IReadOnlyList<HourSeen> hours)
    {
        var stretches = new List<List<HourSeen>>();
        foreach (var hour in hours)
        {
            if (stretches.Count == 0 || hour.At - stretches[^1][^1].At >= Gap.TotalMilliseconds)
            {
                stretches.Add([]);
            }

            stretches[^1].Add(hour);
        }

        return stretches;
    }

    // All that was read, and a limit that is near.
    private static (double Least, double Most) Range(SensorBand band)
    {
        var least = band.Hours.Select(hour => hour.Lowest).DefaultIfEmpty(band.Low ?? 0).Min();
        var most = band.Hours.Select(hour => hour.Highest).DefaultIfEmpty(band.High ?? least + 1).Max();
        var span = Math.Max(most - least, 0.5);
        least = band.Low is { } low && least - low < span ? Math.Min(least, low) : least;
        most = band.High is { } high && high - most < span ? Math.Max(most, high) : most;
        span = Math.Max(most - least, 0.5);
        var middle = (most + least) / 2;
        return (middle - (span * (0.5 + Margin)), middle + (span * (0.5 + Margin)));
    }
}
