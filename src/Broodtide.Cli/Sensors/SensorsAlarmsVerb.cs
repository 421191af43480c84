using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Cli.Sensors;

/// <summary>One alarm.</summary>
internal sealed record SensorAlarmJson(
    string Alarm,
    string Sensor,
    string Kind,
    double Limit,
    double? Worst,
    string From,
    string? Until,
    string? SeenAt,
    bool LearnedLate,
    IReadOnlyList<string> NotDelivered
);

/// <summary>The alarms.</summary>
internal sealed record SensorAlarmsAnswer(IReadOnlyList<SensorAlarmJson> Alarms);

/// <summary>Tells alarms, and who could not be told of them.</summary>
internal static class SensorsAlarmsVerb
{
    public static VerbCommand Make()
    {
        var days = Slot.Option("--days", "How many days back; 7 if not said, at most 400.", "NUMBER");
        return new(
            "alarms",
            "Alarms of the last days, and who could not be told of them.",
            ["sensors alarms", "sensors alarms --days 30 --json"],
            [days],
            async sitting =>
            {
                if (SensorsHoursVerb.Days(days.Text(sitting.Parse), 7) is not { } back)
                {
                    return SensorsHoursVerb.Wrong(sitting, days);
                }

                var saying = new Saying(sitting.Zone, null);
                var since = sitting.Now - Duration.FromDays(back);
                await using var store = SensorsVerb.Open(sitting);
                var alarms = store is null ? [] : await store.AlarmsAsync(since, sitting.Cancellation);
                var tried = (
                    store is null ? [] : await store.DeliveriesAsync(since, sitting.Cancellation)
                ).ToLookup(one => one.Alarm);
                var answer = new SensorAlarmsAnswer([
                    .. alarms.Select(alarm => new SensorAlarmJson(
                        alarm.Id.ToString(),
                        alarm.Sensor.ToString(),
                        EnumWords.Of(alarm.Kind),
                        alarm.Limit,
                        alarm.Worst,
                        Saying.Iso(alarm.From),
                        alarm.Until is { } until ? Saying.Iso(until) : null,
                        alarm.Seen is { } seen ? Saying.Iso(seen.At) : null,
                        alarm.WasLearnedLate,
                        SensorsTelling.NotDelivered(tried[alarm.Id])
                    )),
                ]);
                return sitting.Answer(
                    answer,
                    CliJson.Default.SensorAlarmsAnswer,
                    page => Print(page, answer, saying)
                );
            }
        );
    }

    private static void Print(Page page, SensorAlarmsAnswer answer, Saying saying)
    {
        if (answer.Alarms.Count == 0)
        {
            page.Line("No alarm. An alarm does not replace looking.");
            return;
        }

        page.Table(
            ["alarm", "sensor", "about", "worst", "from", "until", "seen"],
            answer.Alarms.Select(alarm =>
                (IReadOnlyList<string>)
                    [
                        alarm.Alarm[^6..],
                        alarm.Sensor,
                        alarm.Kind.Replace('-', ' '),
                        SensorNumbers.Of(alarm.Worst),
                        alarm.From,
                        alarm.LearnedLate ? $"{alarm.Until} (learned late)" : alarm.Until ?? "lasts",
                        alarm.SeenAt ?? "-",
                    ]
            )
        );
        foreach (var alarm in answer.Alarms.Where(alarm => alarm.NotDelivered.Count > 0))
        {
            page.Line(
                $"Alarm {alarm.Alarm[^6..]}: somebody could not be told. {string.Join(" ", alarm.NotDelivered.Select(code => saying.Of(code, [])))}"
            );
        }

        if (answer.Alarms.Any(alarm => alarm.SeenAt is null))
        {
            page.Line(
                "When you have seen one: broodtide sensors see ALARM. Nobody is then told of it any more."
            );
        }
    }
}
