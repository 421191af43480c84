using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Safety;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Losses;

/// <summary>
/// What the journal shows of a run against what is held for good, the farthest beyond its limit first. How far is a ratio to
/// the limit, so that minutes, hours and milligrams can stand in one row; it says nothing of how many larvae it cost.
/// </summary>
internal static class LossSuspects
{
    // First food about a day after salt, and half a day more; practice, no source.
    private const double FirstFoodHours = 36;

    // Larvae are fed once or twice a day; two days without a word is long. Practice, no source.
    private const double FoodGapDays = 2;

    // A count a week and some days of grace: a loss nobody counted has no day.
    private const double CountEveryDays = 10;

    // One degree or one ppt beyond a limit counts as much as half the limit of another quantity.
    private const double BeyondStep = 2;

    // The days in a box at which its risk is a tenth, by the risk that the isolation advice reckons with.
    private const double LongInBoxDays = 5;

    // Nothing was measured: not shown, but it cannot be excluded.
    private const double NotExcluded = 0.5;

    public static IReadOnlyList<LossSuspect> Of(Outlook outlook, Run run, Brood brood, SpeciesProfile profile)
    {
        var until = run.Ended?.When.Latest ?? outlook.Now;
        var suspects = new List<LossSuspect>();
        suspects.AddRange(BeforeTheSea(brood, profile));
        if (brood.Crossings.Count > 0)
        {
            suspects.AddRange(Crossing(brood, profile, outlook.Zone));
            foreach (var vessel in outlook.House.VesselsOf(brood.Id))
            {
                var since = brood
                    .Crossings.Where(crossing => crossing.Made.To == vessel.Id)
                    .Select(crossing => (Instant?)crossing.When.Latest)
                    .Min();
                var stay = new Stay(outlook, vessel, since ?? brood.Crossings[0].When.Latest, until);
                suspects.AddRange(Food(stay));
                suspects.AddRange(Ammonia(stay, profile));
                suspects.AddRange(Warmth(stay, profile));
                suspects.AddRange(Salt(stay, profile));
                suspects.AddRange(Unseen(stay));
            }
        }

        if (suspects.Count == 0)
        {
            suspects.Add(new(0, new Remark("loss-nothing-shown"), new Remark("change-measure-more")));
        }

        // One of a kind: the worst vessel speaks for all.
        return
        [
            .. suspects
                .GroupBy(suspect => suspect.Shown.Code, StringComparer.Ordinal)
                .Select(kind => kind.MaxBy(suspect => suspect.Ratio)!)
                .OrderByDescending(suspect => suspect.Ratio)
                .ThenBy(suspect => suspect.Shown.Code, StringComparer.Ordinal),
        ];
    }

    /// <summary>Whether settled ones or juveniles were seen where larvae of a brood lived.</summary>
    public static bool SawSettled(House house, BroodId brood, Instant now)
    {
        var first = house.Brood(brood).Crossings.Min(crossing => crossing.When.Earliest);
        return house
            .VesselsOf(brood)
            .SelectMany(vessel => house.Account.About(Subject.Of(vessel.Id)))
            .Any(occurrence =>
                occurrence.Happened.Latest >= first
                && occurrence.Happened.Latest <= now
                && occurrence.Fact
                    is SettlementSeen { Number: null or > 0 }
                        or JuvenilesReturned { Number: null or > 0 }
            );
    }

    private static IEnumerable<LossSuspect> BeforeTheSea(Brood brood, SpeciesProfile profile)
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

    private static IEnumerable<LossSuspect> Crossing(Brood brood, SpeciesProfile profile, DateTimeZone zone)
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

    private static IEnumerable<LossSuspect> Food(Stay stay)
    {
        var fed = stay.Facts<VesselFed>().Select(pair => pair.When).Order().ToList();
        if (fed.Count == 0)
        {
            yield return new(
                Math.Min(3, stay.Hours / FirstFoodHours),
                new Remark(
                    "loss-no-food-written",
                    new("hours", stay.Hours),
                    new("limitHours", FirstFoodHours)
                ),
                new Remark("change-food-ready-before")
            );
            yield break;
        }

        var wait = (fed[0] - stay.Since).TotalHours;
        yield return new(
            Math.Max(0, wait) / FirstFoodHours,
            new Remark("loss-food-late", new("hours", Math.Max(0, wait)), new("limitHours", FirstFoodHours)),
            new Remark("change-food-ready-before")
        );
        var gap = fed.Append(stay.Until)
            .Zip(fed.Skip(1).Append(stay.Until), (a, b) => (b - a).TotalDays)
            .Max();
        yield return new(
            gap / FoodGapDays,
            new Remark("loss-food-gap", new("days", gap), new("limitDays", FoodGapDays)),
            new Remark("change-feed-little-every-day")
        );
    }

    private static IEnumerable<LossSuspect> Ammonia(Stay stay, SpeciesProfile profile)
    {
        var limit = profile.SafetyLimits.UnionisedAmmoniaNitrogen.MilligramsPerLitre;
        var totalLimit = profile.Find("total-ammonia-nitrogen-limit")?.High;
        LossSuspect? worst = null;
        var read = false;
        foreach (var (_, reading) in stay.Facts<ReadingTaken>())
        {
            if (AmmoniaReading.Of(reading.Value) is not { } said)
            {
                continue;
            }

            read = true;
            var isTotal = said.Form is AmmoniaForm.TotalAsNitrogen or AmmoniaForm.TotalAsAmmonium;
            var nitrogen = said.Form switch
            {
                AmmoniaForm.TotalAsAmmonium => said.Amount.MilligramsPerLitre
                    * AmmoniaMeaning.NitrogenOfAmmonium,
                AmmoniaForm.UnionisedAsAmmonia => Science
                    .Water.Ammonia.AsNitrogen(said.Amount)
                    .MilligramsPerLitre,
                _ => said.Amount.MilligramsPerLitre,
            };
            if ((isTotal ? totalLimit : limit) is not ({ } most and > 0))
            {
                continue;
            }

            var suspect = new LossSuspect(
                nitrogen / most,
                new Remark(
                    "loss-ammonia",
                    new("form", isTotal ? "total" : "unionised"),
                    new("milligramsPerLitre", nitrogen),
                    new("limitMilligramsPerLitre", most)
                ),
                new Remark("change-feed-less-and-change-water")
            );
            worst = worst is null || suspect.Ratio > worst.Ratio ? suspect : worst;
        }

        // The twin of a vessel that still stands tells what nobody measured.
        var ahead = stay
            .Outlook.SafetyAtHand(stay.Vessel.Id)
            ?.Limits.FirstOrDefault(told => told.Limit.Quantity is LimitedQuantity.UnionisedAmmonia);
        if (ahead is { CrossedNow: var chance } && chance.Value > 0.5)
        {
            yield return new(
                1 + chance.Value,
                new Remark("loss-ammonia-likely", new Argument("chance", chance.Value)),
                new Remark("change-feed-less-and-change-water")
            );
        }

        if (worst is not null)
        {
            yield return worst;
        }
        else if (!read)
        {
            yield return new(
                NotExcluded,
                new Remark("loss-ammonia-never-measured"),
                new Remark("change-measure-ammonia")
            );
        }
    }

    private static IEnumerable<LossSuspect> Warmth(Stay stay, SpeciesProfile profile)
    {
        var limits = profile
            .LimitsFor(LifeStage.EarlyZoea)
            .Where(limit => limit.Quantity is LimitedQuantity.Temperature)
            .ToList();
        foreach (var (_, reading) in stay.Facts<ReadingTaken>())
        {
            if (reading.Value.AsTemperature() is not { } read)
            {
                continue;
            }

            foreach (var limit in limits)
            {
                var beyond = limit.IsUpper ? read.Celsius - limit.Value : limit.Value - read.Celsius;
                if (beyond > 0)
                {
                    yield return new(
                        1 + (beyond / BeyondStep),
                        new Remark(
                            limit.IsUpper ? "loss-too-warm" : "loss-too-cold",
                            new("celsius", read.Celsius),
                            new("limitCelsius", limit.Value)
                        ),
                        new Remark(limit.IsUpper ? "change-cooler-place" : "change-steady-warmth")
                    );
                }
            }
        }
    }

    private static IEnumerable<LossSuspect> Salt(Stay stay, SpeciesProfile profile)
    {
        var band = profile.LarvalSalinityBand;
        var (low, high) = (band.Low.Practical, band.High.Practical);
        var points = stay
            .Outlook.Ledgers.Where(ledger => ledger.Vessel == stay.Vessel.Id)
            .SelectMany(ledger => ledger.Track)
            .Where(point => point.At >= stay.Since && point.At <= stay.Until)
            .ToList();
        if (points.Count == 0)
        {
            yield break;
        }

        var lowest = points.MinBy(point => point.SalinityPpt.Middle).SalinityPpt.Middle;
        var highest = points.MaxBy(point => point.SalinityPpt.Middle).SalinityPpt.Middle;
        var beyond = Math.Max(low - lowest, highest - high);
        if (beyond > 0)
        {
            yield return new(
                1 + (beyond / BeyondStep),
                new Remark(
                    "loss-salinity-outside",
                    new("lowestPpt", lowest),
                    new("highestPpt", highest),
                    new("bandLowPpt", low),
                    new("bandHighPpt", high)
                ),
                new Remark("change-top-up-every-day")
            );
        }
    }

    private static IEnumerable<LossSuspect> Unseen(Stay stay)
    {
        var counts = stay.Facts<CountMade>().Select(pair => pair.When).Order().ToList();
        var times = counts.Prepend(stay.Since).Append(stay.Until).ToList();
        var gap = times.Zip(times.Skip(1), (a, b) => (b - a).TotalDays).Max();
        if (gap > CountEveryDays)
        {
            yield return new(
                Math.Min(0.95, NotExcluded * gap / CountEveryDays),
                new Remark("loss-nobody-counted", new("days", gap), new("counts", counts.Count)),
                new Remark("change-count-every-week")
            );
        }
    }

    /// <summary>Larvae in one vessel, from their crossing to the end.</summary>
    private sealed record Stay(Outlook Outlook, Vessel Vessel, Instant Since, Instant Until)
    {
        public double Hours => Math.Max(0, (Until - Since).TotalHours);

        public IEnumerable<(Instant When, T Fact)> Facts<T>()
            where T : Fact
        {
            foreach (var occurrence in Outlook.House.Account.About(Subject.Of(Vessel.Id)))
            {
                if (
                    occurrence.Fact is T fact
                    && occurrence.Happened.Latest >= Since
                    && occurrence.Happened.Earliest <= Until
                )
                {
                    yield return (occurrence.Happened.Latest, fact);
                }
            }
        }
    }
}
