using System.Collections.Immutable;
using Broodtide.Domain;
using Broodtide.Science.Heat;
using Broodtide.Units;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.BadDays;

/// <summary>One vessel in hot days.</summary>
public sealed record VesselHeat
{
    /// <summary>The vessel.</summary>
    public required VesselId Vessel { get; init; }

    /// <summary>The warm limit of what lives in it; none for a culture or a species without one.</summary>
    public required LifeLimit? Limit { get; init; }

    /// <summary>Warmth now as believed, degC.</summary>
    public required double NowCelsius { get; init; }

    /// <summary>Hours to the limit if nothing is done; none where there is no limit.</summary>
    public required FirstPassage? ToLimit { get; init; }

    /// <summary>The same with a fan over the open surface.</summary>
    public required FirstPassage? ToLimitWithFan { get; init; }

    /// <summary>The warmest it comes to, degC.</summary>
    public required Interval WarmestCelsius { get; init; }

    /// <summary>The same with a fan.</summary>
    public required Interval WarmestWithFanCelsius { get; init; }

    /// <summary>Hours in which it follows the room by 63 %.</summary>
    public required Interval TimeConstantHours { get; init; }

    /// <summary>From how many stretches of readings that was learned.</summary>
    public required int StretchesLearned { get; init; }

    /// <summary>Fresh water lost a day as it is, mL: learned by its ledger where it has one.</summary>
    public required Interval LostMillilitres { get; init; }

    /// <summary>The same with a fan: what must be topped up then.</summary>
    public required Interval LostWithFanMillilitres { get; init; }

    /// <summary>Ice that cools it by a degree, g.</summary>
    public required double IceGramsPerKelvin { get; init; }

    /// <summary>Warmth every six hours from now, degC.</summary>
    public required ImmutableArray<Interval> SixHourly { get; init; }

    /// <summary>What is supposed.</summary>
    public required ImmutableArray<Remark> Assumed { get; init; }
}

/// <summary>Hot days: what to do first, then each vessel, the one that comes to its limit first in front.</summary>
/// <param name="Now">The instant it was made for.</param>
/// <param name="Room">The room that was supposed.</param>
/// <param name="Hours">Hours looked ahead.</param>
/// <param name="First">What to do, first things first.</param>
/// <param name="Cautions">What to mind.</param>
/// <param name="Vessels">The vessels.</param>
/// <param name="Assumed">What is supposed for all of them.</param>
public sealed record HeatDay(
    Instant Now,
    RoomCourse Room,
    int Hours,
    ImmutableArray<Remark> First,
    ImmutableArray<CautionCode> Cautions,
    ImmutableArray<VesselHeat> Vessels,
    ImmutableArray<Remark> Assumed
);
