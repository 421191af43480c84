using System.Collections.Immutable;

namespace Broodtide.Workbench.Species;

/// <summary>One larval stage: a zoea, or the post-larva that ends the row.</summary>
/// <param name="Code">Z1, Z2 and so on, or PL.</param>
/// <param name="Order">1 for the first, without gaps. The order is not a clock: hungry larvae moult in place.</param>
/// <param name="Signs">What can be seen; empty where nothing is known.</param>
public sealed record ProfileStage(string Code, int Order, ImmutableArray<StageSign> Signs);

/// <summary>When a sign shows, seen from its stage.</summary>
public enum SignTiming
{
    /// <summary>At this stage.</summary>
    At,

    /// <summary>About at this stage.</summary>
    About,

    /// <summary>After this stage, how long after is not known.</summary>
    After,
}

/// <summary>A visible sign of a stage.</summary>
/// <param name="Code">What is seen, for example <c>eyes-stalked</c>.</param>
/// <param name="Count">How many, where the sign is a count, for example 14 tail setae.</param>
/// <param name="When">When it shows.</param>
/// <param name="Provenance">Where it comes from.</param>
/// <param name="Source">The source in words.</param>
public sealed record StageSign(
    string Code,
    int? Count,
    SignTiming When,
    Provenance Provenance,
    string Source
);
