namespace Broodtide.Science.Estimation.Larvae;

/// <summary>Something that happened to larvae, or was seen of them, on a day of the run's clock.</summary>
/// <param name="Day">Days since the run's clock began.</param>
/// <param name="Tag">
/// What the asker knows it by; answers about single entries name it. Entries of one day are taken in the order of
/// their kind and then of their tags, never of their arrival.
/// </param>
public abstract record LarvalEvent(double Day, int Tag);

/// <summary>Larvae of a cohort came into a vessel from fresh water.</summary>
/// <param name="Day">See <see cref="LarvalEvent"/>.</param>
/// <param name="Tag">See <see cref="LarvalEvent"/>.</param>
/// <param name="Cell">The cell (cohort in a vessel) they form.</param>
/// <param name="Number">Expected number, zero or more.</param>
/// <param name="ErrorCv">Coefficient of variation of the number, its own error.</param>
/// <param name="SharedErrorCv">Coefficient of variation of the error that all numbers of this run share.</param>
/// <param name="AgeDays">Reference days of development since hatching.</param>
/// <param name="Strain">How many times the usual early hazard they meet after waiting and handling; 1 is usual.</param>
public sealed record Arrived(
    double Day,
    int Tag,
    int Cell,
    double Number,
    double ErrorCv,
    double SharedErrorCv = 0,
    double AgeDays = 0,
    double Strain = 1
) : LarvalEvent(Day, Tag);

/// <summary>Larvae of one cell went into another (the same cohort in another vessel, or cohorts told as one).</summary>
/// <param name="Day">See <see cref="LarvalEvent"/>.</param>
/// <param name="Tag">See <see cref="LarvalEvent"/>.</param>
/// <param name="From">Out of this cell.</param>
/// <param name="To">Into this one; it takes over the age of what comes, weighted by numbers.</param>
/// <param name="Number">How many; all when absent.</param>
/// <param name="Share">Which share, 0 to 1, when no number is known; all when both are absent.</param>
public sealed record Moved(double Day, int Tag, int From, int To, double? Number = null, double? Share = null)
    : LarvalEvent(Day, Tag);

/// <summary>Living larvae left the run: taken out, given away, returned to fresh water.</summary>
/// <param name="Day">See <see cref="LarvalEvent"/>.</param>
/// <param name="Tag">See <see cref="LarvalEvent"/>.</param>
/// <param name="Cells">Bits of the cells they may have come from.</param>
/// <param name="Number">How many; all when absent.</param>
/// <param name="Settled">Whether they were settled ones.</param>
public sealed record Removed(double Day, int Tag, ulong Cells, double? Number, bool Settled = false)
    : LarvalEvent(Day, Tag);

/// <summary>A number of living larvae was observed.</summary>
/// <param name="Day">See <see cref="LarvalEvent"/>.</param>
/// <param name="Tag">See <see cref="LarvalEvent"/>.</param>
/// <param name="Cells">Bits of the cells that were looked at.</param>
/// <param name="Evidence">How, and what was seen.</param>
public sealed record Counted(double Day, int Tag, ulong Cells, CountEvidence Evidence)
    : LarvalEvent(Day, Tag);

/// <summary>Larvae were staged.</summary>
/// <param name="Day">See <see cref="LarvalEvent"/>.</param>
/// <param name="Tag">See <see cref="LarvalEvent"/>.</param>
/// <param name="Cells">Bits of the cells they came from.</param>
/// <param name="Tallies">How many in each stage, in the order of the stages, the settled one last.</param>
public sealed record Staged(double Day, int Tag, ulong Cells, IReadOnlyList<int> Tallies)
    : LarvalEvent(Day, Tag);

/// <summary>Settled ones were seen: at least so many.</summary>
/// <param name="Day">See <see cref="LarvalEvent"/>.</param>
/// <param name="Tag">See <see cref="LarvalEvent"/>.</param>
/// <param name="Cells">Bits of the cells that were looked at.</param>
/// <param name="AtLeast">How many at least, 1 or more.</param>
public sealed record SettledSeen(double Day, int Tag, ulong Cells, int AtLeast) : LarvalEvent(Day, Tag);

/// <summary>Dead larvae were found since the last time: a lower bound on deaths.</summary>
/// <param name="Day">See <see cref="LarvalEvent"/>.</param>
/// <param name="Tag">See <see cref="LarvalEvent"/>.</param>
/// <param name="Number">How many.</param>
public sealed record DeadFound(double Day, int Tag, int Number) : LarvalEvent(Day, Tag);
