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

/// <summary>Tells hours.</summary>
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

    public static int? Days(string? text, int usual) =>
        text is null ? usual
        : int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var days)
        && days is > 0 and <= MostDays
            ? days
        : null;

    public static int Wrong(Sitting sitting, Slot days) =>
        sitting.NotUnderstood([
            new Remark("sensor-number-wrong", new Argument("typed", days.Text(sitting.Parse) ?? "")),
        ]);
}
