using Broodtide.Units;
using Broodtide.Workbench.Species;

namespace Broodtide.Workbench.Pooling;

/// <summary>Where a run comes from.</summary>
/// <param name="Key">By what it is left out: its name, or its identity where it has none or shares it.</param>
/// <param name="Name">What it is called.</param>
/// <param name="From">Whose run it is; none for the keeper's own.</param>
public sealed record PooledSource(string Key, string Name, string? From);

/// <summary>Why a run is not counted in.</summary>
public enum LeftOut
{
    /// <summary>It is.</summary>
    No,

    /// <summary>The keeper wished it.</summary>
    ByWish,

    /// <summary>It is not over, and would be told by what it said itself.</summary>
    UnderWay,

    /// <summary>Larvae of several broods lived together.</summary>
    Mixed,

    /// <summary>Its estimate is too rough to be relied on.</summary>
    Rough,
}

/// <summary>What one run says of one number.</summary>
/// <param name="Source">The run.</param>
/// <param name="Alone">What it says by itself, 5, 50 and 95 % points, in the unit of the quantity.</param>
/// <param name="LeftOut">Whether it is counted in, and if not, why.</param>
/// <param name="Weight">Its share in the common mean beside the other runs and what is published, 0 to 1.</param>
/// <param name="NextWithout">
/// What the next run would be believed to bring without it; none where it is not counted in, or with very many runs, of which
/// each moves next to nothing.
/// </param>
public sealed record RunSays(
    PooledSource Source,
    Interval Alone,
    LeftOut LeftOut,
    double Weight,
    Interval? NextWithout
);

/// <summary>The runs by themselves, without what is published: three or more.</summary>
/// <param name="Mean">The common mean and its 5 and 95 % limits (Knapp and Hartung).</param>
/// <param name="Next">Where the next run lies, by Student's t.</param>
/// <param name="ShareBetween">Share of the variance that lies between runs and not in their errors, 0 to 1.</param>
public sealed record RunsAlone(Interval Mean, Interval Next, double ShareBetween);

/// <summary>One number of a species as published, as the runs have it, and as the next run is begun with.</summary>
public sealed record PooledNumber
{
    /// <summary>The quantity, with the keeper's choice where there is one.</summary>
    public required ProfileQuantity Quantity { get; init; }

    /// <summary>What the profile believes of one run, its original numbers: 5, 50 and 95 % points.</summary>
    public required Interval Published { get; init; }

    /// <summary>What each run says, the keeper's own first.</summary>
    public required IReadOnlyList<RunSays> Runs { get; init; }

    /// <summary>What the next run is believed to bring, from what is published and the runs; the published where none speaks.</summary>
    public required Interval Next { get; init; }

    /// <summary>The runs by themselves; none where they are fewer than three.</summary>
    public required RunsAlone? Alone { get; init; }

    /// <summary>What the keeper would choose to begin the next run with it; empty where no run speaks.</summary>
    public required IReadOnlyList<ChosenParts> Choice { get; init; }

    /// <summary>How many runs are counted in.</summary>
    public int Counted => Runs.Count(run => run.LeftOut is LeftOut.No);

    /// <summary>Width of the belief now over that of the published one, on the scale it is pooled on; 1 is no change.</summary>
    public required double WidthRatio { get; init; }
}

/// <summary>What shall be counted in.</summary>
public sealed record PoolingWishes
{
    /// <summary>Keys of the runs that are left out.</summary>
    public IReadOnlySet<string> Without { get; init; } =
        new HashSet<string>(StringComparer.OrdinalIgnoreCase);

    /// <summary>Whether vessels with larvae of several broods count too.</summary>
    public bool WithMixed { get; init; }

    /// <summary>Whether runs that are not over count too.</summary>
    public bool WithUnderWay { get; init; }
}
