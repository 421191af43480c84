using System.Collections.Immutable;

namespace Broodtide.Workbench.Species;

/// <summary>The closed lists of words a profile file may use.</summary>
internal static class ProfileWords
{
    internal static ImmutableArray<KeyValuePair<string, Provenance>> Provenances { get; } =
    [
        new("measured", Provenance.Measured),
        new("borrowed", Provenance.Borrowed),
        new("practice", Provenance.Practice),
        new("memory", Provenance.Memory),
        new("assumed", Provenance.Assumed),
    ];

    internal static ImmutableArray<KeyValuePair<string, ProfileBounds>> Bounds { get; } =
    [
        new("range", ProfileBounds.Range),
        new("plus-minus", ProfileBounds.PlusMinus),
        new("reports", ProfileBounds.Reports),
        new("assumed", ProfileBounds.Assumed),
    ];

    internal static ImmutableArray<KeyValuePair<string, SignTiming>> Timings { get; } =
    [new("at", SignTiming.At), new("about", SignTiming.About), new("after", SignTiming.After)];
}
