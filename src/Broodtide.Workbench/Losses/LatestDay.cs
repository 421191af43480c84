using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Losses;

/// <summary>
/// The latest day of settlement: of the profile, or of the estimate where that lies later. The estimate goes on as long as
/// nobody counts; so it is bounded by whoever could live at the end of the run, or when somebody last wrote of the vessel:
/// they settle within the longest report of the profile.
/// </summary>
internal static class LatestDay
{
    public static Instant? Of(Outlook outlook, BroodId id, SpeciesProfile profile)
    {
        var brood = outlook.House.Brood(id);
        if (brood.Crossings.Count == 0)
        {
            return null;
        }

        var longest = Duration.FromDays(profile.LarvalDaysHigh);
        var byProfile = brood.Crossings.Max(crossing => crossing.When.Latest) + longest;
        return outlook.EstimateAtHand(id)?.Settlement.NineTenths.Late is { } late
            ? Instant.Max(byProfile, Instant.Min(late, LastKept(outlook, id) + longest))
            : byProfile;
    }

    private static Instant LastKept(Outlook outlook, BroodId id)
    {
        var house = outlook.House;
        var written = house
            .VesselsOf(id)
            .SelectMany(vessel => house.Account.About(Subject.Of(vessel.Id)))
            .Select(told => told.Happened.Latest)
            .Where(when => when <= outlook.Now)
            .DefaultIfEmpty(outlook.Now)
            .Max();
        return house.RunOf(id) is { Ended: { How.End: RunEnd.GivenUp } ended }
            ? Instant.Min(ended.When.Latest, outlook.Now)
            : written;
    }
}
