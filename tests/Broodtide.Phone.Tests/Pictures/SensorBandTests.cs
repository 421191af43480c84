using Broodtide.Phone.Pictures;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Phone.Tests.Pictures;

/// <summary>The week of a sensor.</summary>
public sealed class SensorBandTests
{
    private static readonly Instant From = Instant.FromUtc(2026, 3, 1, 0, 0);
    private static readonly Instant To = From + Duration.FromDays(7);

    private static SensorBand Band(Func<int, double> mean, int first = 0, int count = 168) =>
        new(
            [
                .. Enumerable
                    .Range(first, count)
                    .Select(hour => new HourSeen(
                        (From + Duration.FromHours(hour)).ToUnixTimeMilliseconds(),
                        mean(hour) - 0.2,
                        mean(hour),
                        mean(hour) + 0.2
                    )),
            ],
            null,
            null,
            [],
            From,
            To,
            DateTimeZone.Utc
        );

    private static Picture Lay(SensorBand band) => SensorBandLayout.Lay(Spoken.Pictures, band, 390);

    private static List<PathShape> Paths(Picture picture, string style) =>
        [.. picture.Shapes.OfType<PathShape>().Where(path => path.Class == style)];

    [Fact]
    public void A_week_without_a_gap_is_one_band_with_one_line()
    {
        var picture = Lay(Band(_ => 24));

        Assert.Single(Paths(picture, "pic-known"));
        Assert.Single(Paths(picture, "pic-line"));
        Assert.Equal(390, picture.Width);
    }

    [Fact]
    public void A_gap_in_the_readings_is_a_gap_in_the_drawing()
    {
        var whole = Band(_ => 24);
        var broken = whole with { Hours = [.. whole.Hours.Where((_, hour) => hour is < 60 or > 70)] };

        Assert.Equal(2, Paths(Lay(broken), "pic-known").Count);
        // One hour that is missing is a gap too: the next one is two hours on.
        Assert.Equal(
            2,
            Paths(
                Lay(whole with { Hours = [.. whole.Hours.Where((_, hour) => hour != 60)] }),
                "pic-line"
            ).Count
        );
    }

    [Fact]
    public void A_single_hour_is_a_point()
    {
        var picture = Lay(Band(_ => 24, first: 40, count: 1));

        Assert.Empty(Paths(picture, "pic-line"));
        var point = Assert.Single(picture.Shapes.OfType<DiscShape>());
        Assert.Equal(390 * 40.5 / 168, point.X, 6);
    }

    [Fact]
    public void A_limit_that_is_near_is_drawn_with_its_forbidden_side_and_one_that_is_far_is_not()
    {
        var near = Lay(Band(hour => 24 + (hour / 168.0)) with { High = 25.5 });
        var far = Lay(Band(hour => 24 + (hour / 168.0)) with { High = 40, Low = 2 });

        Assert.Single(Paths(near, "pic-limit"));
        var forbidden = Assert.Single(near.Shapes.OfType<BoxShape>(), box => box.Class == "pic-forbidden");
        Assert.Equal(Hatch.Forbidden, forbidden.Fill);
        Assert.Empty(Paths(far, "pic-limit"));
    }

    [Fact]
    public void An_alarm_is_a_bar_along_the_floor_and_a_short_one_can_be_seen()
    {
        var picture = Lay(
            Band(_ => 24) with
            {
                Alarms = [(From + Duration.FromDays(1), From + Duration.FromDays(1))],
            }
        );

        var bar = Assert.Single(picture.Shapes.OfType<BoxShape>(), box => box.Class == "pic-forbidden");
        Assert.Equal(390 / 7.0, bar.Box.Left, 6);
        Assert.Equal(3, bar.Box.Right - bar.Box.Left, 6);
    }

    [Theory]
    [InlineData(24, 24)]
    [InlineData(-5, 90)]
    [InlineData(0.001, 0.002)]
    public void Everything_stays_within_the_picture_whatever_was_read(double first, double last)
    {
        var picture = Lay(Band(hour => hour < 80 ? first : last));

        foreach (var box in picture.Shapes.OfType<BoxShape>())
        {
            Assert.InRange(box.Box.Left, -0.01, 390.01);
            Assert.InRange(box.Box.Right, -0.01, 390.01);
        }

        Assert.DoesNotContain(
            picture.Shapes.OfType<PathShape>(),
            path => path.Data.Contains("NaN", StringComparison.Ordinal)
        );
    }
}
