using System.Globalization;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Units;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Cli.Sensors;

/// <summary>One hour, in the sensor's unit.</summary>
internal sealed record SensorHourJson(string From, double Lowest, double Mean, double Highest, int Readings);

/// <summary>The hours of a sensor.</summary>
internal sealed record SensorHoursAnswer(string Sensor, string Unit, IReadOnlyList<SensorHourJson> Hours);

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
    IReadOnlyList<string> NotDelivered
);

/// <summary>The alarms.</summary>
internal sealed record SensorAlarmsAnswer(IReadOnlyList<SensorAlarmJson> Alarms);

/// <summary>Tells hours and alarms.</summary>
internal static class SensorsHoursVerb
{
    private const int MostDays = 400;

    public static VerbCommand Make()
    {
        var name = Slot.Word("SENSOR", "Device and sensor, such as shelf-1/water.");
        var days = Slot.Option("--days", "How many days back; 1 if not said, at most 400.", "NUMBER");
        return new(
            "hours",
            "The least, the mean and the greatest of each hour.",
            ["sensors hours shelf-1/water --days 30"],
            [name, days],
            async sitting =>
            {
                await using var store = SensorsVerb.Open(sitting);
                var known = store is null ? [] : await store.SensorsAsync(sitting.Cancellation);
                if (
                    known.FirstOrDefault(one => one.Id.ToString() == name.Text(sitting.Parse)!)
                    is not { } sensor
                )
                {
                    return sitting.NotUnderstood([new Remark("sensor-unknown")]);
                }

                if (Days(days.Text(sitting.Parse), 1) is not { } back)
                {
                    return Wrong(sitting, days);
                }

                var hours = await SensorHistory.HoursAsync(
                    store!,
                    sensor.Id,
                    sitting.Now - Duration.FromDays(back),
                    sitting.Now + Duration.FromHours(1),
                    sitting.Cancellation
                );
                var answer = new SensorHoursAnswer(
                    sensor.Id.ToString(),
                    sensor.About.Unit,
                    [
                        .. hours.Select(hour => new SensorHourJson(
                            Saying.Iso(hour.From),
                            hour.Lowest,
                            hour.Mean,
                            hour.Highest,
                            hour.Count
                        )),
                    ]
                );
                return sitting.Answer(
                    answer,
                    CliJson.Default.SensorHoursAnswer,
                    page =>
                        page.Table(
                            ["hour", "least", "mean", "greatest", "readings"],
                            answer.Hours.Select(hour =>
                                (IReadOnlyList<string>)
                                    [
                                        hour.From,
                                        SensorNumbers.Of(hour.Lowest),
                                        SensorNumbers.Of(hour.Mean),
                                        SensorNumbers.Of(hour.Highest),
                                        hour.Readings.ToString(CultureInfo.InvariantCulture),
                                    ]
                            )
                        )
                );
            }
        );
    }

    public static VerbCommand Alarms()
    {
        var days = Slot.Option("--days", "How many days back; 7 if not said, at most 400.", "NUMBER");
        return new(
            "alarms",
            "Alarms of the last days, and who could not be told of them.",
            ["sensors alarms", "sensors alarms --days 30 --json"],
            [days],
            async sitting =>
            {
                if (Days(days.Text(sitting.Parse), 7) is not { } back)
                {
                    return Wrong(sitting, days);
                }

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
                        [
                            .. tried[alarm.Id]
                                .GroupBy(one => (one.Way, one.To))
                                .Select(tries => tries.Last().Failure)
                                .OfType<string>(),
                        ]
                    )),
                ]);
                return sitting.Answer(
                    answer,
                    CliJson.Default.SensorAlarmsAnswer,
                    page => Print(page, answer)
                );
            }
        );
    }

    private static void Print(Page page, SensorAlarmsAnswer answer)
    {
        if (answer.Alarms.Count == 0)
        {
            page.Line("No alarm. An alarm does not replace looking.");
            return;
        }

        page.Table(
            ["sensor", "alarm", "worst", "from", "until", "seen", "not delivered"],
            answer.Alarms.Select(alarm =>
                (IReadOnlyList<string>)
                    [
                        alarm.Sensor,
                        alarm.Kind.Replace('-', ' '),
                        SensorNumbers.Of(alarm.Worst),
                        alarm.From,
                        alarm.Until ?? "lasts",
                        alarm.SeenAt ?? "-",
                        string.Join(", ", alarm.NotDelivered),
                    ]
            )
        );
    }

    private static int? Days(string? text, int usual) =>
        text is null ? usual
        : int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var days)
        && days is > 0 and <= MostDays
            ? days
        : null;

    private static int Wrong(Sitting sitting, Slot days) =>
        sitting.NotUnderstood([
            new Remark("sensor-number-wrong", new Argument("typed", days.Text(sitting.Parse) ?? "")),
        ]);
}
