using Broodtide.Domain;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Workbench.Tests.Sensors;

public sealed class SensorChecksTests
{
    private static readonly VesselId Jar = new(Guid.Parse("0195557c-0000-7000-8000-0000000000e4"));
    private static readonly VesselId Tank = new(Guid.Parse("0195557c-0000-7000-8000-0000000000e5"));
    private static readonly Instant Start = Instant.FromUtc(2026, 3, 1, 0, 0);
    private static readonly Instant Now = Start + Duration.FromDays(20);

    [Fact]
    public void A_sensor_that_does_as_water_does_is_let_be() =>
        Assert.Empty(Found(Judged("a", Jar, at => Wave(at))));

    [Fact]
    public void A_value_that_stands_for_longer_than_its_step_makes_plausible_is_stuck()
    {
        var stuckFrom = Now - Duration.FromHours(30);
        var found = Assert.Single(Found(Judged("a", Jar, at => at < stuckFrom ? Wave(at) : 24.5)));
        Assert.Equal("sensor-stuck", found.Code);
        Assert.Equal(24.5, found["value"]);
        Assert.Equal(stuckFrom, found["since"]);
    }

    [Fact]
    public void A_coarse_sensor_may_stand_for_days() =>
        Assert.Empty(Found(Judged("a", Jar, at => at < Now - Duration.FromDays(4) ? 23 : 24, resolution: 1)));

    [Fact]
    public void What_no_water_has_is_out_of_range()
    {
        var found = Found(Judged("a", Jar, at => at > Now - Duration.FromMinutes(25) ? 85 : Wave(at)));
        Assert.Equal("sensor-out-of-range", Assert.Single(found).Code);
        Assert.Equal(85.0, found[0]["value"]);
    }

    [Fact]
    public void Jumps_of_single_readings_are_spikes()
    {
        var found = Found(Judged("a", Jar, at => Wave(at) + ((at - Start).TotalMinutes % 120 == 0 ? 6 : 0)));
        Assert.Equal("sensor-spikes", Assert.Single(found).Code);
        Assert.Equal(11, found[0]["count"]);
    }

    [Fact]
    public void A_sensor_that_creeps_away_from_what_was_measured_by_hand_drifts()
    {
        var found = Assert.Single(
            Found(
                Judged(
                    "a",
                    Jar,
                    at => Wave(at) + (0.08 * (at - Start).TotalDays),
                    known: Known(Wave, everyDays: 2)
                )
            )
        );
        Assert.Equal("sensor-drifting", found.Code);
        Assert.InRange((double)found["off"]!, 0.5, 1.6);
        // The same without the creeping is let be.
        Assert.Empty(Found(Judged("a", Jar, at => Wave(at), known: Known(Wave, everyDays: 2))));
    }

    [Fact]
    public void A_sensor_that_leaves_what_the_ledger_expects_drifts()
    {
        var known = Known(Wave, everyDays: 1, sd: 0.2, isMeasured: false);
        Assert.Equal(
            "sensor-drifting",
            Assert.Single(Found(Judged("a", Jar, at => Wave(at) + 1, known: known))).Code
        );
        Assert.Empty(Found(Judged("a", Jar, at => Wave(at) + 0.1, known: known)));
    }

    [Fact]
    public void Two_sensors_that_fit_each_others_vessel_better_are_swapped()
    {
        JudgedSensor one = Judged("a", Jar, at => Wave(at) + 3, known: Known(Wave, everyDays: 2));
        JudgedSensor other = Judged("b", Tank, Wave, known: Known(at => Wave(at) + 3, everyDays: 2));
        var found = SensorChecks.Of([one, other], Now);
        Assert.Equal(2, found.Count);
        var remark = Assert.Single(found[one.Sensor.Id]);
        Assert.Equal("sensors-swapped", remark.Code);
        Assert.Equal(("shelf/b", (object)Tank), (remark["other"], remark["vessel"]));
    }

    [Fact]
    public void One_sensor_that_is_wrong_is_not_swapped_with_one_that_is_right()
    {
        JudgedSensor wrong = Judged("a", Jar, at => Wave(at) + 3, known: Known(Wave, everyDays: 2));
        JudgedSensor right = Judged("b", Tank, Wave, known: Known(Wave, everyDays: 2));
        var found = SensorChecks.Of([wrong, right], Now);
        Assert.Equal("sensor-drifting", Assert.Single(found[wrong.Sensor.Id]).Code);
        Assert.False(found.ContainsKey(right.Sensor.Id));
    }

    private static IReadOnlyList<Units.Remark> Found(JudgedSensor judged) =>
        SensorChecks.Of([judged], Now).GetValueOrDefault(judged.Sensor.Id) ?? [];

    private static double Wave(Instant at) => 24 + Math.Sin((at - Start).TotalHours * Math.PI / 12);

    private static KnownValue[] Known(
        Func<Instant, double> truth,
        int everyDays,
        double sd = 0.3,
        bool isMeasured = true
    ) =>
        [
            .. Enumerable
                .Range(0, 20 / everyDays)
                .Select(at => Start + Duration.FromDays(at * everyDays) + Duration.FromHours(6))
                .Select(
                    (at, number) =>
                        new KnownValue(at, truth(at) + (number % 2 == 0 ? 0.1 : -0.1), sd, isMeasured)
                ),
        ];

    private static JudgedSensor Judged(
        string name,
        VesselId vessel,
        Func<Instant, double> shows,
        double resolution = 0.0625,
        IReadOnlyList<KnownValue>? known = null
    )
    {
        var readings = Enumerable
            .Range(0, 20 * 288)
            .Select(at => Start + Duration.FromMinutes(at * 5))
            .Select(at => new RawReading(at, Math.Round(shows(at) / resolution) * resolution))
            .ToList();
        return new(
            new Sensor
            {
                Id = SensorId.Find("shelf", name)!,
                About = new("Cel", Resolution: resolution),
                FirstHeard = Start,
                Placements = [new(Start, vessel)],
            },
            [.. readings.Where(reading => reading.At >= Now - Duration.FromDays(10))],
            HourSummary.Of(readings),
            known ?? []
        );
    }
}
