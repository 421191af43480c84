using Broodtide.Domain;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Review;

/// <summary>What was read of one quantity in one vessel while larvae of the run lived there.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="Quantity">Which quantity.</param>
/// <param name="Readings">How many readings.</param>
/// <param name="Read">Lowest, median and highest value read; none where nothing was.</param>
/// <param name="LowLimit">The least that is good for larvae; none where there is none.</param>
/// <param name="HighLimit">The most that is good for larvae; none where there is none.</param>
/// <param name="Outside">How many readings lay beyond a limit, their error allowed for.</param>
/// <param name="LongestGapDays">The longest time without a reading, days, from their coming to their going.</param>
public sealed record ReviewedWater(
    VesselId Vessel,
    LimitedQuantity Quantity,
    int Readings,
    Interval? Read,
    double? LowLimit,
    double? HighLimit,
    int Outside,
    double LongestGapDays
);

/// <summary>What was fed in one vessel while larvae of the run lived there.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="Feedings">How many feedings were written.</param>
/// <param name="FirstAfterHours">Hours from their coming to the first; none where none was written.</param>
/// <param name="LongestGapDays">The longest time without one, days, from their coming to their going.</param>
/// <param name="Foods">What was given.</param>
/// <param name="CellCounts">How often cells in the water were counted or its colour was looked at.</param>
public sealed record ReviewedFood(
    VesselId Vessel,
    int Feedings,
    double? FirstAfterHours,
    double LongestGapDays,
    IReadOnlyList<FoodKind> Foods,
    int CellCounts
);

/// <summary>Where a reading lies against its limits, its error allowed for.</summary>
internal enum Lies
{
    Inside,
    AtTheLimit,
    Outside,
}

/// <summary>One reading with the limits that held for it.</summary>
internal sealed record WaterReading(
    VesselId Vessel,
    Instant At,
    LimitedQuantity Quantity,
    double Value,
    double Sd,
    double? Low,
    double? High
)
{
    public bool IsAbove => Value > High;

    public Lies Lies
    {
        get
        {
            var reach = Interval.StandardNormal95 * Sd;
            return Value - reach > High || Value + reach < Low ? Lies.Outside
                : Value + reach <= (High ?? double.MaxValue) && Value - reach >= (Low ?? double.MinValue)
                    ? Lies.Inside
                : Lies.AtTheLimit;
        }
    }
}
