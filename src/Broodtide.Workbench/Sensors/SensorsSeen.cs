using System.Text.Json.Serialization;
using Broodtide.Domain;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Sensors;

/// <summary>One argument of a finding: exactly one of the values is there.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Number">A number.</param>
/// <param name="Text">A text.</param>
/// <param name="At">An instant, milliseconds since 1970.</param>
/// <param name="Vessel">A vessel.</param>
public sealed record ArgumentSeen(
    string Name,
    double? Number = null,
    string? Text = null,
    long? At = null,
    Guid? Vessel = null
);

/// <summary>A finding as it is sent.</summary>
/// <param name="Code">The code.</param>
/// <param name="Arguments">What it speaks of.</param>
public sealed record FindingSeen(string Code, IReadOnlyList<ArgumentSeen> Arguments)
{
    /// <summary>A remark as it is sent.</summary>
    /// <param name="remark">The remark; its arguments are texts, numbers, instants and vessels.</param>
    public static FindingSeen Of(Remark remark)
    {
        ArgumentNullException.ThrowIfNull(remark);
        return new(
            remark.Code,
            [
                .. remark.Arguments.Select(argument =>
                    argument.Value switch
                    {
                        double number => new ArgumentSeen(argument.Name, Number: number),
                        int number => new ArgumentSeen(argument.Name, Number: number),
                        Instant at => new ArgumentSeen(argument.Name, At: at.ToUnixTimeMilliseconds()),
                        VesselId vessel => new ArgumentSeen(argument.Name, Vessel: vessel.Value),
                        var other => new ArgumentSeen(argument.Name, Text: other.ToString()),
                    }
                ),
            ]
        );
    }

    /// <summary>The remark again.</summary>
    public Remark ToRemark() =>
        new(
            Code,
            [
                .. Arguments.Select(argument => new Argument(
                    argument.Name,
                    argument switch
                    {
                        { Number: { } number } => number,
                        { At: { } at } => Instant.FromUnixTimeMilliseconds(at),
                        { Vessel: { } vessel } => new VesselId(vessel),
                        _ => argument.Text ?? "",
                    }
                )),
            ]
        );
}

/// <summary>One hour as it is sent.</summary>
/// <param name="At">Its beginning, milliseconds since 1970.</param>
/// <param name="Lowest">The least.</param>
/// <param name="Mean">The mean.</param>
/// <param name="Highest">The greatest.</param>
public sealed record HourSeen(long At, double Lowest, double Mean, double Highest);

/// <summary>What counts as observed of the water a sensor stood in.</summary>
/// <param name="At">The middle of its hours, milliseconds since 1970.</param>
/// <param name="Value">Their mean.</param>
/// <param name="Spread">How far single hours and readings lay from it: a standard deviation.</param>
/// <param name="Hours">How many hours it is the mean of.</param>
/// <param name="Vessel">The vessel it stood in.</param>
/// <param name="IsOpen">Whether its six hours are not over.</param>
public sealed record MeanSeen(
    long At,
    double Value,
    double Spread,
    int Hours,
    Guid Vessel,
    bool IsOpen = false
);

/// <summary>A sensor as phones receive it: hours, never single readings but the newest.</summary>
/// <param name="Id">Device and name.</param>
/// <param name="Label">What its device calls it.</param>
/// <param name="Unit">Unit code.</param>
/// <param name="Vessel">Where it stands; none where nobody said, or it was taken out.</param>
/// <param name="WasPlaced">Whether somebody ever said where it stands.</param>
/// <param name="LastAt">When it read last, milliseconds since 1970.</param>
/// <param name="LastValue">What it read last.</param>
/// <param name="GoneSince">Since when its device is gone, milliseconds since 1970.</param>
/// <param name="Limits">The limits that hold.</param>
/// <param name="OwnLimits">Whether a keeper chose them; else they are those of the species.</param>
/// <param name="Findings">What does not look right.</param>
/// <param name="Hours">The last days, hour by hour.</param>
/// <param name="Means">What counts as observed of its waters, by time; none where an earlier version told it.</param>
public sealed record SensorSeen(
    string Id,
    string? Label,
    string Unit,
    Guid? Vessel,
    bool WasPlaced,
    long? LastAt,
    double? LastValue,
    long? GoneSince,
    SensorLimits? Limits,
    bool OwnLimits,
    IReadOnlyList<FindingSeen> Findings,
    IReadOnlyList<HourSeen> Hours,
    IReadOnlyList<MeanSeen>? Means = null
)
{
    // Where no limits hold: practice, no source.
    private const double UsualSilentSeconds = 900;

    /// <summary>Whether nothing is heard of it: its device is gone, or it has not read for longer than it may.</summary>
    /// <param name="instant">When; not before what was told.</param>
    public bool IsSilentAt(Instant instant) =>
        LastAt is { } last
        && (
            GoneSince is not null
            || instant - Instant.FromUnixTimeMilliseconds(last)
                > Duration.FromSeconds(Limits?.SilentSeconds ?? UsualSilentSeconds)
        );
}

/// <summary>An alarm as phones receive it: whole.</summary>
/// <param name="Id">Identity.</param>
/// <param name="Sensor">The sensor.</param>
/// <param name="Vessel">The vessel it stood in.</param>
/// <param name="Kind">What it is about.</param>
/// <param name="Limit">What was crossed.</param>
/// <param name="Worst">The value furthest outside.</param>
/// <param name="From">When it began, milliseconds since 1970.</param>
/// <param name="Until">When it ended, milliseconds since 1970; none while it lasts.</param>
/// <param name="IsLifeThreatening">Whether animals die of it within hours.</param>
/// <param name="SeenAt">When somebody said that he has seen it, milliseconds since 1970.</param>
/// <param name="NotDelivered">Why somebody could not be told, as codes; empty where everybody was.</param>
/// <param name="LearnedLate">Whether it was over before anybody could know of it.</param>
public sealed record AlarmSeen(
    Guid Id,
    string Sensor,
    Guid? Vessel,
    AlarmKind Kind,
    double Limit,
    double? Worst,
    long From,
    long? Until,
    bool IsLifeThreatening,
    long? SeenAt,
    IReadOnlyList<string> NotDelivered,
    bool LearnedLate = false
);

/// <summary>Everything of sensors that a phone receives, and keeps for when there is no network.</summary>
/// <param name="At">When it was told, milliseconds since 1970.</param>
/// <param name="Sensors">The sensors.</param>
/// <param name="Alarms">The alarms of the last days, and those that last.</param>
/// <param name="BrokerTrouble">Why the broker cannot be reached, as a code; none where it can, or there is none.</param>
/// <param name="TellsNobody">Whether the settings name nobody who is told of alarms.</param>
/// <param name="Refused">How many messages were refused since the start, by code.</param>
public sealed record SensorsSeen(
    long At,
    IReadOnlyList<SensorSeen> Sensors,
    IReadOnlyList<AlarmSeen> Alarms,
    string? BrokerTrouble,
    bool TellsNobody,
    IReadOnlyDictionary<string, long> Refused
)
{
    /// <summary>Where phone and server speak of sensors; no slash at either end.</summary>
    public const string Path = "api/sensors";

    /// <summary>So many days are sent.</summary>
    public const int Days = 7;
}

/// <summary>A keeper says where a sensor stands.</summary>
/// <param name="Sensor">Which sensor.</param>
/// <param name="Vessel">In which vessel from now on; none where it was taken out.</param>
public sealed record PlaceAsked(string Sensor, Guid? Vessel);

/// <summary>A keeper says when a sensor raises an alarm.</summary>
/// <param name="Sensor">Which sensor.</param>
/// <param name="Limits">The limits; none for those of the species.</param>
public sealed record LimitsAsked(string Sensor, SensorLimits? Limits);

/// <summary>Somebody has seen an alarm.</summary>
/// <param name="Alarm">Which.</param>
public sealed record AcknowledgeAsked(Guid Alarm);

/// <summary>What phone and server tell each other of sensors, as JSON without reflection.</summary>
[JsonSourceGenerationOptions(
    GenerationMode = JsonSourceGenerationMode.Metadata,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    UseStringEnumConverter = true,
    RespectNullableAnnotations = true
)]
[JsonSerializable(typeof(SensorsSeen))]
[JsonSerializable(typeof(AlarmSeen))]
[JsonSerializable(typeof(PlaceAsked))]
[JsonSerializable(typeof(LimitsAsked))]
[JsonSerializable(typeof(AcknowledgeAsked))]
public sealed partial class SensorsJson : JsonSerializerContext;
