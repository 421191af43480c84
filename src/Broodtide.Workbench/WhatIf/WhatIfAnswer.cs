using System.Collections.Immutable;
using Broodtide.Domain;
using Broodtide.Units;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.WhatIf;

/// <summary>What is compared.</summary>
public enum WhatIfQuantity
{
    /// <summary>Larvae alive at the end, settled ones too. More is better.</summary>
    Alive,

    /// <summary>Un-ionised ammonia as nitrogen, mg/L: highest of all hours. Less is better.</summary>
    UnionisedAmmonia,

    /// <summary>Dissolved oxygen, mg/L: lowest of all hours. More is better.</summary>
    Oxygen,

    /// <summary>Algae in the water, cells/mL: mean of all hours. More counts as better.</summary>
    Food,

    /// <summary>Days from now until half have settled. Sooner counts as better.</summary>
    Settlement,
}

/// <summary>How a comparison stands.</summary>
public enum WhatIfVerdict
{
    /// <summary>The change is better in nine of ten members or more.</summary>
    Better,

    /// <summary>It is worse in nine of ten or more.</summary>
    Worse,

    /// <summary>It makes no difference in nine of ten or more.</summary>
    Same,

    /// <summary>None of these: it cannot be told.</summary>
    CannotTell,
}

/// <summary>One quantity, as it is and with the change.</summary>
/// <param name="Quantity">Which.</param>
/// <param name="AsItIs">If the keeper goes on.</param>
/// <param name="Changed">With the change.</param>
/// <param name="Difference">What the change adds, taken member by member: narrower than the two intervals let expect.</param>
/// <param name="BetterOfHundred">In how many of a hundred members the change is better.</param>
/// <param name="WorseOfHundred">In how many it is worse; in the rest nobody could tell the difference.</param>
public sealed record WhatIfFigure(
    WhatIfQuantity Quantity,
    Interval AsItIs,
    Interval Changed,
    Interval Difference,
    double BetterOfHundred,
    double WorseOfHundred
)
{
    private const double NineOfTen = 90;

    /// <summary>How it stands.</summary>
    public WhatIfVerdict Verdict =>
        BetterOfHundred >= NineOfTen ? WhatIfVerdict.Better
        : WorseOfHundred >= NineOfTen ? WhatIfVerdict.Worse
        : 100 - BetterOfHundred - WorseOfHundred >= NineOfTen ? WhatIfVerdict.Same
        : WhatIfVerdict.CannotTell;
}

/// <summary>One quantity day by day.</summary>
/// <param name="Quantity">Which.</param>
/// <param name="Days">Days from now of each point.</param>
/// <param name="AsItIs">If the keeper goes on: daily highest of ammonia, daily lowest of oxygen, daily mean of food.</param>
/// <param name="Changed">With the change.</param>
public sealed record WhatIfSeries(
    WhatIfQuantity Quantity,
    ImmutableArray<double> Days,
    ImmutableArray<Interval> AsItIs,
    ImmutableArray<Interval> Changed
);

/// <summary>The chance that a limit is passed at any hour.</summary>
/// <param name="Quantity">Of what.</param>
/// <param name="Limit">The limit, in the unit of the quantity.</param>
/// <param name="AsItIs">If the keeper goes on.</param>
/// <param name="Changed">With the change.</param>
public sealed record WhatIfLimit(
    WhatIfQuantity Quantity,
    double Limit,
    Probability AsItIs,
    Probability Changed
);

/// <summary>A vessel run on as it is and under a change.</summary>
public sealed record WhatIfAnswer
{
    /// <summary>The vessel.</summary>
    public required VesselId Vessel { get; init; }

    /// <summary>From when.</summary>
    public required Instant Now { get; init; }

    /// <summary>Days ahead.</summary>
    public required int Days { get; init; }

    /// <summary>How many members were run.</summary>
    public required int Members { get; init; }

    /// <summary>What was tried.</summary>
    public required IReadOnlyList<WhatIfChange> Changes { get; init; }

    /// <summary>The comparisons; those of larvae only where larvae live there.</summary>
    public required IReadOnlyList<WhatIfFigure> Figures { get; init; }

    /// <summary>Day by day, in the order of <see cref="WhatIfQuantity"/>; settlement has no days.</summary>
    public required IReadOnlyList<WhatIfSeries> Series { get; init; }

    /// <summary>The chances to pass the limits of the species.</summary>
    public required IReadOnlyList<WhatIfLimit> Limits { get; init; }

    /// <summary>What is to be minded: of the change first, then what was supposed.</summary>
    public required IReadOnlyList<Remark> Remarks { get; init; }
}
