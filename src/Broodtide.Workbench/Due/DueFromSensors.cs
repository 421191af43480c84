using System.Globalization;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Workbench.Due;

/// <summary>
/// What sensors ask for, as of when they were told: alarms that last and that nobody has seen, devices that fell silent,
/// findings, sensors that nobody has placed. A phone without a network does not take its own silence for theirs.
/// </summary>
internal static class DueFromSensors
{
    // Practice, no source: a sensor that lies or says nothing is looked at within hours; where one stands is said in days.
    private static readonly Duration Heard = Duration.FromHours(1);
    private static readonly Duration Checked = Duration.FromHours(12);
    private static readonly Duration CheckSlips = Duration.FromDays(3);
    private static readonly Duration Placed = Duration.FromDays(7);
    private static readonly Duration PlacingSlips = Duration.FromDays(30);

    public static IEnumerable<PlannedAction> Of(SensorsSeen? told, Instant now)
    {
        if (told is null)
        {
            yield break;
        }

        var asOf = Instant.FromUnixTimeMilliseconds(told.At);
        foreach (var action in Alarms(told).Concat(Silent(told, asOf, now)).Concat(Findings(told, asOf, now)))
        {
            yield return action;
        }

        if (told.Sensors.Where(sensor => !sensor.WasPlaced).ToList() is { Count: > 0 } unplaced)
        {
            yield return Make(
                ActionCodes.PlaceSensor,
                Subject.House,
                // Who put it off is asked again when another one comes.
                unplaced.Count.ToString(CultureInfo.InvariantCulture),
                new Remark("due-sensors-unplaced", new Argument("count", unplaced.Count)),
                now,
                now + Placed,
                now + PlacingSlips,
                NameOf(unplaced[0])
            );
        }
    }

    private static IEnumerable<PlannedAction> Alarms(SensorsSeen told)
    {
        foreach (var alarm in told.Alarms.Where(alarm => alarm.Until is null && alarm.SeenAt is null))
        {
            var sensor = told.Sensors.FirstOrDefault(one => one.Id == alarm.Sensor);
            var name = sensor is null ? alarm.Sensor : NameOf(sensor);
            var from = Instant.FromUnixTimeMilliseconds(alarm.From);
            yield return Make(
                ActionCodes.SeeAlarm,
                About(alarm.Vessel),
                alarm.Id.ToString("N"),
                alarm.Kind is AlarmKind.Silent
                    ? new Remark("due-alarm-silent", new("sensor", name), new("since", from))
                    : new Remark(
                        alarm.Kind is AlarmKind.TooLow ? "due-alarm-low" : "due-alarm-high",
                        new("sensor", name),
                        new("value", alarm.Worst ?? alarm.Limit),
                        new("limit", alarm.Limit),
                        new("unit", sensor?.Unit ?? ""),
                        new("since", from)
                    ),
                from,
                from,
                null,
                name
            );
        }
    }

    // A device carries its sensors: what it needs is one look at it, however many hang on it.
    private static IEnumerable<PlannedAction> Silent(SensorsSeen told, Instant asOf, Instant now)
    {
        var alarmed = told
            .Alarms.Where(alarm => alarm is { Until: null, Kind: AlarmKind.Silent })
            .Select(alarm => alarm.Sensor)
            .ToHashSet(StringComparer.Ordinal);
        var silent = told
            .Sensors.Where(sensor => sensor.Vessel is not null && sensor.IsSilentAt(asOf))
            .ToList();
        if (told.BrokerTrouble is not null && silent.Count > 0)
        {
            yield return Make(
                ActionCodes.HearSensor,
                Subject.House,
                $"broker.{Day(asOf)}",
                new Remark("due-broker-away"),
                now,
                now + Heard,
                null,
                NameOf(silent[0])
            );
            yield break;
        }

        foreach (
            var device in silent
                .Where(sensor => !alarmed.Contains(sensor.Id))
                .GroupBy(sensor => sensor.Id.Split('/')[0], StringComparer.Ordinal)
        )
        {
            var first = device.First();
            var last = Instant.FromUnixTimeMilliseconds(device.Max(sensor => sensor.LastAt ?? 0));
            yield return Make(
                ActionCodes.HearSensor,
                About(first.Vessel),
                $"{device.Key}.{last.ToUnixTimeSeconds()}",
                new Remark("due-sensor-silent", new("sensor", NameOf(first)), new("since", last)),
                Instant.Min(last, now),
                Instant.Min(last, now) + Heard,
                null,
                NameOf(first)
            );
        }
    }

    private static IEnumerable<PlannedAction> Findings(SensorsSeen told, Instant asOf, Instant now)
    {
        foreach (var sensor in told.Sensors)
        {
            foreach (var finding in sensor.Findings.Select(finding => finding.ToRemark()))
            {
                // One that lasts is asked for again another day, whatever was said of it.
                yield return Make(
                    ActionCodes.CheckSensor,
                    About(sensor.Vessel),
                    $"{finding.Code}.{sensor.Id.Replace('/', ':')}.{Day(asOf)}",
                    finding,
                    now,
                    now + Checked,
                    now + CheckSlips,
                    NameOf(sensor)
                ) with
                {
                    IfItSlips = new Remark("slip-sensor-misleads"),
                };
            }
        }
    }

    private static string Day(Instant at) =>
        at.InUtc().Date.ToString("uuuuMMdd", CultureInfo.InvariantCulture);

    private static string NameOf(SensorSeen sensor) => sensor.Label ?? sensor.Id;

    private static Subject About(Guid? vessel) =>
        vessel is { } id ? Subject.Of(new VesselId(id)) : Subject.House;

    private static PlannedAction Make(
        string code,
        Subject about,
        string occasion,
        Remark reason,
        Instant from,
        Instant by,
        Instant? slips,
        string sensor
    ) =>
        new()
        {
            Key = ActionKey.Of(code, about, occasion),
            Code = code,
            About = about,
            From = from,
            By = by,
            SlipsUntil = slips,
            Reason = reason,
            Amounts = [new Remark("amount-sensor", new Argument("sensor", sensor))],
            Cautions = [CautionCode.MainsBesideSaltWater],
            Door = new(DoorCode.Sensors, about),
        };
}
