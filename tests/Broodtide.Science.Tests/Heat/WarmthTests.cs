using Broodtide.Science.Heat;
using Broodtide.Science.Water;
using Broodtide.Units;

namespace Broodtide.Science.Tests.Heat;

public class WarmthTests
{
    private static readonly VesselBody TenLitres = VesselBody.OfVolume(Volume.FromLitres(10));

    [Fact]
    public void After_one_time_constant_37_percent_of_the_difference_are_left() =>
        Assert.Equal(30 - (10 * Math.Exp(-1)), CoolingBelief.After(20, 30, 30, 5, 5), 12);

    [Fact]
    public void The_exact_solution_under_a_room_that_rises_agrees_with_small_steps()
    {
        var stepped = 22.0;
        const int steps = 200_000;
        for (var i = 0; i < steps; i++)
        {
            var room = 24 + (8 * (i + 0.5) / steps);
            stepped += 12.0 / steps * (room - 0.7 - stepped) / 4;
        }

        Assert.Equal(stepped, CoolingBelief.After(22, 24, 32, 12, 4, -0.7), 3);
    }

    [Fact]
    public void A_vessel_of_which_nothing_was_read_follows_within_hours_and_a_large_one_more_slowly()
    {
        var small = CoolingBelief.Of(VesselBody.OfVolume(Volume.FromLitres(1))).TimeConstantHours;
        var large = CoolingBelief.Of(VesselBody.OfVolume(Volume.FromLitres(60))).TimeConstantHours;

        // Q = h A dT with h = 10 W/(m2 K) on six sides of a cube: side x heat / (6 h).
        Assert.Equal(0.1 * 4.15e6 / 60 / 3600, small.Middle, 2);
        Assert.InRange(small.High / small.Middle, 1.8, 2.3);
        Assert.Equal(Math.Cbrt(60), large.Middle / small.Middle, 2);
    }

    [Fact]
    public void Readings_of_vessel_and_room_teach_the_time_constant_and_the_interval_holds_it()
    {
        var held = 0;
        var narrower = 0;
        const int vessels = 60;
        for (var number = 0; number < vessels; number++)
        {
            var random = new Random(number);
            var truth = 4.2 * Math.Exp(0.42 * Normal(random));
            var offset = Normal(random);
            var (vessel, room) = Followed(random, truth, offset);

            var learned = CoolingBelief.Of(TenLitres, vessel, room);

            held += learned.TimeConstantHours.Contains(truth) ? 1 : 0;
            narrower +=
                learned.TimeConstantHours.Width < CoolingBelief.Of(TenLitres).TimeConstantHours.Width ? 1 : 0;
            Assert.True(learned.StretchesLearned > 10);
        }

        Assert.InRange(held, (int)(0.8 * vessels), vessels);
        Assert.InRange(narrower, (int)(0.9 * vessels), vessels);
    }

    [Fact]
    public void Without_the_room_nothing_is_learned()
    {
        var (vessel, _) = Followed(new Random(1), 5, 0);

        Assert.Equal(0, CoolingBelief.Of(TenLitres, vessel, []).StretchesLearned);
    }

    [Fact]
    public void The_forecast_of_a_limit_holds_what_comes_in_nine_of_ten_days()
    {
        var inside = 0;
        const int days = 80;
        for (var number = 0; number < days; number++)
        {
            var random = new Random(1000 + number);
            var truth = 4.2 * Math.Exp(0.42 * Normal(random));
            var offset = Normal(random);
            var room = new RoomCourse(29, 4, 1);
            var middle = 29 + Normal(random);
            var celsius = 25.0;
            for (var i = 0; i < 24 * 60; i++)
            {
                celsius += (new RoomCourse(middle, 4, 0).At(6 + (i / 60.0)) + offset - celsius) / 60 / truth;
            }

            var ahead = WarmthAhead.Of(
                new()
                {
                    Body = TenLitres,
                    Cooling = CoolingBelief.Of(TenLitres),
                    Room = room,
                    StartCelsius = 25,
                    StartHourOfDay = 6,
                },
                24
            );
            inside += ahead.At(24).Contains(celsius) ? 1 : 0;
        }

        Assert.InRange(inside, (int)(0.8 * days), days);
    }

    // ASHRAE Handbook, HVAC Applications, natatoriums: 4e-5 (pw - pa) kg/(s m2), kPa, for air at 0.10 m/s (from memory).
    [Fact]
    public void Moving_air_at_a_tenth_of_a_metre_gives_the_short_form_of_the_handbook()
    {
        var water = Temperature.FromCelsius(28);
        var air = new RoomAir(Temperature.FromCelsius(28), 0.5);
        var kilopascals = 0.5 * VapourPressure.OverPureWater(water).Value / 1000;

        Assert.Equal(
            4e-5 * kilopascals * 3600,
            Evaporation.MovingAir(Salinity.FromPractical(0), water, air, 0.1).Value,
            0.01 * 4e-5 * kilopascals * 3600
        );
    }

    [Fact]
    public void A_fan_cools_in_dry_air_takes_more_water_and_does_nothing_in_wet_air()
    {
        WarmthAhead With(double fan, double humidity) =>
            WarmthAhead.Of(
                new()
                {
                    Body = TenLitres,
                    Cooling = CoolingBelief.Of(TenLitres),
                    Room = new RoomCourse(31, 0, 0),
                    StartCelsius = 31,
                    StartHourOfDay = 12,
                    Salinity = Salinity.FromPractical(30),
                    FanMetresPerSecond = fan,
                    RelativeHumidity = humidity,
                },
                48
            );

        var still = With(0, 0.45);
        var blown = With(1, 0.45);
        Assert.InRange(still.At(48).Middle - blown.At(48).Middle, 0.8, 4);
        Assert.InRange(blown.EvaporationLitresPerDay / still.EvaporationLitresPerDay, 2.2, 4);
        var wet = With(1, 1);
        Assert.Equal(With(0, 1).At(48).Middle, wet.At(48).Middle, 1);
    }

    // Fresh water and air at 25 degC, humidity 0.5: 0.108 kg/(m2 h) by Shah 2014, 0.114 by the pool formula for a quiet
    // surface; 0.393 under air of 1 m/s by Carrier's coefficients (from memory).
    [Theory]
    [InlineData(0, 0.108)]
    [InlineData(1, 0.393)]
    public void What_a_surface_loses_is_that_of_still_air_or_of_the_fan(double fan, double kilograms)
    {
        // So deep that neither fan nor room moves its warmth within a day.
        var deep = new VesselBody(Volume.FromLitres(100_000), 1, 1);
        var ahead = WarmthAhead.Of(
            new()
            {
                Body = deep,
                Cooling = CoolingBelief.Of(deep),
                Room = new RoomCourse(25, 0, 0),
                StartCelsius = 25,
                StartHourOfDay = 0,
                FanMetresPerSecond = fan,
                RelativeHumidity = 0.5,
            },
            24
        );

        Assert.Equal(kilograms, ahead.EvaporationLitresPerDay / 24, 0.03 * kilograms);
    }

    [Fact]
    public void Water_under_a_fan_stays_above_the_wet_bulb()
    {
        // Wet bulb of air at 31 degC and 45 %: 21.8 degC (Stull 2011, J. Appl. Meteorol. Climatol. 50:2267, his equation).
        const double wetBulb = 21.8;
        var ahead = WarmthAhead.Of(
            new()
            {
                Body = new(Volume.FromLitres(10), 0.3, 0.001),
                Cooling = CoolingBelief.Of(new(Volume.FromLitres(10), 0.3, 0.001)),
                Room = new RoomCourse(31, 0, 0),
                StartCelsius = 31,
                StartHourOfDay = 0,
                FanMetresPerSecond = 2,
                RelativeHumidity = 0.45,
            },
            96
        );

        Assert.InRange(ahead.At(96).Middle, wetBulb, 30);
    }

    [Fact]
    public void A_room_read_three_times_a_day_shows_its_middle_and_its_swing()
    {
        var truth = new RoomCourse(27, 3, 0);
        var told = RoomCourse.From([
            .. Enumerable.Range(0, 9).Select(i => new TimedCelsius(8 + (8.0 * i), truth.At(8 + (8.0 * i)))),
        ])!;

        Assert.Equal(27, told.MiddleCelsius, 0.3);
        Assert.Equal(3, told.SwingCelsius, 0.4);
        Assert.Null(RoomCourse.From([]));
    }

    [Fact]
    public void A_first_passage_leaves_out_the_points_that_lie_beyond_the_horizon()
    {
        var passage = FirstPassage.Of(
            [(2, 1), (4, 1), (6, 1), (double.PositiveInfinity, 1), (double.PositiveInfinity, 1)],
            48
        );

        Assert.Equal(
            (2, 6, (double?)null, 0.6),
            (passage.EarlyHours, passage.MiddleHours, passage.LateHours, passage.Chance.Value)
        );
        Assert.Throws<ArgumentException>(() => FirstPassage.Of([], 48));
    }

    private static (List<TimedCelsius> Vessel, List<TimedCelsius> Room) Followed(
        Random random,
        double tau,
        double offset
    )
    {
        List<TimedCelsius> vessel = [];
        List<TimedCelsius> room = [];
        var course = new RoomCourse(25, 3, 0);
        var celsius = 25.0;
        for (var minute = 0; minute <= 5 * 24 * 60; minute++)
        {
            var hour = minute / 60.0;
            celsius += (course.At(hour) + offset - celsius) / 60 / tau;
            // Morning, noon, evening, late.
            if (minute % 60 == 0 && ((minute / 60) % 24) is 7 or 12 or 18 or 22 && minute % 60 == 0)
            {
                vessel.Add(new(hour, celsius + (0.3 * Normal(random))));
                room.Add(new(hour, course.At(hour) + (0.3 * Normal(random))));
            }
        }

        return (vessel, room);
    }

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
