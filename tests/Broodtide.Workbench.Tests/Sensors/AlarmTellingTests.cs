using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Workbench.Tests.Sensors;

public sealed class AlarmTellingTests
{
    private static readonly Instant Raised = Instant.FromUtc(2026, 3, 1, 12, 0);
    private static readonly Duration Step = Duration.FromMinutes(15);
    private static readonly ToldPerson First = new("first", 0, null, null, DateTimeZone.Utc);
    private static readonly ToldPerson Second = new("second", 1, null, null, DateTimeZone.Utc);
    private static readonly ToldPerson Asleep = new(
        "asleep",
        0,
        new LocalTime(22, 0),
        new LocalTime(7, 0),
        DateTimeZoneProviders.Tzdb["Europe/Berlin"]
    );

    private static readonly AlarmSpan Alarm = new()
    {
        Id = Guid.Parse("0195557c-0000-7000-8000-0000000000a7"),
        Sensor = SensorId.Find("shelf-1", "water")!,
        Kind = AlarmKind.TooHigh,
        Limit = 26,
        Worst = 27,
        From = Raised - Duration.FromMinutes(5),
        Raised = Raised,
    };

    [Fact]
    public void The_first_step_is_told_at_once_and_the_next_when_nobody_has_seen_it()
    {
        Assert.Equal([new DueTelling(First, 0)], Due(Alarm, [First, Second], [], 0));
        AlarmDelivery[] told = [Told("first", 0, 0)];
        Assert.Empty(Due(Alarm, [First, Second], told, 14));
        Assert.Equal(
            [new DueTelling(First, 1), new DueTelling(Second, 1)],
            Due(Alarm, [First, Second], told, 15)
        );
        Assert.Empty(
            Due(Alarm, [First, Second], [.. told, Told("first", 15, 1), Told("second", 15, 1)], 600)
        );
    }

    [Fact]
    public void Who_has_seen_it_ends_the_telling_and_so_does_the_end_of_the_alarm()
    {
        Assert.Empty(Due(Alarm with { Seen = new(Raised, Guid.Empty) }, [First, Second], [], 60));
        Assert.Empty(Due(Alarm with { Until = Raised }, [First, Second], [], 60));
    }

    [Fact]
    public void In_quiet_hours_the_telling_waits_for_their_end()
    {
        // 22:30 to 06:59 in Berlin in March.
        var night = Alarm with
        {
            Raised = Instant.FromUtc(2026, 3, 1, 21, 30),
        };
        Assert.Empty(DueAt(night, [Asleep], Instant.FromUtc(2026, 3, 1, 21, 30)));
        Assert.Empty(DueAt(night, [Asleep], Instant.FromUtc(2026, 3, 2, 5, 59)));
        Assert.Single(DueAt(night, [Asleep], Instant.FromUtc(2026, 3, 2, 6, 0)));
    }

    [Fact]
    public void Where_animals_die_of_it_quiet_hours_do_not_count()
    {
        var night = Alarm with { Raised = Instant.FromUtc(2026, 3, 1, 21, 30), IsLifeThreatening = true };
        Assert.Single(DueAt(night, [Asleep], night.Raised));
    }

    [Fact]
    public void Quiet_hours_keep_to_the_clock_over_its_change()
    {
        // The clock goes forward on 29 March 2026 at 2 o'clock: the night ends an hour sooner in UTC.
        Assert.True(Asleep.IsQuietAt(Instant.FromUtc(2026, 3, 29, 4, 59)));
        Assert.False(Asleep.IsQuietAt(Instant.FromUtc(2026, 3, 29, 5, 0)));
        Assert.True(Asleep.IsQuietAt(Instant.FromUtc(2026, 3, 28, 5, 30)));
    }

    [Fact]
    public void What_failed_is_tried_again_and_ever_more_seldom()
    {
        AlarmDelivery[] one = [Failed(0)];
        Assert.Empty(Due(Alarm, [First], one, 0.9));
        Assert.Single(Due(Alarm, [First], one, 1));
        AlarmDelivery[] two = [Failed(0), Failed(1)];
        Assert.Empty(Due(Alarm, [First], two, 2.9));
        Assert.Single(Due(Alarm, [First], two, 3));
        AlarmDelivery[] many = [.. Enumerable.Range(0, 12).Select(at => Failed(at * 15))];
        Assert.Empty(Due(Alarm, [First], many, (11 * 15) + 14.9));
        Assert.Single(Due(Alarm, [First], many, (11 * 15) + 15));
    }

    private static IReadOnlyList<DueTelling> Due(
        AlarmSpan alarm,
        ToldPerson[] people,
        AlarmDelivery[] tried,
        double minutes
    ) => AlarmTelling.Due(alarm, people, tried, Step, Raised + Duration.FromMinutes(minutes));

    private static IReadOnlyList<DueTelling> DueAt(AlarmSpan alarm, ToldPerson[] people, Instant now) =>
        AlarmTelling.Due(alarm, people, [], Step, now);

    private static AlarmDelivery Told(string key, double minutes, int step) =>
        new(Alarm.Id, Raised + Duration.FromMinutes(minutes), "mail", key, step);

    private static AlarmDelivery Failed(double minutes) =>
        Told("first", minutes, 0) with
        {
            Failure = "mail-not-delivered",
        };
}
