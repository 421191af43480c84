using System.Text.Json;
using System.Text.Json.Serialization;
using Broodtide.Units;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Server.Sensors;

/// <summary>How the broker is reached.</summary>
internal sealed record BrokerSettings(
    string Host,
    int Port = 1883,
    bool Tls = false,
    string? Authority = null,
    string? User = null,
    string? Password = null,
    string? ClientId = null,
    string? Share = null
);

/// <summary>How mail is handed over.</summary>
internal sealed record MailSettings(
    string Host,
    string From,
    int Port = 587,
    // "start" for STARTTLS, "whole" for TLS from the first byte, "none" on this machine alone.
    string Tls = "start",
    string? User = null,
    string? Password = null
);

/// <summary>Who is told of an alarm.</summary>
/// <param name="Key">A short word that logs and phones show in place of a name or an address.</param>
/// <param name="Mail">The address.</param>
/// <param name="Step">At which step of the escalation, from 0.</param>
/// <param name="QuietFrom">From when the person sleeps, such as 22:30.</param>
/// <param name="QuietTo">Until when, such as 07:00.</param>
/// <param name="Zone">The person's time zone.</param>
/// <param name="Language">"en" or "de".</param>
internal sealed record TellingSettings(
    string Key,
    string Mail,
    int Step = 0,
    string? QuietFrom = null,
    string? QuietTo = null,
    string? Zone = null,
    string? Language = null
);

/// <summary>What the person who runs the server decides of sensors: a file, and passwords of the surroundings.</summary>
internal sealed record SensorSettings
{
    /// <summary>The file in the data folder.</summary>
    public const string FileName = "sensors.json";

    public const string BrokerPassword = "BROODTIDE_MQTT_PASSWORD";
    public const string MailPassword = "BROODTIDE_MAIL_PASSWORD";

    private const int LongestKey = 40;

    // Set and not init: what a file leaves out keeps its value here.
    public BrokerSettings? Mqtt { get; set; }

    /// <summary>A folder where loggers' files are put; none for none.</summary>
    public string? Folder { get; set; }

    /// <summary>So many days are kept whole.</summary>
    public int KeepWholeDays { get; set; } = 400;

    public MailSettings? Mail { get; set; }

    public IReadOnlyList<TellingSettings> People { get; set; } = [];

    /// <summary>After so many minutes without anybody having seen an alarm the next step is told.</summary>
    public int EscalateAfterMinutes { get; set; } = 15;

    /// <summary>Whether a data folder has settings of sensors.</summary>
    public static bool AreIn(DirectoryInfo data) => File.Exists(Path.Combine(data.FullName, FileName));

    /// <summary>The settings of a data folder; those of a house without sensors where there is no file.</summary>
    public static Parsed<SensorSettings> Read(DirectoryInfo data, Func<string, string?> surroundings)
    {
        var path = Path.Combine(data.FullName, FileName);
        if (!File.Exists(path))
        {
            return Parsed<SensorSettings>.Of(new());
        }

        SensorSettings? read;
        try
        {
            read = JsonSerializer.Deserialize(
                File.ReadAllBytes(path),
                SensorSettingsJson.Default.SensorSettings
            );
        }
        catch (JsonException wrong)
        {
            // The place and not the text: it may hold a password.
            return No(path, wrong.Path ?? "$");
        }

        if (read is null)
        {
            return No(path, "$");
        }

        var settings = read with
        {
            Mqtt = read.Mqtt is { } mqtt
                ? mqtt with
                {
                    Password = surroundings(BrokerPassword) ?? mqtt.Password,
                }
                : null,
            Mail = read.Mail is { } mail
                ? mail with
                {
                    Password = surroundings(MailPassword) ?? mail.Password,
                }
                : null,
        };
        return settings.WrongMember() is { } member ? No(path, member) : Parsed<SensorSettings>.Of(settings);
    }

    /// <summary>An hour of the day as the file writes it.</summary>
    public static LocalTime? TimeOf(string? text) =>
        text is not null
        && LocalTimePattern.CreateWithInvariantCulture("HH:mm").Parse(text) is { Success: true } time
            ? time.Value
            : null;

    private string? WrongMember() =>
        Mqtt is { Port: < 1 or > 65535 } ? "$.mqtt.port"
        : Mqtt is { Host: "" } ? "$.mqtt.host"
        : Mail is { Port: < 1 or > 65535 } ? "$.mail.port"
        : Mail is not null && Mail.Tls is not ("start" or "whole" or "none") ? "$.mail.tls"
        : Mail is { Tls: "none", Password: not null } && !IsThisMachine(Mail.Host) ? "$.mail.tls"
        : KeepWholeDays is < 2 or > 40_000 ? "$.keepWholeDays"
        : EscalateAfterMinutes is < 1 or > 1440 ? "$.escalateAfterMinutes"
        : People.Any(person => !IsRight(person)) ? "$.people"
        : People.Select(person => person.Key).Distinct(StringComparer.Ordinal).Count() < People.Count
            ? "$.people"
        : null;

    private static bool IsThisMachine(string host) => host is "localhost" or "127.0.0.1" or "::1";

    private static bool IsRight(TellingSettings person) =>
        person.Key is { Length: > 0 and <= LongestKey }
        && person.Key.All(letter => char.IsAsciiLetterOrDigit(letter) || letter is '-')
        && person.Step is >= 0 and < 10
        && person.QuietFrom is null == person.QuietTo is null
        && (person.QuietFrom is null || TimeOf(person.QuietFrom) is not null)
        && (person.QuietTo is null || TimeOf(person.QuietTo) is not null)
        && (person.Zone is null || DateTimeZoneProviders.Tzdb.GetZoneOrNull(person.Zone) is not null);

    private static Parsed<SensorSettings> No(string path, string member) =>
        Parsed<SensorSettings>.No(
            "sensor-settings-wrong",
            new Argument("file", path),
            new Argument("member", member)
        );
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true,
    ReadCommentHandling = JsonCommentHandling.Skip,
    AllowTrailingCommas = true
)]
[JsonSerializable(typeof(SensorSettings))]
internal sealed partial class SensorSettingsJson : JsonSerializerContext;
