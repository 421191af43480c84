using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using NodaTime;

namespace Broodtide.Workbench.Population;

/// <summary>How long larvae of a cohort were in a vessel.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="From">Since when.</param>
/// <param name="Until">Until they were moved, the vessel emptied or their run ended; none while they are there.</param>
internal sealed record LarvalStay(VesselId Vessel, Instant From, Instant? Until)
{
    /// <summary>The stays of a cohort.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="cohort">The cohort.</param>
    /// <param name="emptied">When a vessel was emptied; see <see cref="EmptiedIn"/>.</param>
    internal static IEnumerable<LarvalStay> Of(
        House house,
        Cohort cohort,
        Func<VesselId, IReadOnlyList<Instant>> emptied
    )
    {
        var ended = cohort.Brood is { } brood ? house.RunOf(brood)?.Ended?.When.Middle : null;
        foreach (var part in cohort.Groups)
        {
            var from = part.Since.Middle;
            IEnumerable<Instant> ends =
            [
                .. emptied(part.Vessel),
                .. new[] { part.Until?.Middle, ended }.OfType<Instant>(),
            ];
            var after = ends.Where(end => end > from).ToList();
            yield return new(part.Vessel, from, after.Count > 0 ? after.Min() : null);
        }
    }

    /// <summary>The instants at which a vessel of a house was emptied, each vessel looked through once.</summary>
    internal static Func<VesselId, IReadOnlyList<Instant>> EmptiedIn(House house)
    {
        var known = new Dictionary<VesselId, IReadOnlyList<Instant>>();
        return vessel =>
        {
            if (!known.TryGetValue(vessel, out var instants))
            {
                known[vessel] = instants = [
                    .. house
                        .Told<VesselEmptied>(Subject.Of(vessel))
                        .Where(occurrence => ((VesselEmptied)occurrence.Fact).Vessel == vessel)
                        .Select(occurrence => occurrence.Happened.Middle),
                ];
            }

            return instants;
        };
    }

    /// <summary>Whether they were there at an instant, its ends included.</summary>
    internal bool Holds(VesselId vessel, Instant at) =>
        Vessel == vessel && From <= at && (Until is not { } until || at <= until);

    /// <summary>Whether both were ever in one vessel at one time.</summary>
    internal bool Meets(LarvalStay other) =>
        Vessel == other.Vessel
        && From < (other.Until ?? Instant.MaxValue)
        && other.From < (Until ?? Instant.MaxValue);
}
