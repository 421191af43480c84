using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Planning;

/// <summary>Larvae that were gathered and have not crossed yet.</summary>
/// <param name="Collection">The collection.</param>
/// <param name="Entry">The entry that says so.</param>
/// <param name="HatchedFrom">The earliest instant at which they may have hatched.</param>
/// <param name="Gathered">When they were gathered.</param>
/// <param name="Number">How many, if it was said.</param>
public sealed record WaitingLarvae(
    CollectionId Collection,
    EntryId Entry,
    Instant HatchedFrom,
    Instant Gathered,
    int? Number
);

/// <summary>How long larvae stand in fresh water, and how long they may.</summary>
public static class FreshHours
{
    // The profile's own figure, for a profile without one.
    private const double UsualFreeHours = 24;

    /// <summary>Hours in fresh water planned as free of cost, by the profile.</summary>
    public static double Free(SpeciesProfile profile) =>
        profile.Find("larva-fresh-water-free-hours")?.High ?? UsualFreeHours;

    /// <summary>Hours in fresh water planned as lethal, by the profile.</summary>
    public static double Lethal(SpeciesProfile profile) => profile.LarvaFreshWaterLethal.TotalHours;

    /// <summary>The collections of a brood of which no crossing tells.</summary>
    public static IReadOnlyList<WaitingLarvae> Waiting(Brood brood, DateTimeZone zone)
    {
        var waiting = new List<WaitingLarvae>();
        Instant? before = null;
        foreach (var gathering in brood.Gatherings)
        {
            var night = DayAxis.Noon(DayAxis.EveningOf(gathering.When.Latest, zone), zone);
            var from = before is { } earlier && earlier > night ? earlier : night;
            before = gathering.When.Latest;
            if (!Crossed(brood, gathering))
            {
                waiting.Add(
                    new(
                        gathering.Made.Collection,
                        gathering.Entry,
                        Instant.Min(from, gathering.When.Earliest),
                        gathering.When.Latest,
                        gathering.Made.Number
                    )
                );
            }
        }

        return waiting;
    }

    // A crossing that names no collection took all that had been gathered by then.
    private static bool Crossed(Brood brood, Gathering gathering) =>
        brood.Crossings.Any(crossing =>
            crossing.Made.Collections is { Count: > 0 } named
                ? named.Contains(gathering.Made.Collection)
                : crossing.When.Latest >= gathering.When.Earliest
        );
}
