using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Larvae;
using NodaTime;

namespace Broodtide.Workbench.Planning;

/// <summary>Which broods a keeper still has something to do for, and where their larvae live.</summary>
public static class UnderWay
{
    // Longer than any clutch was ever carried: see the forecast's longest prior.
    private static readonly Duration LongestCarried = Duration.FromDays(100);

    // Larvae in fresh water are dead before this; eggs gone unseen are looked for so long.
    private static readonly Duration LongestLoose = Duration.FromDays(7);

    /// <summary>The broods under way, first mentioned first.</summary>
    public static IEnumerable<Brood> Of(House house, Instant now, DateTimeZone zone) =>
        house.Broods.Where(brood => Is(house, brood, now, zone));

    /// <summary>The vessels in which larvae of a cohort live now: of the same water that they came into.</summary>
    public static IEnumerable<VesselId> VesselsOf(House house, Cohort cohort, Instant now) =>
        cohort
            .Groups.Where(group =>
                group.Since.Middle <= now && (group.Until is not { } until || until.Middle > now)
            )
            .Where(group =>
                house.Vessel(group.Vessel) is var vessel
                && (
                    vessel.Fills.Count == 0
                    || vessel.Standing is { } standing
                        && (standing.Began is not { } began || began.Earliest <= group.Since.Latest)
                )
            )
            .Select(group => group.Vessel)
            .Distinct();

    private static bool Is(House house, Brood brood, Instant now, DateTimeZone zone)
    {
        if (house.RunOf(brood.Id) is { Ended: not null })
        {
            return false;
        }

        return brood.FirstLarvae is { } larvae
            ? LarvaeAreThere(house, brood, larvae.Latest, now, zone)
            : IsCarried(house, brood, now);
    }

    private static bool LarvaeAreThere(
        House house,
        Brood brood,
        Instant seen,
        Instant now,
        DateTimeZone zone
    ) =>
        now - seen < LongestLoose
        || FreshHours.Waiting(brood, zone).Any(waiting => now - waiting.Gathered < LongestLoose)
        || house.Cohorts.Any(cohort => cohort.Brood == brood.Id && VesselsOf(house, cohort, now).Any());

    private static bool IsCarried(House house, Brood brood, Instant now)
    {
        var last = brood.LastSeenCarried ?? brood.Dropped?.Latest;
        if (last is not { } seen || now - seen > LongestCarried || seen > now)
        {
            return false;
        }

        if (brood.Dropped is not null)
        {
            return brood.DroppedIn is not null;
        }

        var animal = brood.Animal is { } id ? house.Animal(id) : null;
        if (animal?.Died is { } died && died.Latest <= now)
        {
            return false;
        }

        // She carries the next one, so this one is past.
        if (animal is not null && animal.Broods.SkipWhile(other => other != brood.Id).Skip(1).Any())
        {
            return false;
        }

        var gone = brood
            .Looks.Where(look => look.Seen.Carried is false && look.When.Earliest >= seen)
            .Select(look => look.When.Latest)
            .Concat(
                (animal?.SeenEmpty ?? []).Where(empty => empty.Earliest > seen).Select(empty => empty.Latest)
            )
            .DefaultIfEmpty(Instant.MaxValue)
            .Min();
        return gone == Instant.MaxValue || now - gone < LongestLoose;
    }
}
