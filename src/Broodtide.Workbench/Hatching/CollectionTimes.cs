using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Units;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Hatching;

/// <summary>One gathering that is worth it.</summary>
/// <param name="At">When.</param>
/// <param name="Larvae">Larvae it brings, 5, 50 and 95 %, if larvae hatch tonight.</param>
/// <param name="LostIfSkipped">Larvae lost if it alone is left out; likewise.</param>
public sealed record TimedGathering(Instant At, Interval Larvae, Interval LostIfSkipped);

/// <summary>
/// The best clock times to gather the larvae of one brood: now to the noon after the night at hand, on half hours at
/// which somebody is awake and at home. Numbers are told for the case that larvae hatch in this night.
/// </summary>
public sealed record CollectionTimes
{
    /// <summary>The brood.</summary>
    public required BroodId Brood { get; init; }

    /// <summary>The instant it is told for.</summary>
    public required Instant Now { get; init; }

    /// <summary>The day on whose evening the night at hand begins.</summary>
    public required LocalDate Evening { get; init; }

    /// <summary>Up to when it looks ahead.</summary>
    public required Instant Until { get; init; }

    /// <summary>Chance that larvae are there by then; 1 once some were seen.</summary>
    public required Probability Chance { get; init; }

    /// <summary>The times, in order; empty where none is worth it or nobody can.</summary>
    public required IReadOnlyList<TimedGathering> Gatherings { get; init; }

    /// <summary>Larvae gathered alive at all of them.</summary>
    public required Interval Larvae { get; init; }

    /// <summary>Of those in the box now and those that hatch, the share gathered alive.</summary>
    public required Interval Share { get; init; }

    /// <summary>Larvae still alive in the box at the end.</summary>
    public required Interval Left { get; init; }

    /// <summary>The hour at which most hatch, hours after noon.</summary>
    public required Interval PeakHoursAfterNoon { get; init; }

    /// <summary>Share lost in an hour in fresh water, 0 to 1.</summary>
    public required Interval LostPerHour { get; init; }

    /// <summary>Nights of own gatherings that the hours were learned from.</summary>
    public required int NightsLearnedFrom { get; init; }

    /// <summary>What it rests on and what makes it rough.</summary>
    public required IReadOnlyList<Remark> Remarks { get; init; }

    /// <summary>Most gatherings planned for one night, unless said otherwise; common practice, no source.</summary>
    public const int UsualMost = 4;

    /// <summary>
    /// Of a night's larvae, the share that one more gathering must save to be worth it, unless said otherwise; an
    /// assumption.
    /// </summary>
    public const double UsualWorth = 0.02;

    /// <summary>The times for a brood.</summary>
    /// <param name="brood">The brood.</param>
    /// <param name="others">Other broods of the species: their gatherings tell the hours too.</param>
    /// <param name="profile">The species, the keeper's choices included.</param>
    /// <param name="forecast">When it hatches; none once larvae were seen.</param>
    /// <param name="keeper">The hours at which nobody can, and until when the keeper is away.</param>
    /// <param name="now">The present.</param>
    /// <param name="zone">The keeper's zone.</param>
    /// <returns>The times, or a refusal with its code.</returns>
    public static Answered Of(
        Brood brood,
        IEnumerable<Brood> others,
        SpeciesProfile profile,
        BroodForecast? forecast,
        CollectingKeeper keeper,
        Instant now,
        DateTimeZone zone
    ) => InPieces(brood, others, profile, forecast, keeper, now, zone).Last()!.Value;

    /// <summary>The same for who may not be held up: nothing in each piece but the last.</summary>
    /// <inheritdoc cref="Of"/>
    public static IEnumerable<Answered?> InPieces(
        Brood brood,
        IEnumerable<Brood> others,
        SpeciesProfile profile,
        BroodForecast? forecast,
        CollectingKeeper keeper,
        Instant now,
        DateTimeZone zone
    )
    {
        if (brood.FirstLarvae is null && forecast is null)
        {
            yield return new(null, new Remark("brood-never-seen", new Argument("brood", brood.Id)));
            yield break;
        }

        if (brood.HatchingOver is { } over)
        {
            yield return new(
                null,
                new Remark("collect-hatching-over", new("brood", brood.Id), new("at", over.Latest))
            );
            yield break;
        }

        foreach (var times in CollectionTelling.InPieces(brood, others, profile, forecast, keeper, now, zone))
        {
            yield return times is null ? null : new Answered(times, null);
        }
    }

    /// <summary>The times, or why there are none.</summary>
    /// <param name="Times">The times.</param>
    /// <param name="Refusal">Why not.</param>
    public readonly record struct Answered(CollectionTimes? Times, Remark? Refusal);
}

/// <summary>When the keeper can gather, and how often.</summary>
/// <param name="Hours">The hours of the day at which nobody can.</param>
/// <param name="AwayUntil">Until when nobody is at home; none if somebody is.</param>
/// <param name="Most">At most so many gatherings, 0 or more.</param>
/// <param name="WorthShare">Of a night's larvae, the share that one more must save, 0 to 1.</param>
public sealed record CollectingKeeper(
    KeeperHours Hours,
    Instant? AwayUntil = null,
    int Most = CollectionTimes.UsualMost,
    double WorthShare = CollectionTimes.UsualWorth
);
