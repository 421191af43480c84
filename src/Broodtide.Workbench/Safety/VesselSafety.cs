using System.Collections.Immutable;
using Broodtide.Domain;
using Broodtide.Units;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Safety;

/// <summary>How much a limit wants minding. A higher one needs more chance, and less time until it is crossed.</summary>
public enum SafetyLevel
{
    /// <summary>Nothing to mind.</summary>
    Calm,

    /// <summary>One chance in five within two days, or advice that is passed while harm is not near: worth a reading.</summary>
    Watch,

    /// <summary>As likely as not within two days: worth doing something about.</summary>
    Warning,

    /// <summary>As likely as not within twelve hours, and harm: do it now.</summary>
    Alarm,
}

/// <summary>One limit of a vessel's water, now and in the two days ahead.</summary>
/// <param name="Limit">The limit, with where it comes from.</param>
/// <param name="Now">The quantity now, in its own unit.</param>
/// <param name="CrossedNow">Chance that it is crossed now.</param>
/// <param name="CrossedSoon">Chance that it is crossed within twelve hours, for long enough to matter.</param>
/// <param name="CrossedAhead">The same within forty-eight hours.</param>
/// <param name="LikelyFrom">From when it is as likely crossed as not; none where it never is.</param>
/// <param name="Level">How much it wants minding.</param>
/// <param name="Cause">What contributes most; none where nothing is to be minded.</param>
public sealed record LimitAhead(
    LifeLimit Limit,
    Interval Now,
    Probability CrossedNow,
    Probability CrossedSoon,
    Probability CrossedAhead,
    Instant? LikelyFrom,
    SafetyLevel Level,
    Remark? Cause
);

/// <summary>What a vessel's water does to those that live in it, now and in the two days ahead.</summary>
public sealed record VesselSafety
{
    /// <summary>The vessel.</summary>
    public required VesselId Vessel { get; init; }

    /// <summary>The instant it is told for.</summary>
    public required Instant Now { get; init; }

    /// <summary>What lives in it, as far as limits differ; none where nothing is minded (a culture).</summary>
    public required LifeStage? Stage { get; init; }

    /// <summary>Its limits, those that want most minding first.</summary>
    public required ImmutableArray<LimitAhead> Limits { get; init; }

    /// <summary>What is supposed because nobody told it; probes that are stuck.</summary>
    public required ImmutableArray<Remark> Remarks { get; init; }

    /// <summary>The twin, for who weighs a change; none for fresh water, of which there is none yet.</summary>
    public required VesselRun? Run { get; init; }

    /// <summary>The highest level of all limits.</summary>
    public SafetyLevel Level => Limits.IsEmpty ? SafetyLevel.Calm : Limits.Max(limit => limit.Level);
}
