using Broodtide.Science.Statistics;

namespace Broodtide.Workbench.Population;

/// <summary>
/// The chance that a larva is counted, by the way of looking, where no keeper's own double counts have told it. All of
/// these are practice without a source: keepers report that a glance may see a tenth of what is there, and larvae in
/// moss, on glass and at the bottom are missed by every look.
/// </summary>
internal static class SeenByLook
{
    /// <summary>A glance: three in ten on average, from a tenth to half.</summary>
    internal static BetaBelief Glance { get; } = new(2.5, 6);

    /// <summary>Gathered in a beam in a lit room: half of them.</summary>
    internal static BetaBelief BeamInLight { get; } = new(4, 4);

    /// <summary>Gathered in a beam in the dark: seven in ten.</summary>
    internal static BetaBelief BeamInDark { get; } = new(7, 3);

    /// <summary>A photo whose counting was never checked against a known number: nine in ten.</summary>
    internal static BetaBelief Photo { get; } = new(18, 2);

    /// <summary>A photo whose marks a person looked over: nineteen in twenty of what is there.</summary>
    internal static BetaBelief PhotoLookedOver { get; } = new(19, 1);

    /// <summary>Every one counted: forty-nine in fifty.</summary>
    internal static BetaBelief Full { get; } = new(49, 1);
}
