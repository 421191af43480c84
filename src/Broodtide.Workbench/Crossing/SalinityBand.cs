using Broodtide.Units;

namespace Broodtide.Workbench.Crossing;

/// <summary>The salinities a vessel is to stay in, and the one it is brought back to.</summary>
public sealed record SalinityBand
{
    private SalinityBand(Salinity lower, Salinity target, Salinity upper)
    {
        Lower = lower;
        Target = target;
        Upper = upper;
    }

    /// <summary>
    /// 25 to 34, target 30: the reading of the reports on larvae of Caridina multidentata, which completed between
    /// 17 and 34 (Kondo, Hamasaki and Dan 2021, Crust. Res. 50:41-54), with room on the fresh side. The target is
    /// practice, no source.
    /// </summary>
    public static SalinityBand Larvae { get; } =
        From(Salinity.FromPractical(25), Salinity.FromPractical(30), Salinity.FromPractical(34));

    /// <summary>Fresh water for juveniles: 0 to 1, target 0. Practice, no source.</summary>
    public static SalinityBand Fresh { get; } = From(default, default, Salinity.FromPractical(1));

    /// <summary>Lower edge, still allowed.</summary>
    public Salinity Lower { get; }

    /// <summary>Where a correction leads.</summary>
    public Salinity Target { get; }

    /// <summary>Upper edge, still allowed.</summary>
    public Salinity Upper { get; }

    /// <summary>From three salinities in ascending order.</summary>
    /// <exception cref="ArgumentException">They do not ascend.</exception>
    public static SalinityBand From(Salinity lower, Salinity target, Salinity upper) =>
        lower <= target && target <= upper
            ? new(lower, target, upper)
            : throw new ArgumentException($"{lower}, {target}, {upper} do not ascend.", nameof(target));

    /// <summary>Whether a salinity lies in the band, edges included.</summary>
    public bool Holds(Salinity salinity) => salinity >= Lower && salinity <= Upper;
}
