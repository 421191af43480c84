using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Losses;

/// <summary>What can have harmed a clutch and its larvae before they stood in the sea: the box, hours in fresh water, the crossing.</summary>
internal static class LossesBeforeVessel
{
    // The days in a box at which its risk is a tenth, by the risk that the isolation advice reckons with.
    private const double LongInBoxDays = 5;

    public static IEnumerable<LossSuspect> BeforeTheSea(Brood brood, SpeciesProfile profile)
    {
        if (brood.Isolated is { } isolated && (brood.FirstLarvae ?? brood.Dropped) is { } over)
        {
            var days = (over.Latest - isolated.Latest).TotalDays;
            if (days > 0)
            {
                yield return new(
                    days / LongInBoxDays * (brood.Dropped is null ? 0.5 : 1),
                    new Remark(
                        "loss-long-in-the-box",
                        new("daysInBox", days),
                        new("limitDays", LongInBoxDays)
                    ),
                    new Remark("change-isolate-on-a-sign")
                );
            }
        }

        if (brood.FirstLarvae is not null && brood.Crossings.Count == 0)
        {
            var free = FreshHours.Free(profile);
            yield return new(
                FreshHours.Lethal(profile) / free,
                new Remark("loss-never-crossed", new Argument("freeHours", free)),
                new Remark("change-sea-water-ready-before")
            );
        }
    }

    public static IEnumerable<LossSuspect> Crossing(Brood brood, SpeciesProfile profile, DateTimeZone zone)
    {
        var limit = profile.BrackishLimit.TotalMinutes;
        foreach (var crossing in brood.Crossings)
        {
            if (crossing.Made.BrackishMinutes.AsMinutes() is { } minutes)
            {
                yield return new(
                    minutes / limit,
                    new Remark("loss-long-brackish", new("minutes", minutes), new("limitMinutes", limit)),
                    new Remark("change-pour-by-the-clock")
                );
            }

            var hours = (crossing.When.Latest - HatchedFrom(brood, crossing, zone)).TotalHours;
            var free = FreshHours.Free(profile);
            yield return new(
                hours / free,
                new Remark("loss-crossed-late", new("hoursFresh", hours), new("freeHours", free)),
                new Remark("change-sea-water-ready-before")
            );
        }
    }

    // The earliest at which larvae of a crossing may have hatched: the noon before, or the gathering before the first of them.
    private static Instant HatchedFrom(Brood brood, Crossover crossing, DateTimeZone zone)
    {
        var taken = brood
            .Gatherings.Where(one =>
                crossing.Made.Collections is { Count: > 0 } named
                    ? named.Contains(one.Made.Collection)
                    : one.When.Latest <= crossing.When.Latest
            )
            .ToList();
        var before = brood
            .Crossings.Where(other => other.When.Latest < crossing.When.Latest)
            .Select(other => (Instant?)other.When.Latest)
            .Max();
        var first = taken
            .Where(one => before is null || one.When.Latest > before || crossing.Made.Collections is not null)
            .Select(one => (Instant?)one.When.Latest)
            .Min();
        var seen = first ?? (before is null ? brood.FirstLarvae?.Latest : null) ?? crossing.When.Latest;
        var noon = DayAxis.Noon(DayAxis.EveningOf(seen, zone), zone);
        var gathered = brood
            .Gatherings.Where(one => one.When.Latest < seen)
            .Select(one => (Instant?)one.When.Latest)
            .Max();
        return gathered is { } last && last > noon ? last : noon;
    }
}
