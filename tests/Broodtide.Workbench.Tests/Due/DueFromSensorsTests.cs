using Broodtide.Domain.Keeping;
using Broodtide.Units;
using Broodtide.Workbench.Due;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Sensors;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Due;

public sealed class DueFromSensorsTests
{
    private static readonly Instant Now = At(5, 14, 18);
    private static readonly Guid Jar = Guid.Parse("00000000-0000-7000-8000-000000000001");
    private static readonly Guid Alarm = Guid.Parse("0195557c-0000-7000-8000-0000000000a7");

    private static SensorSeen Sensor(Instant last, params IReadOnlyList<Remark> findings) =>
        new(
            "shelf-1/water",
            "upper jar",
            "Cel",
            Jar,
            WasPlaced: true,
            last.ToUnixTimeMilliseconds(),
            24,
            null,
            new(20, 26, 0.3, 300, 900, IsLifeThreatening: true),
            OwnLimits: true,
            [.. findings.Select(FindingSeen.Of)],
            []
        );

    private static AlarmSeen Hot(Instant? until = null, Instant? seen = null) =>
        new(
            Alarm,
            "shelf-1/water",
            Jar,
            AlarmKind.TooHigh,
            26,
            27.5,
            (Now - Duration.FromHours(2)).ToUnixTimeMilliseconds(),
            until?.ToUnixTimeMilliseconds(),
            IsLifeThreatening: true,
            seen?.ToUnixTimeMilliseconds(),
            []
        );

    private static SensorsSeen Told(Instant at, SensorSeen sensor, params IReadOnlyList<AlarmSeen> alarms) =>
        new(at.ToUnixTimeMilliseconds(), [sensor], alarms, null, false, new Dictionary<string, long>());

    private static DueList Due(SensorsSeen told, Instant now, KeptJournal? journal = null) =>
        Outlook.Of((journal ?? new KeptJournal()).Account(), now, DateTimeZone.Utc, sensors: told).Due;

    [Fact]
    public void An_alarm_that_lasts_and_that_nobody_has_seen_is_the_next_thing_to_do()
    {
        var next = Due(Told(Now, Sensor(Now), Hot()), Now).Next!;

        Assert.Equal(ActionCodes.SeeAlarm, next.Action.Code);
        Assert.Equal(DuePart.Now, next.Part);
        Assert.Equal(DoorCode.Sensors, next.Action.Door.Code);
        Assert.Equal("due-alarm-high", next.Action.Reason.Code);
        Assert.Equal(27.5, next.Action.Reason["value"]);
        Assert.Equal(Jar, next.Action.About.Id);

        Assert.Empty(Due(Told(Now, Sensor(Now), Hot(seen: Now)), Now).Items);
        Assert.Empty(Due(Told(Now, Sensor(Now), Hot(until: Now)), Now).Items);
    }

    [Fact]
    public void A_sensor_is_silent_as_of_when_the_house_told_it_and_not_because_a_phone_has_no_network()
    {
        var heard = Told(Now, Sensor(Now - Duration.FromMinutes(5)));
        Assert.Empty(Due(heard, Now + Duration.FromHours(9)).Items);

        var item = Assert.Single(Due(Told(Now, Sensor(Now - Duration.FromMinutes(16))), Now).Items);
        Assert.Equal(ActionCodes.HearSensor, item.Action.Code);
        Assert.Equal("due-sensor-silent", item.Action.Reason.Code);

        // Its alarm tells it already.
        var alarm = Hot() with
        {
            Kind = AlarmKind.Silent,
            Worst = null,
        };
        Assert.Equal(
            ActionCodes.SeeAlarm,
            Assert.Single(Due(Told(Now, Sensor(Now - Duration.FromHours(2)), alarm), Now).Items).Action.Code
        );
    }

    [Fact]
    public void While_the_broker_is_away_one_item_stands_for_all_that_are_silent()
    {
        var away = Told(Now, Sensor(Now - Duration.FromHours(2))) with
        {
            BrokerTrouble = "sensor-broker-away",
        };

        Assert.Equal("due-broker-away", Assert.Single(Due(away, Now).Items).Action.Reason.Code);
    }

    [Fact]
    public void A_finding_may_slip_and_is_told_in_the_words_of_the_check()
    {
        var item = Assert.Single(
            Due(
                Told(Now, Sensor(Now, new Remark("sensor-stuck", new("value", 24.0), new("since", Now)))),
                Now
            ).Items
        );

        Assert.Equal(ActionCodes.CheckSensor, item.Action.Code);
        Assert.Equal(DuePart.MaySlip, item.Part);
        Assert.Equal("sensor-stuck", item.Action.Reason.Code);
    }

    [Fact]
    public void Sensors_that_nobody_placed_are_one_item()
    {
        var told = Told(Now, Sensor(Now) with { WasPlaced = false, Vessel = null });

        Assert.Equal(ActionCodes.PlaceSensor, Assert.Single(Due(told, Now).Items).Action.Code);
    }

    [Fact]
    public void What_is_written_as_done_is_asked_for_no_more_and_the_next_day_again()
    {
        var stuck = new Remark("sensor-stuck", new("value", 24.0), new("since", Now));
        var told = Told(Now, Sensor(Now, stuck));
        var key = Due(told, Now).Items[0].Action.Key;
        var journal = new KeptJournal().Write(Now - Duration.FromMinutes(1), new ActionDone(key));

        Assert.Empty(Due(told, Now, journal).Items);
        var tomorrow = Now + Duration.FromDays(1);
        Assert.Single(Due(Told(tomorrow, Sensor(tomorrow, stuck)), tomorrow, journal).Items);
    }
}
