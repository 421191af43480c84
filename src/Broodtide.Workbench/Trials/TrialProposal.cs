using Broodtide.Science.Trials;
using Broodtide.Units;

namespace Broodtide.Workbench.Trials;

/// <summary>How a trial would be laid out with what is at hand, and what can be learnt from it.</summary>
public sealed record TrialProposal
{
    /// <summary>What was wished.</summary>
    public required TrialWishes Wishes { get; init; }

    /// <summary>Vessels of each treatment in a block.</summary>
    public required int Replicates { get; init; }

    /// <summary>Larvae in each vessel.</summary>
    public required int LarvaePerVessel { get; init; }

    /// <summary>Vessels that stay over.</summary>
    public required int VesselsOver { get; init; }

    /// <summary>Level of one comparison with the usual treatment, so that all together keep the wished one (Bonferroni).</summary>
    public required Probability Level { get; init; }

    /// <summary>The smallest p that one comparison can bring with so few vessels.</summary>
    public required Probability SmallestP { get; init; }

    /// <summary>The chance of finding the wished difference, simulated; none where no test is possible.</summary>
    public required SimulatedPower? Power { get; init; }

    /// <summary>The share nearest to the usual one that would be found eight times in ten; none where none would.</summary>
    public required Probability? Found { get; init; }

    /// <summary>Vessels of each treatment that would find the wished difference eight times in ten, by formula.</summary>
    public required int VesselsWanted { get; init; }

    /// <summary>Fewest vessels of each treatment that it takes however many larvae they hold, by formula.</summary>
    public required int VesselsAtLeast { get; init; }

    /// <summary>The layout: chance, by the seed.</summary>
    public required IReadOnlyList<DealtVessel> Layout { get; init; }

    /// <summary>What cannot be learnt, and what to mind.</summary>
    public required IReadOnlyList<Remark> Remarks { get; init; }

    /// <summary>Vessels of each treatment.</summary>
    public int PerTreatment => Replicates * Wishes.Blocks;
}
