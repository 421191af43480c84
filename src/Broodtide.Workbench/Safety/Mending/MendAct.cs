using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Safety.Mending;

/// <summary>One thing to do to a vessel whose water is going wrong.</summary>
public abstract record MendAct
{
    /// <summary>Lead air through the water, so that the surface moves and does not foam.</summary>
    public sealed record LeadAir : MendAct;

    /// <summary>Give no dry food.</summary>
    /// <param name="Until">
    /// From when the last ration could be given again without a limit as likely crossed as one in five; none where that is
    /// not within two days.
    /// </param>
    public sealed record NoFood(Instant? Until) : MendAct;

    /// <summary>Draw off what has settled, through a sieve: larvae in it go back.</summary>
    public sealed record Siphon : MendAct;

    /// <summary>Let the lamp burn so long from now on.</summary>
    /// <param name="HoursPerDay">Hours in each day; 0 for dark.</param>
    public sealed record Light(double HoursPerDay) : MendAct;

    /// <summary>Take out water through a sieve and put in as much new sea water.</summary>
    /// <param name="At">When; now for the first of several.</param>
    /// <param name="Volume">How much.</param>
    /// <param name="Share">Share of the vessel that is.</param>
    /// <param name="Salinity">Salinity of the new water.</param>
    public sealed record ChangeWater(Instant At, Volume Volume, Probability Share, Salinity Salinity)
        : MendAct;
}

/// <summary>What a mend does to one limit.</summary>
/// <param name="Limit">The limit.</param>
/// <param name="AsItIs">Chance that it is crossed from three hours after now to two days on, with nothing done.</param>
/// <param name="Mended">The same when the mend is done.</param>
public sealed record MendedLimit(Species.LifeLimit Limit, Probability AsItIs, Probability Mended);

/// <summary>A mend that was run forward.</summary>
public sealed record Mend
{
    /// <summary>What to do, in this order.</summary>
    public required System.Collections.Immutable.ImmutableArray<MendAct> Acts { get; init; }

    /// <summary>What it does to the limits that were to be minded, and to any that it makes worse.</summary>
    public required System.Collections.Immutable.ImmutableArray<MendedLimit> Limits { get; init; }

    /// <summary>Why it was split or replaced; what it supposes.</summary>
    public required System.Collections.Immutable.ImmutableArray<Remark> Remarks { get; init; }

    /// <summary>Whether every limit is then crossed with a chance below one in five.</summary>
    public required bool IsEnough { get; init; }

    /// <summary>The days ahead under it, member by member beside <see cref="VesselRun.Ahead"/>.</summary>
    public required Science.Estimation.Vessels.VesselTraces Ahead { get; init; }
}
