using Broodtide.Domain;
using Broodtide.Domain.Larvae;
using Broodtide.Workbench.Settling;
using NodaTime;

namespace Broodtide.Workbench.Losses;

/// <summary>The water of a run that still stands, and who may live in it: nothing is cleaned around them.</summary>
/// <param name="Stands">Whether any water stands that larvae of the run went into.</param>
/// <param name="AnyLive">Whether settled ones, an adult or another brood live in what would be cleaned.</param>
/// <param name="Latest">
/// The latest day of settlement of all broods whose larvae are in that water; none where no water stands.
/// </param>
internal sealed record LossWaters(bool Stands, bool AnyLive, Instant? Latest)
{
    /// <summary>Whether what it stood in may be cleaned.</summary>
    public bool MayClean(Instant now) => !AnyLive && (Latest is not { } latest || now > latest);

    public static LossWaters Of(Outlook outlook, BroodId id)
    {
        var house = outlook.House;
        var waters = StandingOf(house, id, outlook.Now);
        var vessels = house.VesselsOf(id).ToList();
        var settled = vessels.Any(vessel => WayHome.SettledSeen(vessel) || WayHome.Began(vessel) is not null);
        // A vessel that was poured away and filled again for another brood is cleaned around nobody either.
        var again = LatestIn(
            outlook,
            vessel => !waters.Contains(vessel) && vessels.Any(it => it.Id == vessel)
        );
        return new(
            waters.Count > 0,
            settled || AdultIn(house, id, outlook.Now) || outlook.Now <= again,
            LatestIn(outlook, waters.Contains)
        );
    }

    // The latest day of settlement of all whose larvae are in the water of some vessels; none where there are none.
    private static Instant? LatestIn(Outlook outlook, Func<VesselId, bool> which) =>
        outlook
            .House.Cohorts.Where(cohort => Living(outlook.House, cohort, outlook.Now).Any(which))
            .Select(cohort => cohort.Brood)
            .OfType<BroodId>()
            .Distinct()
            .Select(brood => LatestDay.Of(outlook, brood, outlook.Profiles.Of(brood)))
            .Max();

    /// <summary>The vessels in which the water stands yet that larvae of a brood went into.</summary>
    private static IReadOnlyList<VesselId> StandingOf(House house, BroodId id, Instant now) =>
        [
            .. house
                .Cohorts.Where(cohort => cohort.Brood == id)
                .SelectMany(cohort => Living(house, cohort, now))
                .Distinct(),
        ];

    private static IEnumerable<VesselId> Living(House house, Cohort cohort, Instant now) =>
        cohort
            .Groups.Where(group =>
                (group.Until is not { } until || until.Latest > now)
                && house.Vessel(group.Vessel).Standing is { } fill
                && (fill.Began is not { } began || began.Earliest <= group.Since.Latest)
            )
            .Select(group => group.Vessel);

    private static bool AdultIn(House house, BroodId id, Instant now)
    {
        var brood = house.Brood(id);
        return house
            .Animals.Where(animal => animal.Died is not { } died || died.Latest > now)
            .Select(animal => animal.PlaceAt(now))
            .OfType<VesselId>()
            .Any(place => place == brood.HatchingBox || place == brood.DroppedIn);
    }
}
