using Broodtide.Domain;
using Broodtide.Domain.Larvae;
using NodaTime;

namespace Broodtide.Workbench.Population;

/// <summary>Cohorts whose larvae must be estimated together: of one brood, or ever in one vessel at one time.</summary>
/// <param name="Cohorts">The cohorts, first crossed first.</param>
/// <param name="Vessels">The vessels they lived in, first entered first.</param>
/// <param name="Stays">When they lived where.</param>
internal sealed record LarvalGroup(
    IReadOnlyList<Cohort> Cohorts,
    IReadOnlyList<VesselId> Vessels,
    IReadOnlyList<LarvalStay> Stays
)
{
    /// <summary>All groups of a house, first crossed first.</summary>
    internal static IReadOnlyList<LarvalGroup> Of(House house)
    {
        var groups = new List<List<Member>>();
        var emptied = LarvalStay.EmptiedIn(house);
        foreach (var cohort in house.Cohorts.Where(cohort => cohort.Groups.Count > 0))
        {
            var member = new Member(cohort, [.. LarvalStay.Of(house, cohort, emptied)]);
            var touching = groups.Where(group => group.Any(member.Touches)).ToList();
            var joined = touching.SelectMany(group => group).Append(member).ToList();
            groups.RemoveAll(touching.Contains);
            groups.Add(joined);
        }

        return
        [
            .. groups
                .Select(group =>
                    group.OrderBy(member => member.Begins).ThenBy(member => member.Cohort.Id.Value).ToList()
                )
                .OrderBy(group => group[0].Begins)
                .ThenBy(group => group[0].Cohort.Id.Value)
                .Select(group => new LarvalGroup(
                    [.. group.Select(member => member.Cohort)],
                    [
                        .. group
                            .SelectMany(member => member.Cohort.Groups)
                            .Select(part => part.Vessel)
                            .Distinct(),
                    ],
                    [.. group.SelectMany(member => member.Stays)]
                )),
        ];
    }

    /// <summary>Whether larvae of the group were in a vessel at an instant.</summary>
    internal bool Holds(VesselId vessel, Instant at) => Stays.Any(stay => stay.Holds(vessel, at));

    private sealed record Member(Cohort Cohort, IReadOnlyList<LarvalStay> Stays)
    {
        internal Instant Begins => Cohort.Groups.Min(part => part.Since.Middle);

        internal bool Touches(Member other) =>
            (Cohort.Brood is { } brood && brood == other.Cohort.Brood)
            || Stays.Any(stay => other.Stays.Any(stay.Meets));
    }
}
