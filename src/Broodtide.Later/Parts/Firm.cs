namespace Broodtide.Phone.Parts;

/// <summary>What a number stands on.</summary>
public enum Firm
{
    /// <summary>Someone measured it here.</summary>
    Read,

    /// <summary>From what was written.</summary>
    WorkedOut,

    /// <summary>Measured by others, for this species.</summary>
    Published,

    /// <summary>Measured by others, for a relative.</summary>
    Borrowed,

    /// <summary>What keepers do; nobody measured it.</summary>
    Practice,
}
