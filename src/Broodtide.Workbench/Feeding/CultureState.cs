using Broodtide.Domain;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Food;
using Broodtide.Units;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Feeding;

/// <summary>A count of a culture, or a look at a film.</summary>
/// <param name="At">When.</param>
/// <param name="Density">Cells or animals a mL, or the share of the surface covered.</param>
public readonly record struct CultureCount(Instant At, double Density);

/// <summary>Density of a culture at an instant, for drawing.</summary>
/// <param name="At">When.</param>
/// <param name="Density">Cells or animals a mL, or the share of the surface covered.</param>
public readonly record struct CulturePointAt(Instant At, Interval Density);

/// <summary>What can be taken of a culture.</summary>
/// <param name="LastingShare">Share a day that comes back by the next day.</param>
/// <param name="Today">What to take today: the low end of that share, less what was taken within a day.</param>
/// <param name="CellsToday">Cells in it, at the middle of the density.</param>
public sealed record CultureHarvest(Interval LastingShare, Volume Today, double CellsToday);

/// <summary>When a culture can be used.</summary>
/// <param name="Wanted">Cells or animals a mL, or the share of the surface covered.</param>
/// <param name="IsReady">Whether it is as likely so far as not.</param>
/// <param name="Earliest">One chance in twenty that it is so far; none where it is further than two months.</param>
/// <param name="Middle">As likely so far as not.</param>
/// <param name="Latest">Nineteen chances in twenty that it is so far.</param>
public sealed record CultureReady(
    double Wanted,
    bool IsReady,
    Instant? Earliest,
    Instant? Middle,
    Instant? Latest
);

/// <summary>A culture as it stands: growth learned from its own log over what is recalled of its kind.</summary>
public sealed record CultureState
{
    /// <summary>The vessel.</summary>
    public required VesselId Vessel { get; init; }

    /// <summary>How it was described.</summary>
    public required CultureDescribed Described { get; init; }

    /// <summary>Since when.</summary>
    public required Instant Started { get; init; }

    /// <summary>Days since then.</summary>
    public required double AgeDays { get; init; }

    /// <summary>Whether it is a film, told as the share of the surface covered.</summary>
    public bool IsFilm => Described.Alga is CultureKind.FilmDiatoms;

    /// <summary>Its water, L; none where no ledger tells it.</summary>
    public Volume? Water { get; init; }

    /// <summary>Cells or animals a mL, or the share of the surface covered.</summary>
    public required Interval Density { get; init; }

    /// <summary>Growth while thin, 1/d.</summary>
    public required Interval RatePerDay { get; init; }

    /// <summary>Density that is approached.</summary>
    public required Interval Capacity { get; init; }

    /// <summary>Its counts, oldest first.</summary>
    public required IReadOnlyList<CultureCount> Counts { get; init; }

    /// <summary>How each count stood to what was believed before it.</summary>
    public required IReadOnlyList<CultureCountFit> Fits { get; init; }

    /// <summary>Density as it was believed on each day, and two weeks ahead.</summary>
    public required IReadOnlyList<CulturePointAt> Track { get; init; }

    /// <summary>What can be taken; none for a film, for one that is warned of, or one too thin.</summary>
    public CultureHarvest? Harvest { get; init; }

    /// <summary>When it can be used.</summary>
    public required CultureReady Ready { get; init; }

    /// <summary>When to count it, or look at it, next.</summary>
    public required Instant NextCount { get; init; }

    /// <summary>What warns of a crash; empty where nothing does.</summary>
    public required IReadOnlyList<Remark> Warnings { get; init; }

    /// <summary>What else to mind.</summary>
    public required IReadOnlyList<Remark> Remarks { get; init; }
}
