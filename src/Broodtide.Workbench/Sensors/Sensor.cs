using Broodtide.Domain;
using Broodtide.Domain.Journal;
using NodaTime;

namespace Broodtide.Workbench.Sensors;

/// <summary>What a sensor says of itself. The unit tells the quantity.</summary>
/// <param name="Unit">Unit of its readings, a code of the journal's list.</param>
/// <param name="Label">What its device calls it, for people; none if it says nothing.</param>
/// <param name="Resolution">Its smallest step, in the unit; none if it does not say.</param>
/// <param name="EverySeconds">How often it reads, s; none if it does not say.</param>
public sealed record SensorAbout(
    string Unit,
    string? Label = null,
    double? Resolution = null,
    double? EverySeconds = null
)
{
    /// <summary>What it measures.</summary>
    /// <exception cref="InvalidOperationException">The unit is none of the list.</exception>
    public Dimension Dimension =>
        UnitCode.Find(Unit)?.Dimension
        ?? throw new InvalidOperationException("The unit is none of the list.");
}

/// <summary>From when a sensor stands in a vessel.</summary>
/// <param name="From">From when.</param>
/// <param name="Vessel">In which vessel; none where it was taken out.</param>
public sealed record Placement(Instant From, VesselId? Vessel);

/// <summary>When a sensor raises an alarm.</summary>
/// <param name="Low">Below it there is an alarm, in the sensor's unit; none for no such alarm.</param>
/// <param name="High">Above it there is an alarm, in the sensor's unit; none for no such alarm.</param>
/// <param name="Hysteresis">How far inside the limit a value must be before an alarm ends, in the sensor's unit, 0 or more.</param>
/// <param name="HoldSeconds">How long a value must stay outside before an alarm, and inside before it ends, s.</param>
/// <param name="SilentSeconds">After how long without a reading there is an alarm, s; none for no such alarm.</param>
/// <param name="IsLifeThreatening">Whether animals die of it within hours: then it goes through quiet hours.</param>
public sealed record SensorLimits(
    double? Low,
    double? High,
    double Hysteresis,
    double HoldSeconds,
    double? SilentSeconds,
    bool IsLifeThreatening
);

/// <summary>One sensor, as the house knows it.</summary>
public sealed record Sensor
{
    /// <summary>Which.</summary>
    public required SensorId Id { get; init; }

    /// <summary>What it says of itself.</summary>
    public required SensorAbout About { get; init; }

    /// <summary>When it was heard of first.</summary>
    public required Instant FirstHeard { get; init; }

    /// <summary>Where it stood, by the time from which it did. Empty until a keeper says.</summary>
    public IReadOnlyList<Placement> Placements { get; init; } = [];

    /// <summary>The limits that a keeper chose; none where those of the species apply.</summary>
    public SensorLimits? Limits { get; init; }

    /// <summary>The newest reading by its own time; none before the first.</summary>
    public RawReading? Last { get; init; }

    /// <summary>The vessel it stands in now; none where nobody said, or it was taken out.</summary>
    public VesselId? Vessel => Placements.Count > 0 ? Placements[^1].Vessel : null;

    /// <summary>The vessel it stood in at an instant.</summary>
    /// <param name="instant">When. Before the first placement none.</param>
    public VesselId? VesselAt(Instant instant) =>
        Placements.LastOrDefault(placement => placement.From <= instant)?.Vessel;
}
