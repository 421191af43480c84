using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Science.Estimation;
using Broodtide.Units;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.WaterLedger;

/// <summary>How a reading stands to the ledger.</summary>
public enum ReadingFit
{
    /// <summary>It agrees and was taken in.</summary>
    Fits,

    /// <summary>It does not agree, and nothing since has settled which of the two is wrong.</summary>
    DoesNotFit,

    /// <summary>It did not agree, and a later reading agreed with the ledger: it counts for nothing.</summary>
    Overruled,

    /// <summary>It did not agree, and a later reading agreed with it: the ledger moved to both.</summary>
    Confirmed,

    /// <summary>No number comes of it: outside the range of its formula, or of no known scale.</summary>
    NoNumber,
}

/// <summary>One line of a vessel's ledger.</summary>
/// <param name="When">When, as the ledger places it.</param>
/// <param name="Occurrence">What happened.</param>
/// <param name="Litres">Volume afterwards.</param>
/// <param name="SalinityPpt">Salinity afterwards.</param>
/// <param name="Innovation">For a reading that was taken in: what it said and what it moved.</param>
/// <param name="Fit">For a reading: how it stands.</param>
public sealed record LedgerRow(
    Instant When,
    Occurrence Occurrence,
    Interval Litres,
    Interval SalinityPpt,
    Innovation? Innovation,
    ReadingFit? Fit
);

/// <summary>Salinity at an instant, for drawing: rows at one instant make a step.</summary>
/// <param name="At">When.</param>
/// <param name="SalinityPpt">Salinity.</param>
/// <param name="Litres">Volume.</param>
public readonly record struct LedgerPoint(Instant At, Interval SalinityPpt, Interval Litres);

/// <summary>When the salinity will leave its band if nothing is done.</summary>
/// <param name="TooSalty">Whether it leaves on the salty side.</param>
/// <param name="LimitPpt">The edge.</param>
/// <param name="Earliest">One chance in twenty that it is earlier.</param>
/// <param name="Middle">As likely before as after; none within the look-ahead.</param>
/// <param name="Latest">One chance in twenty that it is later; none within the look-ahead.</param>
public sealed record LeavingBand(
    bool TooSalty,
    double LimitPpt,
    Instant Earliest,
    Instant? Middle,
    Instant? Latest
);

/// <summary>Fresh water that brings the salinity back.</summary>
/// <param name="Each">Volume of one portion.</param>
/// <param name="Portions">How many, an hour apart, so that no portion moves the salinity by more than the step.</param>
/// <param name="Temperature">The water should have this temperature.</param>
/// <param name="AfterPpt">Salinity afterwards.</param>
/// <param name="AfterLitres">Volume afterwards.</param>
/// <param name="HeldByLine">Whether the working line leaves no room for all that the target asks.</param>
public sealed record TopUp(
    Volume Each,
    int Portions,
    Temperature Temperature,
    Interval AfterPpt,
    Interval AfterLitres,
    bool HeldByLine
);

/// <summary>A sensor as the ledger of a water holds it.</summary>
/// <param name="Sensor">Device and name.</param>
/// <param name="Count">How many means of it were taken in.</param>
/// <param name="Last">The middle of the last one.</param>
/// <param name="OffPpt">What it is off by, as believed: above zero where it shows too much.</param>
public sealed record SensorInLedger(string Sensor, int Count, Instant Last, Interval OffPpt);

/// <summary>The ledger of one fill of one vessel.</summary>
public sealed record VesselLedger
{
    /// <summary>The vessel.</summary>
    public required VesselId Vessel { get; init; }

    /// <summary>Which of its fills, from 0.</summary>
    public required int FillNumber { get; init; }

    /// <summary>The instant the present is told for.</summary>
    public required Instant Now { get; init; }

    /// <summary>Lines, oldest first.</summary>
    public required IReadOnlyList<LedgerRow> Rows { get; init; }

    /// <summary>
    /// For drawing: the past as it was believed when it happened, and the days ahead; oldest first, of one instant in the order of telling.
    /// </summary>
    public required IReadOnlyList<LedgerPoint> Track { get; init; }

    /// <summary>Salinity now.</summary>
    public required Interval SalinityPpt { get; init; }

    /// <summary>Volume now.</summary>
    public required Interval Litres { get; init; }

    /// <summary>Fresh water lost to the air a day.</summary>
    public required Interval EvaporationMillilitresPerDay { get; init; }

    /// <summary>Salt in it.</summary>
    public required Interval SaltGrams { get; init; }

    /// <summary>Temperature last written down, or the assumption.</summary>
    public required Temperature Temperature { get; init; }

    /// <summary>Whether the fill was emptied.</summary>
    public required bool Ended { get; init; }

    /// <summary>When it leaves the band; none if it has none, or stays in it as far as is looked ahead.</summary>
    public LeavingBand? Leaving { get; init; }

    /// <summary>What to pour; none if nothing is needed, or a second reading must come first.</summary>
    public TopUp? TopUp { get; init; }

    /// <summary>Sensors of salinity that were heard of this water, by name; none where none stands in it.</summary>
    public IReadOnlyList<SensorInLedger> Sensors { get; init; } = [];

    /// <summary>What needs minding: a reading that does not fit, water below the band, an unknown start.</summary>
    public required IReadOnlyList<Remark> Remarks { get; init; }
}
