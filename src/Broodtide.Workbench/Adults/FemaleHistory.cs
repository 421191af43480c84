using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Hatching;
using NodaTime;

namespace Broodtide.Workbench.Adults;

/// <summary>How a clutch ended.</summary>
public enum ClutchEnd
{
    /// <summary>She still carries it, as far as known.</summary>
    Carried,

    /// <summary>Larvae were seen, gathered or crossed.</summary>
    Hatched,

    /// <summary>All eggs were dropped.</summary>
    Dropped,

    /// <summary>She was seen without eggs, or with the next ones, and nobody saw larvae.</summary>
    GoneUnseen,
}

/// <summary>The temperatures that followed a female while she carried.</summary>
/// <param name="Mean">Mean over the time between the first reading and the last.</param>
/// <param name="Lowest">Lowest reading.</param>
/// <param name="Highest">Highest reading.</param>
/// <param name="Readings">How many.</param>
public sealed record FollowedMean(Temperature Mean, Temperature Lowest, Temperature Highest, int Readings);

/// <summary>One clutch in a female's history.</summary>
public sealed record ClutchTold
{
    /// <summary>The brood.</summary>
    public required BroodId Brood { get; init; }

    /// <summary>Her moult before it, and between which instants it was laid; none where its eggs were never seen.</summary>
    public required MatingMoult? Laid { get; init; }

    /// <summary>How it ended.</summary>
    public required ClutchEnd End { get; init; }

    /// <summary>When it ended, as far as known; none while she carries it.</summary>
    public required Happened? Ended { get; init; }

    /// <summary>Evenings of the nights in which larvae came, by what was seen and gathered.</summary>
    public required IReadOnlyList<LocalDate> HatchNights { get; init; }

    /// <summary>Days carried, at least and at most; none while it is carried or where the laying is not bounded.</summary>
    public required (double Least, double Most)? CarriedDays { get; init; }

    /// <summary>Days from the laying before to this one, at least and at most; none for her first.</summary>
    public required (double Least, double Most)? SinceLastLaidDays { get; init; }

    /// <summary>Larvae gathered, all collections that have a number together; none where none has.</summary>
    public required int? Larvae { get; init; }

    /// <summary>How many collections were made.</summary>
    public required int Collections { get; init; }

    /// <summary>Collections without a number, which are not in <see cref="Larvae"/>.</summary>
    public required int Unnumbered { get; init; }

    /// <summary>Whether a collection came from a box that she shared, so that not all of those larvae need be hers.</summary>
    public required bool IsMixed { get; init; }

    /// <summary>The temperatures that followed her; none where nobody read any.</summary>
    public required FollowedMean? Warmth { get; init; }
}

/// <summary>What the journal tells of one female's clutches, first one first.</summary>
/// <param name="Animal">The female.</param>
/// <param name="Clutches">Her clutches.</param>
public sealed record FemaleHistory(AnimalId Animal, IReadOnlyList<ClutchTold> Clutches)
{
    /// <summary>The history.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="animal">The female.</param>
    /// <param name="now">The present.</param>
    /// <param name="zone">The keeper's zone.</param>
    public static FemaleHistory Of(House house, Animal animal, Instant now, DateTimeZone zone)
    {
        var clutches = new List<ClutchTold>();
        MatingMoult? before = null;
        foreach (var id in animal.Broods)
        {
            var brood = house.Brood(id);
            var told = Clutch(house, animal, brood, before, now, zone);
            clutches.Add(told);
            before = told.Laid;
        }

        return new(animal.Id, clutches);
    }

    private static ClutchTold Clutch(
        House house,
        Animal animal,
        Brood brood,
        MatingMoult? before,
        Instant now,
        DateTimeZone zone
    )
    {
        var laid = MatingMoult.Of(house, brood);
        var (end, ended) = EndOf(house, animal, brood, now);
        var numbers = brood.Gatherings.Select(gathering => gathering.Made.Number).OfType<int>().ToList();
        return new()
        {
            Brood = brood.Id,
            Laid = laid,
            End = end,
            Ended = ended,
            HatchNights = NightsOf(brood, zone),
            CarriedDays =
                laid is { From: { } from } && ended is { } over
                    ? (Days(laid.To, over.Earliest), Days(from, over.Latest))
                    : null,
            SinceLastLaidDays =
                before is { From: { } earlier } && laid is { From: { } now0 }
                    ? (Days(before.To, now0), Days(earlier, laid.To))
                    : null,
            Larvae = numbers.Count > 0 ? numbers.Sum() : null,
            Collections = brood.Gatherings.Count,
            Unnumbered = brood.Gatherings.Count - numbers.Count,
            IsMixed = MixedBox.BoxesOf(house, brood).Any(),
            Warmth = WarmthOf(house, brood, laid, ended?.Latest ?? now, zone),
        };
    }

    /// <summary>How a clutch ended and when.</summary>
    internal static (ClutchEnd End, Happened? When) EndOf(
        House house,
        Animal animal,
        Brood brood,
        Instant now
    )
    {
        if (brood.FirstLarvae is { } larvae)
        {
            return (ClutchEnd.Hatched, larvae);
        }

        if (brood.Dropped is { } dropped)
        {
            return (ClutchEnd.Dropped, dropped);
        }

        var carried = brood.LastSeenCarried ?? Instant.MinValue;
        var bare = brood
            .Looks.Where(look => look.Seen.Carried is false)
            .Select(look => look.When)
            .Concat(animal.SeenEmpty)
            .Where(when => when.Earliest >= carried && when.Latest <= now)
            .OrderBy(when => when.Latest)
            .Select(when => (Happened?)Happened.Between(Instant.Min(carried, when.Latest), when.Latest))
            .FirstOrDefault();
        var next = animal
            .Broods.SkipWhile(other => other != brood.Id)
            .Skip(1)
            .Select(other => house.Brood(other).FirstSeenBerried)
            .FirstOrDefault(seen => seen is not null);
        if (
            bare is null
            && next is { } later
            && brood.FirstSeenBerried is not null
            && later.Latest >= carried
        )
        {
            bare = Happened.Between(carried, later.Latest);
        }

        return bare is null ? (ClutchEnd.Carried, null) : (ClutchEnd.GoneUnseen, bare);
    }

    private static IReadOnlyList<LocalDate> NightsOf(Brood brood, DateTimeZone zone) =>
        [
            .. brood
                .Hatching.Concat(
                    brood.Gatherings.Where(one => one.Made.Number is not 0).Select(one => one.When)
                )
                .Select(when => DayAxis.EveningOf(when.Latest, zone))
                .Distinct()
                .Order(),
        ];

    private static FollowedMean? WarmthOf(
        House house,
        Brood brood,
        MatingMoult? laid,
        Instant until,
        DateTimeZone zone
    )
    {
        if (laid is null || BroodTelling.Anchor(brood) is not { } anchor)
        {
            return null;
        }

        var axis = DayAxis.From(anchor, zone);
        var (first, last) = (axis.DayOf(laid.From ?? laid.To), axis.DayOf(until));
        var readings = FollowedWarmth
            .Of(house, brood, axis, until)
            .Readings.Where(reading => reading.Day >= first && reading.Day <= last)
            .OrderBy(reading => reading.Day)
            .ToList();
        if (readings.Count == 0)
        {
            return null;
        }

        // Straight lines between readings.
        var (sum, days) = (0.0, 0.0);
        for (var i = 1; i < readings.Count; i++)
        {
            var between = readings[i].Day - readings[i - 1].Day;
            sum += between * (readings[i].Temperature.Celsius + readings[i - 1].Temperature.Celsius) / 2;
            days += between;
        }

        var mean = days > 0 ? sum / days : readings.Average(reading => reading.Temperature.Celsius);
        return new(
            Temperature.FromCelsius(mean),
            Temperature.FromCelsius(readings.Min(reading => reading.Temperature.Celsius)),
            Temperature.FromCelsius(readings.Max(reading => reading.Temperature.Celsius)),
            readings.Count
        );
    }

    private static double Days(Instant from, Instant to) => Math.Max(0, (to - from).TotalDays);
}
