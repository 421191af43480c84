using NodaTime;

namespace Broodtide.Workbench.TideLine;

/// <summary>The mark under which an entry appears in pictures; every kind of entry maps to one.</summary>
public enum TideEntryMark
{
    /// <summary>A reading of any instrument.</summary>
    Reading,

    /// <summary>Water added.</summary>
    TopUp,

    /// <summary>Water changed, filled, drawn off.</summary>
    WaterChange,

    /// <summary>Fed.</summary>
    Fed,

    /// <summary>Light, air, heater or filter changed.</summary>
    Light,

    /// <summary>Larvae counted.</summary>
    Count,

    /// <summary>Larvae staged.</summary>
    StageSample,

    /// <summary>Dead removed.</summary>
    Dead,

    /// <summary>Larvae collected or crossed into salt water.</summary>
    Crossing,

    /// <summary>Moved between vessels, merged, split.</summary>
    Moved,

    /// <summary>Settlement seen.</summary>
    Settled,

    /// <summary>Juveniles returned to fresh water.</summary>
    Returned,

    /// <summary>A photo.</summary>
    Photo,

    /// <summary>A note, or anything without a mark of its own.</summary>
    Note,

    /// <summary>Emptied, ended.</summary>
    Ended,

    /// <summary>An entry of a kind that this version does not know.</summary>
    NeedsNewerVersion,
}

/// <summary>An entry of the journal, as the tide line shows it.</summary>
/// <param name="At">When it happened.</param>
/// <param name="Mark">Its mark.</param>
/// <param name="Id">Its identity.</param>
/// <param name="Corrected">Whether it replaces an older entry.</param>
/// <param name="By">Who wrote it, where that is shown.</param>
public sealed record TideEntry(
    Instant At,
    TideEntryMark Mark,
    Guid Id,
    bool Corrected = false,
    string? By = null
);
