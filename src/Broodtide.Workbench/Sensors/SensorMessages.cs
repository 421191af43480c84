using System.Text.Json;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Workbench.Sensors;

/// <summary>One reading as a device sends it.</summary>
/// <param name="At">When it was read; none where the device has no clock.</param>
/// <param name="Sequence">Its running number on the device; none where it does not count.</param>
/// <param name="Value">What it showed.</param>
/// <param name="Unit">The unit, a code of the journal's list.</param>
public sealed record SentReading(Instant? At, long? Sequence, double Value, string Unit);

/// <summary>What a topic of ours is about.</summary>
public enum SensorTopicKind
{
    /// <summary>What a sensor says of itself.</summary>
    About,

    /// <summary>Readings of a sensor.</summary>
    Readings,

    /// <summary>Whether a device is there.</summary>
    Status,
}

/// <summary>A topic of ours.</summary>
/// <param name="Kind">What it is about.</param>
/// <param name="Device">The device.</param>
/// <param name="Sensor">The sensor; none of a device's status.</param>
public sealed record SensorTopic(SensorTopicKind Kind, string Device, SensorId? Sensor)
{
    /// <summary>What every topic begins with.</summary>
    public const string Root = "broodtide/1";

    /// <summary>The device that the house itself speaks as; no other may.</summary>
    public const string House = "house";

    /// <summary>The topic of a text, or why it is none.</summary>
    /// <param name="text">Any text.</param>
    public static Parsed<SensorTopic> Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var parts = text.Split('/');
        return parts switch
        {
            ["broodtide", "1", var device, "status"] when IsDevice(device) => Parsed<SensorTopic>.Of(
                new(SensorTopicKind.Status, device, null)
            ),
            ["broodtide", "1", var device, var name, "about" or "readings"]
                when IsDevice(device) && SensorId.Find(device, name) is { } sensor => Parsed<SensorTopic>.Of(
                new(parts[4] == "about" ? SensorTopicKind.About : SensorTopicKind.Readings, device, sensor)
            ),
            _ => Parsed<SensorTopic>.No("sensor-topic-wrong"),
        };
    }

    private static bool IsDevice(string name) =>
        SensorId.IsPlain(name) && !string.Equals(name, House, StringComparison.OrdinalIgnoreCase);
}

/// <summary>Reads what devices send, which may be anything.</summary>
public static class SensorMessages
{
    /// <summary>Most bytes of a message.</summary>
    public const int LongestMessage = 65_536;

    /// <summary>Most readings of one message.</summary>
    public const int MostReadings = 1_000;

    private const int LongestLabel = 80;
    private const int Depth = 4;

    // Milliseconds since 1970 of the years 1 to 9999.
    private const double FirstMillisecond = -62_135_596_800_000;
    private const double LastMillisecond = 253_402_300_799_999;

    /// <summary>What a sensor says of itself, or what is wrong with it.</summary>
    /// <param name="utf8">The message.</param>
    public static Parsed<SensorAbout> ReadAbout(ReadOnlyMemory<byte> utf8) =>
        Read(
            utf8,
            json =>
            {
                if (json.ValueKind is not JsonValueKind.Object)
                {
                    return Parsed<SensorAbout>.No("sensor-message-not-json");
                }

                var unit = UnitOf(json);
                if (!unit.Succeeded)
                {
                    return Parsed<SensorAbout>.No(unit.Reason);
                }

                string? label = null;
                if (json.TryGetProperty("label", out var told))
                {
                    if (
                        told.ValueKind is not JsonValueKind.String
                        || told.GetString() is not { Length: <= LongestLabel } text
                        || text.Any(char.IsControl)
                    )
                    {
                        return Wrong<SensorAbout>("label");
                    }

                    label = text.Length == 0 ? null : text;
                }

                if (!Positive(json, "resolution", out var resolution))
                {
                    return Wrong<SensorAbout>("resolution");
                }

                return Positive(json, "everySeconds", out var every)
                    ? Parsed<SensorAbout>.Of(new(unit.Value, label, resolution, every))
                    : Wrong<SensorAbout>("everySeconds");
            }
        );

    /// <summary>The readings of a message, one or a list of them; or what is wrong with it.</summary>
    /// <param name="utf8">The message.</param>
    public static Parsed<IReadOnlyList<SentReading>> ReadReadings(ReadOnlyMemory<byte> utf8) =>
        Read(
            utf8,
            json =>
            {
                if (json.ValueKind is JsonValueKind.Object)
                {
                    var one = ReadingOf(json);
                    return one.Succeeded
                        ? Parsed<IReadOnlyList<SentReading>>.Of([one.Value])
                        : Parsed<IReadOnlyList<SentReading>>.No(one.Reason);
                }

                if (json.ValueKind is not JsonValueKind.Array)
                {
                    return Parsed<IReadOnlyList<SentReading>>.No("sensor-message-not-json");
                }

                if (json.GetArrayLength() is var count and > MostReadings)
                {
                    return Parsed<IReadOnlyList<SentReading>>.No(
                        "sensor-message-too-long",
                        new Argument("readings", count)
                    );
                }

                var readings = new List<SentReading>();
                foreach (var element in json.EnumerateArray())
                {
                    var one = ReadingOf(element);
                    if (!one.Succeeded)
                    {
                        return Parsed<IReadOnlyList<SentReading>>.No(one.Reason);
                    }

                    readings.Add(one.Value);
                }

                return Parsed<IReadOnlyList<SentReading>>.Of(readings);
            }
        );

    /// <summary>Whether a device says that it is there; or what is wrong with the message.</summary>
    /// <param name="utf8">The message.</param>
    public static Parsed<bool> ReadStatus(ReadOnlyMemory<byte> utf8) =>
        Read(
            utf8,
            json =>
                json.ValueKind is JsonValueKind.Object
                && json.TryGetProperty("state", out var state)
                && state.ValueKind is JsonValueKind.String
                && state.GetString() is "here" or "gone"
                    ? Parsed<bool>.Of(json.GetProperty("state").ValueEquals("here"))
                    : Wrong<bool>("state")
        );

    private static Parsed<SentReading> ReadingOf(JsonElement json)
    {
        if (json.ValueKind is not JsonValueKind.Object)
        {
            return Parsed<SentReading>.No("sensor-message-not-json");
        }

        var unit = UnitOf(json);
        if (!unit.Succeeded)
        {
            return Parsed<SentReading>.No(unit.Reason);
        }

        if (
            !json.TryGetProperty("value", out var number)
            || number.ValueKind is not JsonValueKind.Number
            || !number.TryGetDouble(out var value)
            || !double.IsFinite(value)
        )
        {
            return Wrong<SentReading>("value");
        }

        if (!UnitCode.Find(unit.Value)!.Allows(value))
        {
            return Parsed<SentReading>.No("sensor-value-impossible", new Argument("unit", unit.Value));
        }

        long? sequence = null;
        if (json.TryGetProperty("seq", out var running))
        {
            if (
                running.ValueKind is not JsonValueKind.Number
                || !running.TryGetInt64(out var counted)
                || counted < 0
            )
            {
                return Wrong<SentReading>("seq");
            }

            sequence = counted;
        }

        if (!json.TryGetProperty("at", out var time))
        {
            return Parsed<SentReading>.Of(new(null, sequence, value, unit.Value));
        }

        return InstantOf(time) is { } at
            ? Parsed<SentReading>.Of(new(RawReading.Cut(at), sequence, value, unit.Value))
            : Wrong<SentReading>("at");
    }

    private static Instant? InstantOf(JsonElement time) =>
        time.ValueKind switch
        {
            JsonValueKind.String when time.GetString() is { Length: <= 40 } text => InstantPattern
                .ExtendedIso.Parse(text)
                .TryGetValue(default, out var at)
                ? at
                : null,
            JsonValueKind.Number
                when time.TryGetDouble(out var milliseconds)
                    && milliseconds is >= FirstMillisecond and <= LastMillisecond
                    && milliseconds == Math.Floor(milliseconds) => Instant.FromUnixTimeMilliseconds(
                (long)milliseconds
            ),
            _ => null,
        };

    private static Parsed<string> UnitOf(JsonElement json) =>
        !json.TryGetProperty("unit", out var unit) || unit.ValueKind is not JsonValueKind.String
            ? Wrong<string>("unit")
        : unit.GetString() is { } code && UnitCode.Find(code) is not null ? Parsed<string>.Of(code)
        : Parsed<string>.No("sensor-unit-unknown");

    private static bool Positive(JsonElement json, string member, out double? value)
    {
        value = null;
        if (!json.TryGetProperty(member, out var number))
        {
            return true;
        }

        if (
            number.ValueKind is not JsonValueKind.Number
            || !number.TryGetDouble(out var read)
            || !double.IsFinite(read)
            || read <= 0
        )
        {
            return false;
        }

        value = read;
        return true;
    }

    private static Parsed<T> Wrong<T>(string member)
        where T : notnull => Parsed<T>.No("sensor-message-member-wrong", new Argument("member", member));

    private static Parsed<T> Read<T>(ReadOnlyMemory<byte> utf8, Func<JsonElement, Parsed<T>> read)
        where T : notnull
    {
        if (utf8.Length > LongestMessage)
        {
            return Parsed<T>.No("sensor-message-too-long", new Argument("bytes", utf8.Length));
        }

        try
        {
            using var json = JsonDocument.Parse(utf8, new JsonDocumentOptions { MaxDepth = Depth });
            return read(json.RootElement);
        }
        catch (Exception wrong) when (wrong is JsonException or InvalidOperationException)
        {
            // An invalid half of a surrogate pair shows only when a text is taken out.
            return Parsed<T>.No("sensor-message-not-json");
        }
    }
}
