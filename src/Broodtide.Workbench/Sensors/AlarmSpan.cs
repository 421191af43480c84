using Broodtide.Domain;
using NodaTime;

namespace Broodtide.Workbench.Sensors;

/// <summary>What an alarm of a sensor is about.</summary>
public enum AlarmKind
{
    /// <summary>The value is under its limit.</summary>
    TooLow,

    /// <summary>The value is over its limit.</summary>
    TooHigh,

    /// <summary>Nothing is heard of the sensor.</summary>
    Silent,
}

/// <summary>That somebody has seen an alarm.</summary>
/// <param name="At">When.</param>
/// <param name="Person">Who, by identity and not by name; empty where it was said on the command line, which knows nobody.</param>
public sealed record Acknowledged(Instant At, Guid Person);

/// <summary>One alarm from its beginning to its end. It is kept and sent whole, and is never thinned.</summary>
public sealed record AlarmSpan
{
    /// <summary>Identity.</summary>
    public required Guid Id { get; init; }

    /// <summary>The sensor.</summary>
    public required SensorId Sensor { get; init; }

    /// <summary>The vessel that the sensor stood in; none if nobody had said.</summary>
    public VesselId? Vessel { get; init; }

    /// <summary>What it is about.</summary>
    public required AlarmKind Kind { get; init; }

    /// <summary>The limit that was crossed, in the sensor's unit; of a silent sensor the seconds it may be silent.</summary>
    public required double Limit { get; init; }

    /// <summary>The value furthest outside, in the sensor's unit; of a silent sensor none.</summary>
    public double? Worst { get; init; }

    /// <summary>When the value went outside, or the last reading of a silent sensor.</summary>
    public required Instant From { get; init; }

    /// <summary>When it was raised.</summary>
    public required Instant Raised { get; init; }

    /// <summary>When it ended; none while it lasts.</summary>
    public Instant? Until { get; init; }

    /// <summary>Whether animals die of it within hours.</summary>
    public bool IsLifeThreatening { get; init; }

    /// <summary>Who has seen it; none while nobody has.</summary>
    public Acknowledged? Seen { get; init; }

    /// <summary>
    /// Whether it was over before anybody could know: the readings that tell of it came later. A minute is the work of raising it.
    /// </summary>
    public bool WasLearnedLate => Until is { } until && Raised - until > Duration.FromMinutes(1);

    /// <summary>Whether it lasts.</summary>
    public bool Lasts => Until is null;
}

/// <summary>One try to tell somebody of an alarm.</summary>
/// <param name="Alarm">The alarm.</param>
/// <param name="At">When.</param>
/// <param name="Way">How: <c>mail</c> or <c>mqtt</c>.</param>
/// <param name="To">Whom, by the key of the settings and not by name; empty where it is for all.</param>
/// <param name="Step">The step of the escalation, from 0.</param>
/// <param name="Failure">Why it failed, as a code; none where it was handed over.</param>
public sealed record AlarmDelivery(
    Guid Alarm,
    Instant At,
    string Way,
    string To,
    int Step,
    string? Failure = null
);
