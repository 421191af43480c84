using Broodtide.Units;

namespace Broodtide.Workbench.Review;

/// <summary>What larvae may have been lost by.</summary>
public enum LossCause
{
    /// <summary>They stood too long in fresh water.</summary>
    FreshWaterDelay,

    /// <summary>They stood too long in brackish water while they crossed.</summary>
    BrackishDelay,

    /// <summary>Salinity outside the band.</summary>
    Salinity,

    /// <summary>Too warm or too cold.</summary>
    Warmth,

    /// <summary>Ammonia or nitrite.</summary>
    AmmoniaNitrite,

    /// <summary>Too little oxygen.</summary>
    Oxygen,

    /// <summary>Too little food, or the wrong one.</summary>
    FoodMissing,

    /// <summary>Too much food, which fouls.</summary>
    FoodTooMuch,

    /// <summary>Too many in too little water.</summary>
    Crowding,

    /// <summary>They were ready, and what makes them settle came late.</summary>
    LateCues,

    /// <summary>Disease.</summary>
    Disease,

    /// <summary>Something nobody thought of.</summary>
    Unknown,
}

/// <summary>What the record says of a cause.</summary>
public enum CauseVerdict
{
    /// <summary>Nothing that rules it out, nothing that speaks for it: the usual answer.</summary>
    CannotBeTold,

    /// <summary>Readings cover every phase with a loss, and all lay within the limits.</summary>
    RuledOut,

    /// <summary>Readings lay beyond a limit in a phase with a loss. That is no proof.</summary>
    SpokenFor,
}

/// <summary>What the record says of one cause.</summary>
/// <param name="Cause">Which.</param>
/// <param name="Verdict">What is said.</param>
/// <param name="For">What speaks for it.</param>
/// <param name="Against">What speaks against it.</param>
/// <param name="Lacks">What would have to be known to say more.</param>
/// <param name="Observations">Days on which readings independently of each other lay beyond the limit.</param>
/// <param name="Rank">
/// Its place among those that speak for themselves, from 1; none where fewer than two days speak for it or where it came
/// together with another.
/// </param>
public sealed record CauseFinding(
    LossCause Cause,
    CauseVerdict Verdict,
    IReadOnlyList<Remark> For,
    IReadOnlyList<Remark> Against,
    IReadOnlyList<Remark> Lacks,
    int Observations,
    int? Rank
);

/// <summary>Causes that were beyond their limits at the same time: the record cannot tell them apart.</summary>
/// <param name="Causes">Which, two or more.</param>
/// <param name="Why">Why.</param>
public sealed record TiedCauses(IReadOnlyList<LossCause> Causes, Remark Why);
