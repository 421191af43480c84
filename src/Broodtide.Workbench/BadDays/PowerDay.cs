using System.Collections.Immutable;
using Broodtide.Domain;
using Broodtide.Science.Heat;
using Broodtide.Units;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.BadDays;

/// <summary>One vessel without air.</summary>
public sealed record VesselBreath
{
    /// <summary>The vessel.</summary>
    public required VesselId Vessel { get; init; }

    /// <summary>Water in it, litres.</summary>
    public required double Litres { get; init; }

    /// <summary>Animals that were counted as breathing in it.</summary>
    public required Interval Animals { get; init; }

    /// <summary>Oxygen now, mg/L.</summary>
    public required Interval OxygenNow { get; init; }

    /// <summary>Oxygen from which on is good, mg/L, as the species' profile says.</summary>
    public required LifeLimit Low { get; init; }

    /// <summary>Oxygen below which harm is near, mg/L; the same limit where the profile has no other.</summary>
    public required LifeLimit Danger { get; init; }

    /// <summary>Hours until oxygen is below what is good.</summary>
    public required FirstPassage ToLow { get; init; }

    /// <summary>Hours until harm is near.</summary>
    public required FirstPassage ToDanger { get; init; }

    /// <summary>The same with a battery pump bubbling gently.</summary>
    public required FirstPassage ToDangerWithBattery { get; init; }

    /// <summary>Hours until it is too cold; none where nobody read the room, or it is not heated.</summary>
    public FirstPassage? ToCold { get; init; }

    /// <summary>What is supposed.</summary>
    public required ImmutableArray<Remark> Assumed { get; init; }
}

/// <summary>Hours without mains: what to do first, then each vessel, the one that comes into danger first in front.</summary>
/// <param name="Now">The instant it was made for.</param>
/// <param name="Since">Since when the mains are known to have failed; none if that was not written.</param>
/// <param name="First">What to do, first things first.</param>
/// <param name="Cautions">What to mind.</param>
/// <param name="Vessels">The vessels.</param>
/// <param name="Assumed">What is supposed for all of them.</param>
public sealed record PowerDay(
    Instant Now,
    Instant? Since,
    ImmutableArray<Remark> First,
    ImmutableArray<CautionCode> Cautions,
    ImmutableArray<VesselBreath> Vessels,
    ImmutableArray<Remark> Assumed
);
