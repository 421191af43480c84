using Broodtide.Domain;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Workbench.Tests.Sensors;

public sealed class SensorMeansTests
{
    private static readonly VesselId Jar = new(Guid.Parse("0195557c-0000-7000-8000-0000000000e4"));
    private static readonly VesselId Tank = new(Guid.Parse("0195557c-0000-7000-8000-0000000000e5"));
    private static readonly Instant Start = Instant.FromUtc(2026, 3, 1, 0, 0);

    private static Sensor Sensor(params IReadOnlyList<Placement> placements) =>
        new()
        {
            Id = SensorId.Find("shelf-1", "water")!,
            About = new("Cel", Resolution: 0.1),
            FirstHeard = Start,
            Placements = placements,
        };

    private static List<HourSummary> Hours(int count, Func<int, double> value) =>
        [
            .. Enumerable
                .Range(0, count)
                .Select(hour => new HourSummary(
                    Start + Duration.FromHours(hour),
                    value(hour) - 0.1,
                    value(hour),
                    value(hour) + 0.1,
                    60
                )),
        ];

    [Fact]
    public void Six_hours_that_are_over_are_one_mean_and_hours_since_then_stand_alone()
    {
        var means = SensorMeans.Of(
            Sensor(new Placement(Start, Jar)),
            Hours(9, hour => 24 + hour),
            Start + Duration.FromHours(8.5)
        );

        Assert.Equal([26.5, 30, 31], means.Select(mean => mean.Value));
        Assert.Equal([false, true, true], means.Select(mean => mean.IsOpen));
        Assert.Equal([6, 1, 1], means.Select(mean => mean.Hours));
        Assert.Equal((Start + Duration.FromHours(3)).ToUnixTimeMilliseconds(), means[0].At);
        // Of 0 to 5 about 2.5: the root of 35/12, and a twentieth within each hour.
        Assert.Equal(Math.Sqrt((35 / 12.0) + (0.05 * 0.05)), means[0].Spread, 3);
    }

    [Fact]
    public void An_hour_in_which_it_was_carried_from_one_vessel_to_another_counts_for_neither()
    {
        var means = SensorMeans.Of(
            Sensor(new(Start, Jar), new(Start + Duration.FromMinutes(150), Tank)),
            Hours(
                6,
                hour =>
                    hour < 2 ? 24
                    : hour == 2 ? 27
                    : 30
            ),
            Start + Duration.FromHours(6)
        );

        Assert.Equal(
            [(Jar.Value, 24.0, 2), (Tank.Value, 30.0, 3)],
            means.Select(one => (one.Vessel, one.Value, one.Hours))
        );
    }

    [Fact]
    public void Before_anybody_said_where_it_stands_nothing_counts() =>
        Assert.Empty(SensorMeans.Of(Sensor(), Hours(12, _ => 24), Start + Duration.FromDays(1)));

    [Fact]
    public void What_no_living_water_has_is_left_out() =>
        Assert.Equal(
            5,
            Assert
                .Single(
                    SensorMeans.Of(
                        Sensor(new Placement(Start, Jar)),
                        Hours(6, hour => hour == 3 ? 85 : 24),
                        Start + Duration.FromHours(6)
                    )
                )
                .Hours
        );

    [Fact]
    public void A_sensor_that_is_stuck_counts_only_until_it_stuck()
    {
        List<HourSummary> hours =
        [
            .. Hours(6, hour => 24 + (0.1 * hour)),
            .. Enumerable
                .Range(6, 42)
                .Select(hour => new HourSummary(Start + Duration.FromHours(hour), 24.5, 24.5, 24.5, 60)),
        ];
        var means = SensorMeans.Of(Sensor(new Placement(Start, Jar)), hours, Start + Duration.FromHours(48));

        Assert.Equal(6, Assert.Single(means).Hours);
        // Half a day and less it may stand.
        Assert.Equal(
            3,
            SensorMeans
                .Of(Sensor(new Placement(Start, Jar)), hours[..17], Start + Duration.FromHours(18))
                .Count
        );
    }
}
