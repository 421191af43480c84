using Broodtide.Cli.Door;
using Broodtide.Units;
using Broodtide.Workbench.Sensors;

namespace Broodtide.Cli.Sensors;

/// <summary>What a logger's file became, by sensor.</summary>
internal sealed record SensorTakenJson(string Sensor, int New, int Known);

/// <summary>What a logger's file became.</summary>
internal sealed record SensorsTakenAnswer(string File, IReadOnlyList<SensorTakenJson> Sensors);

/// <summary>Takes in a logger's file.</summary>
internal static class SensorsTakeVerb
{
    public static VerbCommand Make()
    {
        var file = Slot.Word("FILE", "A logger's file: cells parted by commas, semicolons, tabs or bars.");
        var map = Slot.Option(
            "--map",
            "Its mapping, a JSON file; docs/sensors.md tells its members.",
            "FILE"
        );
        var device = Slot.Option("--logger", "The logger's name.", "NAME");
        return new(
            "take",
            "Take in a logger's file by its mapping: all of it, or nothing. The same readings twice are one.",
            ["sensors take logger.csv --map loggermap.json --logger shelf-1"],
            [file, map, device],
            sitting =>
                TakeAsync(
                    sitting,
                    file.Text(sitting.Parse)!,
                    map.Text(sitting.Parse),
                    device.Text(sitting.Parse)
                )
        );
    }

    private static async Task<int> TakeAsync(Sitting sitting, string file, string? map, string? device)
    {
        if (map is null || device is null || !SensorId.IsPlain(device))
        {
            return sitting.NotUnderstood([new Remark("logger-name-and-map")]);
        }

        await using var stream = File.OpenRead(file);
        var read = await LoggerFile.ReadAsync(
            stream,
            device,
            await File.ReadAllBytesAsync(map, sitting.Cancellation),
            sitting.Now,
            sitting.Cancellation
        );
        if (!read.Succeeded)
        {
            return sitting.NotUnderstood([read.Reason]);
        }

        await using var store = SensorsVerb.Open(sitting, isMade: true)!;
        var known = (await store.SensorsAsync(sitting.Cancellation)).ToDictionary(sensor => sensor.Id);
        if (
            read.Value.Any(column =>
                known.TryGetValue(column.Sensor, out var sensor) && sensor.About.Unit != column.About.Unit
            )
        )
        {
            return sitting.Refuse([new Remark("sensor-unit-changed")]);
        }

        var taken = new List<SensorTakenJson>();
        foreach (var column in read.Value)
        {
            if (!known.ContainsKey(column.Sensor))
            {
                await store.DescribeAsync(column.Sensor, column.About, sitting.Clock, sitting.Cancellation);
            }

            var kept = await store.TakeAsync(
                [.. column.Readings.Select(reading => new SensorReading(column.Sensor, reading))],
                sitting.Cancellation
            );
            taken.Add(new(column.Sensor.ToString(), kept.New, kept.Known));
        }

        await DayClosing.CloseAsync(store, sitting.Now, sitting.Cancellation);
        var answer = new SensorsTakenAnswer(file, taken);
        return sitting.Answer(
            answer,
            CliJson.Default.SensorsTakenAnswer,
            page =>
            {
                foreach (var sensor in answer.Sensors)
                {
                    page.Line($"{sensor.Sensor}: {sensor.New} new readings, {sensor.Known} known already.");
                }
            }
        );
    }
}
