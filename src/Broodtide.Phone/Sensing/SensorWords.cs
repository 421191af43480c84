using Broodtide.Domain;
using Broodtide.Phone.Language;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Phone.Sensing;

/// <summary>Sensors in this keeper's words.</summary>
internal sealed class SensorWords(Words words, Formats formats, Naming naming)
{
    // Digits that such a sensor's step is worth.
    private const int Decimals = 2;

    public static string NameOf(SensorSeen sensor) => sensor.Label ?? sensor.Id;

    public string Place(SensorSeen sensor, House house) =>
        sensor.Vessel is { } vessel
            ? naming.Of(house, new VesselId(vessel))
            : words[sensor.WasPlaced ? "sensors.out" : "sensors.unplaced"];

    public string Value(double value, string unit) =>
        $"{formats.Plain(value, Decimals)}{Formats.ThinSpace}{Unit(unit)}";

    public string Unit(string code) =>
        code switch
        {
            "Cel" => "\u00b0C",
            "[degF]" => "\u00b0F",
            "[pH]" => "pH",
            "sal:practical" => words["unit.ppt"],
            "mg/L{O2}" => "mg/L",
            "%{O2}" => "%",
            _ => code,
        };

    /// <summary>Since when nothing is heard of it; none while it reads.</summary>
    public string? Silent(SensorSeen sensor, Instant now)
    {
        var last = sensor.LastAt is { } at ? Instant.FromUnixTimeMilliseconds(at) : default(Instant?);
        var wait = Duration.FromSeconds(sensor.Limits?.SilentSeconds ?? 900);
        return last is not { } heard ? words["sensors.never"]
            : sensor.GoneSince is not null || now - heard > wait
                ? words["sensors.silent", formats.Moment(heard)]
            : null;
    }

    public string Alarm(AlarmSeen alarm, string unit, string name) =>
        alarm.Kind switch
        {
            AlarmKind.TooLow => words[
                "sensors.alarm.low",
                name,
                Value(alarm.Worst ?? alarm.Limit, unit),
                Value(alarm.Limit, unit)
            ],
            AlarmKind.TooHigh => words[
                "sensors.alarm.high",
                name,
                Value(alarm.Worst ?? alarm.Limit, unit),
                Value(alarm.Limit, unit)
            ],
            _ => words["sensors.alarm.silent", name],
        };
}
