using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Science.Development;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Hatching;

/// <summary>What is known of a brood, ready to be forecast from.</summary>
/// <param name="Axis">The axis its days are counted on.</param>
/// <param name="Now">The present.</param>
/// <param name="Zone">The keeper's zone.</param>
/// <param name="Evidence">What was seen and read.</param>
/// <param name="WarmthSource">Where the assumption about the temperature comes from.</param>
/// <param name="Remarks">What could not be used.</param>
internal sealed record BroodKnown(
    DayAxis Axis,
    Instant Now,
    DateTimeZone Zone,
    BroodEvidence Evidence,
    WarmthSource WarmthSource,
    IReadOnlyList<Remark> Remarks
)
{
    // Calendars and clocks beyond these years are a mistyped date, not a brood.
    private static readonly Instant Earliest = Instant.FromUtc(1900, 1, 1, 0, 0);
    private static readonly Instant Latest = Instant.FromUtc(2900, 1, 1, 0, 0);

    public static BroodKnown? Of(
        House house,
        Brood brood,
        Instant now,
        DateTimeZone zone,
        DayAxis? sameAxis = null
    )
    {
        if (BroodTelling.Anchor(brood) is not { } anchor || !IsOfOurTime(anchor) || !IsOfOurTime(now))
        {
            return null;
        }

        var axis = sameAxis ?? DayAxis.From(anchor, zone);
        var telling = BroodTelling.Of(house, brood, axis, now, zone);
        if (!telling.Facts.Any(fact => fact is not BroodFact.SeenEmpty))
        {
            return null;
        }

        var warmth = FollowedWarmth.Of(house, brood, axis, now);
        return new(
            axis,
            now,
            zone,
            new BroodEvidence
            {
                Facts = telling.Facts,
                Temperatures = warmth.Readings,
                Assumption = warmth.Assumption,
                AgeUnknown = telling.AgeUnknown,
                MidnightPhase = DayAxis.MidnightPhase,
            },
            warmth.Source,
            [.. telling.Remarks, .. warmth.Remarks]
        );
    }

    private static bool IsOfOurTime(Instant instant) => instant >= Earliest && instant <= Latest;
}
