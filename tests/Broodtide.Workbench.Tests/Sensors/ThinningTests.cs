using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Workbench.Tests.Sensors;

public sealed class ThinningTests
{
    private static readonly SensorId Water = SensorId.Find("shelf-1", "water")!;
    private static readonly SensorDay Day = new(Water, new LocalDate(2026, 3, 1));

    [Fact]
    public void A_thinned_day_keeps_the_least_and_the_greatest_of_each_ten_minutes_and_says_what_it_was()
    {
        var whole = Whole();
        var thin = DayClosing.Thin(whole, []);
        Assert.True(thin.IsThinned);
        Assert.Equal(8640, thin.CameAs);
        Assert.InRange(thin.Readings.Count, 288, 288 + (2 * 144));
        foreach (var span in whole.Readings.GroupBy(Span))
        {
            var kept = thin
                .Readings.Where(reading => Span(reading) == span.Key)
                .Select(r => r.Value)
                .ToList();
            Assert.Equal(span.Min(reading => reading.Value), kept.Min());
            Assert.Equal(span.Max(reading => reading.Value), kept.Max());
        }

        Assert.Equal(whole.Readings[0], thin.Readings[0]);
        Assert.Equal(whole.Readings[^1], thin.Readings[^1]);
        Assert.All(thin.Readings, reading => Assert.Contains(reading, whole.Readings));
    }

    [Fact]
    public void What_lies_around_an_alarm_is_never_thinned()
    {
        var whole = Whole();
        var (from, until) = (Day.From + Duration.FromHours(6), Day.From + Duration.FromHours(7));
        var alarm = new AlarmSpan
        {
            Id = Guid.Empty,
            Sensor = Water,
            Kind = AlarmKind.TooHigh,
            Limit = 25,
            From = from,
            Raised = from,
            Until = until,
        };
        var thin = DayClosing.Thin(whole, [alarm]);
        var around = whole
            .Readings.Where(reading =>
                reading.At >= from - Duration.FromHours(1) && reading.At <= until + Duration.FromHours(1)
            )
            .ToList();
        Assert.Equal(1081, around.Count);
        Assert.All(around, reading => Assert.Contains(reading, thin.Readings));
        // One that lasts goes on past the end of the day.
        Assert.Equal(
            8640 - (5 * 360),
            DayClosing
                .Thin(whole, [alarm with { Until = null }])
                .Readings.Count(reading => reading.At >= from - Duration.FromHours(1))
        );
    }

    private static DayBlock Whole() =>
        DayBlock.Of(
            Day,
            "Cel",
            Enumerable
                .Range(0, 8640)
                .Select(at => new RawReading(
                    Day.From + Duration.FromSeconds(at * 10),
                    Math.Round(24 + Math.Sin(at / 1375.0) + (at * 7919 % 13 / 100.0), 4)
                ))
        );

    private static int Span(RawReading reading) => (int)((reading.At - Day.From).TotalSeconds / 600);
}
