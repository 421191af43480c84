using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Review;

/// <summary>Larvae of the run in one vessel.</summary>
internal sealed record VesselTime(Vessel Vessel, Instant From, Instant Until);

/// <summary>What is told of: a run with its brood, its vessels and how far it goes.</summary>
internal sealed class ReviewSpan
{
    private ReviewSpan(Outlook outlook, Run run, Brood brood)
    {
        (Outlook, Run, Brood) = (outlook, run, brood);
        Profile = outlook.Profiles.Of(brood.Id);
        Until = run.Ended is { } ended ? Instant.Min(ended.When.Latest, outlook.Now) : outlook.Now;
        From =
            brood.FirstSeenBerried?.Earliest ?? brood.FirstLarvae?.Earliest ?? run.Started?.Earliest ?? Until;
        Stays = [.. StaysOf(outlook.House, brood.Id, Until)];
    }

    public Outlook Outlook { get; }

    public House House => Outlook.House;

    public Run Run { get; }

    public Brood Brood { get; }

    public SpeciesProfile Profile { get; }

    public Instant From { get; }

    public Instant Until { get; }

    /// <summary>Where its larvae lived in the sea, and how long.</summary>
    public IReadOnlyList<VesselTime> Stays { get; }

    public IEnumerable<Vessel> Vessels => Stays.Select(stay => stay.Vessel).DistinctBy(vessel => vessel.Id);

    public static ReviewSpan? Of(Outlook outlook, RunId id) =>
        outlook.House.Run(id) is { Brood: { } brood } run
            ? new(outlook, run, outlook.House.Brood(brood))
            : null;

    /// <summary>What was written of a vessel between two instants, oldest first.</summary>
    public IEnumerable<(Instant When, T Fact, EntryId Entry)> Facts<T>(
        VesselId vessel,
        Instant from,
        Instant until
    )
        where T : Fact
    {
        foreach (var occurrence in House.Account.About(Subject.Of(vessel)))
        {
            var when = occurrence.Happened.Middle;
            if (occurrence.Fact is T fact && when >= from && when <= until)
            {
                yield return (when, fact, occurrence.Id);
            }
        }
    }

    /// <summary>The same over all its vessels, while its larvae lived there.</summary>
    public IEnumerable<(Instant When, T Fact, EntryId Entry)> Facts<T>()
        where T : Fact =>
        Stays
            .SelectMany(stay => Facts<T>(stay.Vessel.Id, stay.From, stay.Until))
            .DistinctBy(told => told.Entry)
            .OrderBy(told => told.When);

    private static IEnumerable<VesselTime> StaysOf(House house, BroodId brood, Instant until)
    {
        var times = new List<VesselTime>();
        foreach (var cohort in house.Cohorts.Where(cohort => cohort.Brood == brood))
        {
            foreach (var group in cohort.Groups)
            {
                var from = group.Since.Earliest;
                var emptied = house
                    .Account.About(Subject.Of(group.Vessel))
                    .Where(told => told.Fact is VesselEmptied && told.Happened.Latest > from)
                    .Select(told => (Instant?)told.Happened.Latest)
                    .Min();
                var end = new[] { group.Until?.Latest, emptied, until }.OfType<Instant>().Min();
                if (end > from)
                {
                    times.Add(new(house.Vessel(group.Vessel), from, end));
                }
            }
        }

        // One vessel into which larvae came on several nights is one stay.
        return times
            .GroupBy(time => time.Vessel.Id)
            .Select(each => new VesselTime(
                each.First().Vessel,
                each.Min(time => time.From),
                each.Max(time => time.Until)
            ))
            .OrderBy(time => time.From)
            .ThenBy(time => time.Vessel.Id.Value);
    }
}
