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

    public string Unit(string code) => Of(words, code);

    /// <summary>A unit's code as people write it.</summary>
    public static string Of(Words words, string code) =>
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

    /// <summary>Since when nothing was heard of it when the house told it last; none while it read.</summary>
    public string? Silent(SensorSeen sensor, SensorsSeen told) =>
        sensor.LastAt is not { } at ? words["sensors.never"]
        : sensor.IsSilentAt(Instant.FromUnixTimeMilliseconds(told.At))
            ? words["sensors.silent", formats.Moment(Instant.FromUnixTimeMilliseconds(at))]
        : null;

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
