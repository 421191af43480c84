using System.Globalization;
using Broodtide.Cli.Door;
using Broodtide.Domain;
using Broodtide.Units;
using Broodtide.Workbench.Sensors;

namespace Broodtide.Cli.Sensors;

/// <summary>What was said of a sensor.</summary>
internal sealed record SensorSetAnswer(string Sensor, string? Vessel, SensorLimitsJson? Limits);

/// <summary>Limits that a keeper chose, in the sensor's unit.</summary>
internal sealed record SensorLimitsJson(
    double? Low,
    double? High,
    double HoldSeconds,
    double? SilentSeconds,
    bool IsLifeThreatening
);

/// <summary>Says where a sensor stands, and when it raises an alarm.</summary>
internal static class SensorsSetVerbs
{
    public static VerbCommand Place()
    {
        var name = Slot.Word("SENSOR", "Device and sensor, such as shelf-1/water.");
        var vessel = Slot.Word("VESSEL", "The vessel it stands in from now on; none for taken out.");
        return new(
            "place",
            "Say in which vessel a sensor stands from now on. What it read before stays where it stood.",
            ["sensors place shelf-1/water \"River tank\""],
            [name, vessel],
            async sitting =>
            {
                var house = (await sitting.LookAsync()).House;
                var text = vessel.Text(sitting.Parse)!;
                VesselId? where = null;
                if (text is not "none")
                {
                    var found = new Naming(house).Vessel(text);
                    if (!found.Succeeded)
                    {
                        return sitting.NotUnderstood([found.Reason], await sitting.SayingAsync());
                    }

                    where = found.Value;
                }

                await using var store = SensorsVerb.Open(sitting);
                if (
                    SensorId.Find(name.Text(sitting.Parse)!) is not { } sensor
                    || store is null
                    || !await store.PlaceAsync(
                        sensor,
                        new(RawReading.Cut(sitting.Now), where),
                        sitting.Cancellation
                    )
                )
                {
                    return sitting.NotUnderstood([new Remark("sensor-unknown")]);
                }

                var answer = new SensorSetAnswer(sensor.ToString(), where is null ? null : text, null);
                return sitting.Answer(
                    answer,
                    CliJson.Default.SensorSetAnswer,
                    page => page.Line($"{sensor} stands in {answer.Vessel ?? "no vessel"} from now on.")
                );
            }
        );
    }

    public static VerbCommand Limits()
    {
        var name = Slot.Word("SENSOR", "Device and sensor, such as shelf-1/water.");
        var low = Slot.Option("--low", "Alarm below, in the sensor's unit.", "NUMBER");
        var high = Slot.Option("--high", "Alarm above, in the sensor's unit.", "NUMBER");
        var back = Slot.Option("--back", "How far inside it must be again before an alarm ends.", "NUMBER");
        var hold = Slot.Option("--hold", "Seconds that it must stay outside; 300 if not said.", "SECONDS");
        var silent = Slot.Option("--silent", "Alarm when silent for so many seconds.", "SECONDS");
        var life = Slot.Flag("--life", "Animals die of it within hours: it goes through quiet hours.");
        var species = Slot.Flag("--species", "Take the limits of the species again.");
        return new(
            "limits",
            "Say when a sensor raises an alarm; what is not said raises none.",
            [
                "sensors limits shelf-1/water --low 20 --high 26.5 --life",
                "sensors limits shelf-1/water --species",
            ],
            [name, low, high, back, hold, silent, life, species],
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

                SensorLimits? limits = null;
                if (species.Text(sitting.Parse) is null)
                {
                    double?[] numbers = new double?[5];
                    foreach (
                        var (slot, at) in new[] { low, high, back, hold, silent }.Select((s, i) => (s, i))
                    )
                    {
                        if (slot.Text(sitting.Parse) is not { } text)
                        {
                            continue;
                        }

                        if (!double.TryParse(text, CultureInfo.InvariantCulture, out var number))
                        {
                            return sitting.NotUnderstood([
                                new Remark("sensor-number-wrong", new Argument("typed", text)),
                            ]);
                        }

                        numbers[at] = number;
                    }

                    limits = new(
                        numbers[0],
                        numbers[1],
                        numbers[2] ?? 0,
                        numbers[3] ?? 300,
                        numbers[4],
                        life.Text(sitting.Parse) is not null
                    );
                    if (SensorLimitsRule.WrongOf(limits, sensor.About.Unit) is { } wrong)
                    {
                        return sitting.Refuse([wrong]);
                    }
                }

                await store!.LimitAsync(sensor.Id, limits, sitting.Cancellation);
                var answer = new SensorSetAnswer(
                    sensor.Id.ToString(),
                    null,
                    limits is null
                        ? null
                        : new(
                            limits.Low,
                            limits.High,
                            limits.HoldSeconds,
                            limits.SilentSeconds,
                            limits.IsLifeThreatening
                        )
                );
                return sitting.Answer(
                    answer,
                    CliJson.Default.SensorSetAnswer,
                    page =>
                        page.Line(
                            limits is null
                                ? $"{sensor.Id} has the limits of the species."
                                : $"{sensor.Id} has limits of your own: {SensorNumbers.Of(limits.Low)} to {SensorNumbers.Of(limits.High)}."
                        )
                );
            }
        );
    }
}
