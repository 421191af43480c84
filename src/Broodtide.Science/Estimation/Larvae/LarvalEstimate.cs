using System.Collections.Immutable;
using Broodtide.Units;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>What is asked of a run.</summary>
public sealed record LarvalQuestion
{
    /// <summary>Days to tell, of the run's clock, past or future, in any order.</summary>
    public IReadOnlyList<double> Days { get; init; } = [];

    /// <summary>Sets of cells to tell apart at each day, as bits; all cells together are told in any case.</summary>
    public IReadOnlyList<ulong> Sets { get; init; } = [];

    /// <summary>
    /// Further sets, told after <see cref="Sets"/> and only on the first days, those of
    /// <see cref="DaysWithStageNumbers"/>: a long row of days is told quicker without them.
    /// </summary>
    public IReadOnlyList<ulong> SetsOnFirstDays { get; init; } = [];

    /// <summary>For how many of the first days asked the stages are told in numbers too; for all if none is said.</summary>
    public int? DaysWithStageNumbers { get; init; }
}

/// <summary>How many live, and in which stage.</summary>
/// <param name="Alive">Living larvae, whole numbers.</param>
/// <param name="StageShares">Share in each stage, the settled one last; sum 1, or all 0 where nobody lives.</param>
/// <param name="Stages">How many in each stage; empty where it was not asked.</param>
public sealed record LarvalNumbers(
    Interval Alive,
    ImmutableArray<double> StageShares,
    ImmutableArray<Interval> Stages
);

/// <summary>What is believed about one day.</summary>
/// <param name="Day">The day, of the run's clock.</param>
/// <param name="All">All cells together.</param>
/// <param name="Sets">The sets asked for, in their order.</param>
/// <param name="Survived">Share alive of all that ever came and were not taken out.</param>
public sealed record LarvalDay(
    double Day,
    LarvalNumbers All,
    ImmutableArray<LarvalNumbers> Sets,
    Interval Survived
);

/// <summary>When larvae settle, in days of the run's clock.</summary>
/// <param name="First">The first one.</param>
/// <param name="Tenth">One in ten of those that settle.</param>
/// <param name="Half">Half of them.</param>
/// <param name="NineTenths">Nine in ten of them.</param>
public sealed record SettlementWindow(Interval First, Interval Tenth, Interval Half, Interval NineTenths);

/// <summary>What is believed about a run.</summary>
public sealed record LarvalEstimate
{
    /// <summary>The days asked for, in the order of the question.</summary>
    public required IReadOnlyList<LarvalDay> Days { get; init; }

    /// <summary>When larvae settle.</summary>
    public required SettlementWindow Settlement { get; init; }

    /// <summary>Settled ones alive on <see cref="JuvenilesDay"/>.</summary>
    public required Interval Juveniles { get; init; }

    /// <summary>The day for which juveniles are told: the median of the day by which nine in ten have settled.</summary>
    public required double JuvenilesDay { get; init; }

    /// <summary>How many sampled suppositions really speak.</summary>
    public required double EffectiveSize { get; init; }

    /// <summary>Whether they are too few for the bounds to be relied on.</summary>
    public required bool IsRough { get; init; }

    /// <summary>Detection of each class of looks as learned, shares.</summary>
    public required IReadOnlyList<Interval> Detection { get; init; }

    /// <summary>Development from hatching to settlement as learned, days at the reference temperature.</summary>
    public required Interval DevelopmentDays { get; init; }

    /// <summary>Base hazard as learned, per day.</summary>
    public required Interval BaseHazardPerDay { get; init; }

    /// <summary>How many times the base hazard comes on top at hatching, as learned.</summary>
    public required Interval EarlyMultiplier { get; init; }

    /// <summary>Coefficient of variation of development between larvae, as learned.</summary>
    public required Interval DevelopmentCv { get; init; }

    /// <summary>Share lost at metamorphosis beside the hazards, as learned.</summary>
    public required Interval MetamorphosisLoss { get; init; }

    /// <summary>The probability that at most so many live now.</summary>
    /// <param name="number">A whole number, zero or more.</param>
    /// <returns>0 to 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public double ChanceAtMost(double number) =>
        new NumberMixture(
            [.. Draws.Select(draw => draw.Weight)],
            [.. Draws.Select(draw => draw.Mean)],
            [.. Draws.Select(draw => draw.Variance)]
        ).Below(Finite.NotNegative(number) + 0.5);

    /// <summary>What further questions are answered from.</summary>
    internal IReadOnlyList<LarvalDraw> Draws { get; init; } = [];
}
