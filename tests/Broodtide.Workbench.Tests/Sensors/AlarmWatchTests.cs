using Broodtide.Domain;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Workbench.Tests.Sensors;

public sealed class AlarmWatchTests
{
    private static readonly SensorId Water = SensorId.Find("shelf-1", "water")!;
    private static readonly VesselId Jar = new(Guid.Parse("0195557c-0000-7000-8000-0000000000e4"));
    private static readonly Instant Start = Instant.FromUtc(2026, 3, 1, 0, 0);
    private static readonly SensorLimits Limits = new(20, 26, 0.5, 60, 600, IsLifeThreatening: true);

    [Fact]
    public void A_value_must_stay_outside_for_the_holding_time()
    {
        var watch = new AlarmWatch(Water);
        Assert.Empty(See(watch, 0, 26.4));
        Assert.Empty(See(watch, 30, 26.6));
        Assert.Empty(See(watch, 50, 25.9));
        Assert.Empty(See(watch, 70, 26.7));
        Assert.Empty(See(watch, 129, 26.3));
        var alarm = Assert.Single(See(watch, 130, 26.2));
        Assert.Equal(AlarmKind.TooHigh, alarm.Kind);
        Assert.Equal((26, 26.7), (alarm.Limit, alarm.Worst));
        Assert.Equal(Start + Duration.FromSeconds(70), alarm.From);
        Assert.Equal((Jar, true, true), (alarm.Vessel, alarm.IsLifeThreatening, alarm.Lasts));
    }

    [Fact]
    public void A_value_that_trembles_on_its_limit_is_one_alarm()
    {
        var watch = new AlarmWatch(Water);
        var told = new List<AlarmSpan>();
        for (var seconds = 0; seconds < 7200; seconds += 30)
        {
            told.AddRange(See(watch, seconds, seconds / 30 % 2 == 0 ? 26.1 : 25.9));
        }

        // Never outside for a minute: nothing.
        Assert.Empty(told);
        See(watch, 7200, 27);
        Assert.Single(See(watch, 7260, 27));
        for (var seconds = 7290; seconds < 9000; seconds += 30)
        {
            told.AddRange(See(watch, seconds, seconds / 30 % 2 == 0 ? 26.1 : 25.9));
        }

        // Back under the limit, but never by the hysteresis: it lasts.
        Assert.Empty(told);
        Assert.Empty(See(watch, 9000, 25.4));
        var ended = Assert.Single(See(watch, 9060, 25.5));
        Assert.Equal(Start + Duration.FromSeconds(9000), ended.Until);
    }

    [Fact]
    public void An_alarm_tells_when_it_grows_worse_and_not_when_it_does_not()
    {
        var watch = new AlarmWatch(Water);
        See(watch, 0, 19);
        var raised = Assert.Single(See(watch, 60, 18));
        Assert.Equal((AlarmKind.TooLow, 18.0), (raised.Kind, raised.Worst));
        Assert.Empty(See(watch, 70, 18.5));
        var worse = Assert.Single(See(watch, 80, 17));
        Assert.Equal((raised.Id, 17.0), (worse.Id, worse.Worst));
    }

    [Fact]
    public void Silence_is_an_alarm_that_the_next_reading_ends()
    {
        var watch = new AlarmWatch(Water, last: Start);
        Assert.Empty(watch.Wait(Limits, Jar, Start + Duration.FromSeconds(600)));
        var silent = Assert.Single(watch.Wait(Limits, Jar, Start + Duration.FromSeconds(601)));
        Assert.Equal((AlarmKind.Silent, Start), (silent.Kind, silent.From));
        Assert.Empty(watch.Wait(Limits, Jar, Start + Duration.FromSeconds(9000)));
        Assert.Equal(Start + Duration.FromSeconds(700), Assert.Single(See(watch, 700, 24)).Until);
    }

    [Fact]
    public void A_watch_that_begins_anew_goes_on_with_what_lasts()
    {
        var first = new AlarmWatch(Water);
        See(first, 0, 27);
        var raised = Assert.Single(See(first, 60, 27));
        var second = new AlarmWatch(Water, [raised], Start + Duration.FromSeconds(60));
        Assert.Empty(See(second, 70, 26.9));
        Assert.Empty(See(second, 80, 25));
        Assert.Equal(
            raised with
            {
                Until = Start + Duration.FromSeconds(80),
            },
            Assert.Single(See(second, 140, 25))
        );
    }

    [Fact]
    public void A_late_reading_tells_nothing_of_now()
    {
        var watch = new AlarmWatch(Water);
        See(watch, 100, 24);
        Assert.Empty(See(watch, 0, 40));
        Assert.Empty(See(watch, 60, 40));
        Assert.Empty(See(watch, 100, 40));
    }

    [Fact]
    public void Without_limits_what_lasts_is_over()
    {
        var watch = new AlarmWatch(Water);
        See(watch, 0, 27);
        See(watch, 60, 27);
        var over = Assert.Single(watch.Wait(null, Jar, Start + Duration.FromSeconds(90)));
        Assert.Equal(Start + Duration.FromSeconds(90), over.Until);
        Assert.Empty(watch.Wait(null, Jar, Start + Duration.FromSeconds(95)));
    }

    private static IReadOnlyList<AlarmSpan> See(AlarmWatch watch, int seconds, double value)
    {
        var at = Start + Duration.FromSeconds(seconds);
        return watch.See(new(at, value), Limits, Jar, at);
    }
}
