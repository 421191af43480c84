using Broodtide.Units;

namespace Broodtide.Workbench.Population;

/// <summary>From what a number of larvae was worked out.</summary>
public enum CountBasis
{
    /// <summary>Aliquots of known volume in known water, with unknown clumping.</summary>
    Aliquots,

    /// <summary>A look at the whole vessel that sees a share of them, by practice or by the keeper's own checks.</summary>
    Look,
}

/// <summary>What one count alone says of the number of larvae in the vessel, or why it says none.</summary>
/// <param name="Larvae">5, 50 and 95 % points of the number; none where the count cannot tell it.</param>
/// <param name="Seen">How many were seen in all.</param>
/// <param name="Basis">From what the number was worked out.</param>
/// <param name="Clumping">Clumping k as the aliquots tell it; none for a look.</param>
/// <param name="Remarks">What stands in the way, and what a reader should know.</param>
public sealed record CountMeaning(
    Interval? Larvae,
    long Seen,
    CountBasis Basis,
    Interval? Clumping,
    IReadOnlyList<Remark> Remarks
);
