namespace Broodtide.Workbench.Species;

/// <summary>Where a number of a species profile comes from, from the firmest to the weakest.</summary>
public enum Provenance
{
    /// <summary>Measured in this species; the source says by whom.</summary>
    Measured,

    /// <summary>Reported for a relative: the quantity names it.</summary>
    Borrowed,

    /// <summary>What keepers or the trade do or report, without a controlled measurement.</summary>
    Practice,

    /// <summary>Recalled, not verified against a source.</summary>
    Memory,

    /// <summary>Chosen by this project where nothing is known; wide, with its reason in the note.</summary>
    Assumed,
}

/// <summary>What the low and the high of a quantity are.</summary>
public enum ProfileBounds
{
    /// <summary>The source gives no bounds.</summary>
    None,

    /// <summary>The ends of a range, or a limit where only one end is given.</summary>
    Range,

    /// <summary>The source's value minus and plus something whose kind (deviation or error) it does not say.</summary>
    PlusMinus,

    /// <summary>The lowest and the highest of the reports listed with the quantity.</summary>
    Reports,

    /// <summary>Assumed by this project; for a spread, its 5 and 95 % points.</summary>
    Assumed,
}
