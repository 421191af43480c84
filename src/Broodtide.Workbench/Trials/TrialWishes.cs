using Broodtide.Units;

namespace Broodtide.Workbench.Trials;

/// <summary>What a keeper has at hand for a trial, and what shall be found.</summary>
public sealed record TrialWishes
{
    /// <summary>Fewest and most vessels that can be planned for.</summary>
    public const int MostVessels = 100;

    /// <summary>Most larvae in all.</summary>
    public const int MostLarvae = 1_000_000;

    /// <summary>
    /// Correlation between larvae of one vessel where nobody measured it here: an assumption. Published groups of animals
    /// that share a container go from near 0 to 0.3 (litters of rats, Weil 1970; boxes of trout eggs, Manly 1978).
    /// </summary>
    public static readonly Probability AssumedCorrelation = Probability.FromFraction(0.1);

    /// <summary>Vessels at hand.</summary>
    public required int Vessels { get; init; }

    /// <summary>Larvae at hand, all together.</summary>
    public required int Larvae { get; init; }

    /// <summary>Treatments, the usual one among them, 2 to 20.</summary>
    public int Treatments { get; init; } = 2;

    /// <summary>Blocks: hatches, or shelves, that each get every treatment; 1 to 100.</summary>
    public int Blocks { get; init; } = 1;

    /// <summary>The share expected as always, such as of larvae that settle.</summary>
    public required Probability Usual { get; init; }

    /// <summary>The share that another treatment would have to reach to be worth finding.</summary>
    public required Probability Wished { get; init; }

    /// <summary>Correlation between larvae of one vessel, 0 and below 1.</summary>
    public Probability Correlation { get; init; } = AssumedCorrelation;

    /// <summary>The chance of finding a difference where there is none, all comparisons together.</summary>
    public Probability FalseFind { get; init; } = Probability.FromFraction(0.05);

    /// <summary>Water in each vessel, to tell whether it is crowded.</summary>
    public Volume? Water { get; init; }

    /// <summary>The seed; kept with the trial so that anybody can deal again.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>Why this cannot be planned; none where it can.</summary>
    public Remark? Impossible() =>
        Treatments is < 2 or > 20 ? Out("treatments", Treatments, 2, 20)
        : Blocks is < 1 or > 100 ? Out("blocks", Blocks, 1, 100)
        : Vessels < Treatments * Blocks || Vessels > MostVessels
            ? Out("vessels", Vessels, Treatments * Blocks, MostVessels)
        : Larvae < Vessels || Larvae > MostLarvae ? Out("larvae", Larvae, Vessels, MostLarvae)
        : Usual == Wished ? new Remark("trial-shares-same", new Argument("sharePercent", Usual.Value * 100))
        : Correlation.Value >= 1 ? new Remark("trial-correlation-one")
        : FalseFind.Value is <= 0 or >= 1 ? new Remark("trial-level-impossible")
        : null;

    private static Remark Out(string field, int typed, int lowest, int highest) =>
        new(
            "trial-number-out",
            new("field", field),
            new("typed", typed),
            new("lowest", lowest),
            new("highest", highest)
        );
}
