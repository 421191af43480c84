using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain;
using Broodtide.Storage.Blocks;
using NodaTime;

namespace Broodtide.Cli.Sensors;

/// <summary>A sensor as it stands.</summary>
internal sealed record SensorJson(
    string Sensor,
    string? Label,
    string Unit,
    string? Vessel,
    bool WasPlaced,
    string? LastAt,
    double? LastValue,
    IReadOnlyList<RemarkJson> Findings
);

/// <summary>All sensors.</summary>
internal sealed record SensorsAnswer(string Now, IReadOnlyList<SensorJson> Sensors);

/// <summary>What sensors read, kept beside the journal.</summary>
internal static class SensorsVerb
{
    public static Command Make() =>
        new("sensors", "Sensors and loggers: what they read, where they stand, their limits and alarms.")
        {
            SensorsTakeVerb.Make(),
            List(),
            SensorsSetVerbs.Place(),
            SensorsSetVerbs.Limits(),
            SensorsHoursVerb.Make(),
            SensorsAlarmsVerb.Make(),
            SensorsSeeVerb.Make(),
        };

    /// <summary>The readings beside the journal; none where nothing was ever kept, since looking makes no file.</summary>
    public static ReadingsFile? Open(Sitting sitting, bool isMade = false)
    {
        var path = ReadingsFile.BesidePath(sitting.JournalPath);
        return isMade || File.Exists(path) ? ReadingsFile.Open(path) : null;
    }

    private static VerbCommand List() =>
        new(
            "list",
            "Every sensor: where it stands, what it read last, what does not look right about it.",
            ["sensors list", "sensors list --json"],
            [],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var naming = new Naming(outlook.House);
                var rows = new List<SensorJson>();
                foreach (var sensor in outlook.Sensors?.Sensors ?? [])
                {
                    rows.Add(
                        new(
                            sensor.Id,
                            sensor.Label,
                            sensor.Unit,
                            sensor.Vessel is { } vessel
                                ? naming.NameOf(Domain.Journal.Subject.Of(new VesselId(vessel)))
                                : null,
                            sensor.WasPlaced,
                            sensor.LastAt is { } at ? Saying.Iso(Instant.FromUnixTimeMilliseconds(at)) : null,
                            sensor.LastValue,
                            [.. sensor.Findings.Select(finding => saying.Json(finding.ToRemark()))]
                        )
                    );
                }

                var answer = new SensorsAnswer(Saying.Iso(outlook.Now), rows);
                return sitting.Answer(answer, CliJson.Default.SensorsAnswer, page => Print(page, answer));
            }
        );

    private static void Print(Page page, SensorsAnswer answer)
    {
        if (answer.Sensors.Count == 0)
        {
            page.Line("No sensor is known beside this journal.");
            return;
        }

        page.Table(
            ["sensor", "stands in", "last value", "at"],
            answer.Sensors.Select(sensor =>
                (IReadOnlyList<string>)
                    [
                        sensor.Sensor,
                        sensor.Vessel ?? (sensor.WasPlaced ? "no vessel" : "not said yet"),
                        sensor.LastValue is { } value
                            ? $"{SensorNumbers.Of(value)} {UnitNames.Of(sensor.Unit)}"
                            : "-",
                        sensor.LastAt ?? "-",
                    ]
            )
        );
        foreach (var finding in answer.Sensors.SelectMany(sensor => sensor.Findings))
        {
            page.Line(finding.Words);
        }

        page.Line("An alarm does not replace looking.");
    }
}
