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
        var emptied = LarvalStay.EmptiedIn(house);
        List<Member> members =
        [
            .. house
                .Cohorts.Where(cohort => cohort.Groups.Count > 0)
                .Select(cohort => new Member(cohort, [.. LarvalStay.Of(house, cohort, emptied)])),
        ];
        var heads = Enumerable.Range(0, members.Count).ToArray();
        var byBrood = new Dictionary<BroodId, int>();
        var byVessel = new Dictionary<VesselId, List<(LarvalStay Stay, int Member)>>();
        for (var i = 0; i < members.Count; i++)
        {
            if (members[i].Cohort.Brood is { } brood && !byBrood.TryAdd(brood, i))
            {
                Join(heads, byBrood[brood], i);
            }

            // Only who was ever in the same vessel can have met there.
            foreach (var stay in members[i].Stays)
            {
                if (!byVessel.TryGetValue(stay.Vessel, out var lived))
                {
                    byVessel[stay.Vessel] = lived = [];
                }

                foreach (var (other, member) in lived)
                {
                    if (stay.Meets(other))
                    {
                        Join(heads, member, i);
                    }
                }

                lived.Add((stay, i));
            }
        }

        return
        [
            .. members
                .Select((member, i) => (Member: member, Head: HeadOf(heads, i)))
                .GroupBy(pair => pair.Head, pair => pair.Member)
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

    // Who belongs together has one head, the first among them.
    private static int HeadOf(int[] heads, int member)
    {
        while (heads[member] != member)
        {
            member = heads[member];
        }

        return member;
    }

    private static void Join(int[] heads, int one, int other)
    {
        var (first, second) = (HeadOf(heads, one), HeadOf(heads, other));
        heads[Math.Max(first, second)] = Math.Min(first, second);
    }

    private sealed record Member(Cohort Cohort, IReadOnlyList<LarvalStay> Stays)
    {
        internal Instant Begins { get; } = Cohort.Groups.Min(part => part.Since.Middle);
    }
}
