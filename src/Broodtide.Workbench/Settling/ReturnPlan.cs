using Broodtide.Units;
using Broodtide.Workbench.Crossing;
using NodaTime;

namespace Broodtide.Workbench.Settling;

/// <summary>How far a vessel may be diluted now.</summary>
public enum DilutionState
{
    /// <summary>Not at all.</summary>
    Held,

    /// <summary>As far as zoeae that are not ready bear it.</summary>
    ToTheZoeaeLimit,

    /// <summary>To fresh water.</summary>
    ToFreshWater,
}

/// <summary>One partial change on the way to fresh water.</summary>
/// <param name="Number">1 for the first.</param>
/// <param name="AfterHours">Hours after the first.</param>
/// <param name="FromPpt">Practical salinity before.</param>
/// <param name="ToPpt">Practical salinity after.</param>
/// <param name="DrawnOff">Water drawn off through mesh; what lives in it is put back.</param>
/// <param name="Added">Fresh water poured in.</param>
public sealed record DilutionStep(
    int Number,
    double AfterHours,
    double FromPpt,
    double ToPpt,
    Volume DrawnOff,
    Volume Added
);

/// <summary>The first practice: the whole vessel diluted in steps, once most have settled.</summary>
/// <param name="State">How far it may go now.</param>
/// <param name="FloorPpt">The salinity it may come down to now.</param>
/// <param name="Hold">Why it may not go further; none where it may go all the way.</param>
/// <param name="Steps">The changes; empty where it is held.</param>
/// <param name="Refused">Why the planner cannot plan it; none where it can.</param>
public sealed record Dilution(
    DilutionState State,
    double FloorPpt,
    Remark? Hold,
    IReadOnlyList<DilutionStep> Steps,
    CrossingRefusal? Refused
);

/// <summary>Both practices of the way home, side by side; nobody measured one against the other.</summary>
/// <param name="Now">Settled ones and zoeae in the vessel; none where no larvae are estimated in it.</param>
/// <param name="InSteps">The whole vessel diluted in steps.</param>
/// <param name="OneByOne">Settled ones moved in a cup of their own water: zoeae stay where they are.</param>
/// <param name="LikelyNoZoeaeFrom">When nine in ten have settled: one chance in twenty that it is later.</param>
/// <param name="Remarks">What to mind on both ways.</param>
public sealed record ReturnPlan(
    SettledNow? Now,
    Dilution InSteps,
    CrossingAnswer OneByOne,
    Instant? LikelyNoZoeaeFrom,
    IReadOnlyList<Remark> Remarks
);
