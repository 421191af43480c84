using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.TideLine;

/// <summary>The hatch forecast night by night, and until when to isolate the female.</summary>
/// <param name="Nights">One after the other, without gaps.</param>
/// <param name="IsolateBy">The day on whose evening she should be in the hatching box; absent when nothing is advised.</param>
/// <param name="Tonight">The evening of today, to tell past nights from those to come.</param>
public sealed record HatchNightsRecord(
    IReadOnlyList<TideNight> Nights,
    LocalDate? IsolateBy,
    LocalDate Tonight
);

/// <summary>The salinity of one vessel over some days.</summary>
public sealed record LedgerRecord
{
    /// <summary>The vessel's name.</summary>
    public required string VesselName { get; init; }

    /// <summary>The instant of drawing.</summary>
    public required Instant Now { get; init; }

    /// <summary>The zone whose days are drawn.</summary>
    public required DateTimeZone Zone { get; init; }

    /// <summary>The first instant in the picture.</summary>
    public required Instant From { get; init; }

    /// <summary>The last; after <see cref="Now"/>, so that the forecast has room.</summary>
    public required Instant To { get; init; }

    /// <summary>Salinity in ppt, past and forecast.</summary>
    public IReadOnlyList<TideRow> Salinity { get; init; } = [];

    /// <summary>The limit on the fresh side, in ppt.</summary>
    public double? NotFresherThanPpt { get; init; }

    /// <summary>The limit on the salty side, in ppt.</summary>
    public double? NotSaltierThanPpt { get; init; }

    /// <summary>What was read.</summary>
    public IReadOnlyList<TideReading> Readings { get; init; } = [];

    /// <summary>What was poured in.</summary>
    public IReadOnlyList<TideTopUp> TopUps { get; init; } = [];
}

/// <summary>One step of a crossing: at its minute the water is poured, and the cup stands at its salinity until the next.</summary>
/// <param name="AtMinute">Minutes from the start.</param>
/// <param name="Ppt">The salinity after it, in ppt, with its interval.</param>
public sealed record StairStep(double AtMinute, Interval Ppt);

/// <summary>One crossing as a stair.</summary>
/// <param name="StartPpt">The salinity before the first step, in ppt.</param>
/// <param name="Steps">In their order.</param>
/// <param name="EndMinute">When the crossing is over, in minutes from the start.</param>
/// <param name="NowMinute">Where the bench stands, in minutes from the start; absent before it began.</param>
/// <param name="Zones">The zones of salinity.</param>
public sealed record CrossingStairRecord(
    double StartPpt,
    IReadOnlyList<StairStep> Steps,
    double EndMinute,
    double? NowMinute,
    TideZones Zones
);
