using System.Collections.Immutable;

namespace Broodtide.Workbench.Species;

/// <summary>One number of a species profile, with where it comes from and what the keeper chose instead.</summary>
public sealed record ProfileQuantity
{
    /// <summary>The code, unique in the profile, for example <c>larval-salinity-target</c>.</summary>
    public required string Code { get; init; }

    /// <summary>The unit of all its numbers.</summary>
    public required ProfileUnit Unit { get; init; }

    /// <summary>The numbers of the profile's file.</summary>
    public required ProfileAmount Original { get; init; }

    /// <summary>
    /// The range outside which a choice is marked: that of another quantity where the file names one, else its own.
    /// </summary>
    public required ProfileAmount Published { get; init; }

    /// <summary>What the low and the high are.</summary>
    public required ProfileBounds Bounds { get; init; }

    /// <summary>What it is, in a sentence.</summary>
    public required string Meaning { get; init; }

    /// <summary>Where the original comes from.</summary>
    public required Provenance Provenance { get; init; }

    /// <summary>The relative it was reported for, where it is borrowed.</summary>
    public string? BorrowedFrom { get; init; }

    /// <summary>The source in words.</summary>
    public required string Source { get; init; }

    /// <summary>The work that cites the source, where only that was read.</summary>
    public string? CitedIn { get; init; }

    /// <summary>What a reader should know besides.</summary>
    public string? Note { get; init; }

    /// <summary>The single reports behind it, in its unit.</summary>
    public ImmutableArray<ProfileReport> Reports { get; init; } = [];

    /// <summary>The keeper's choice that stands in for the original; none where the original holds.</summary>
    public AppliedChoice? Chosen { get; init; }

    /// <summary>The numbers to compute with: the chosen ones, else the original.</summary>
    public ProfileAmount Current => Chosen?.Amount ?? Original;

    /// <summary>The value to compute with.</summary>
    public double? Value => Current.Value;

    /// <summary>The low end to compute with.</summary>
    public double? Low => Current.Low;

    /// <summary>The high end to compute with.</summary>
    public double? High => Current.High;
}

/// <summary>One report behind a quantity, in the quantity's unit.</summary>
/// <param name="Amount">The numbers reported.</param>
/// <param name="Condition">Under what circumstances, if told.</param>
/// <param name="Provenance">Where it comes from.</param>
/// <param name="Source">The source in words.</param>
public sealed record ProfileReport(
    ProfileAmount Amount,
    string? Condition,
    Provenance Provenance,
    string Source
);

/// <summary>Something a profile says that is not a number.</summary>
/// <param name="Code">The code, unique in the profile, for example <c>hatch-time-of-day</c>.</param>
/// <param name="Is">What it is, as a code, for example <c>night</c>.</param>
/// <param name="Meaning">What is asked, in a sentence.</param>
/// <param name="Provenance">Where it comes from.</param>
/// <param name="BorrowedFrom">The relative it was reported for, where it is borrowed.</param>
/// <param name="Source">The source in words.</param>
/// <param name="Note">What a reader should know besides.</param>
public sealed record ProfileFact(
    string Code,
    string Is,
    string Meaning,
    Provenance Provenance,
    string? BorrowedFrom,
    string Source,
    string? Note
);
