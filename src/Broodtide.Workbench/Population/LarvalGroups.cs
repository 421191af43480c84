using Broodtide.Domain;
using Broodtide.Domain.Larvae;

namespace Broodtide.Workbench.Population;

/// <summary>Cohorts whose larvae must be estimated together: of one brood, or ever in one vessel.</summary>
/// <param name="Cohorts">The cohorts, first crossed first.</param>
/// <param name="Vessels">The vessels they lived in, first entered first.</param>
internal sealed record LarvalGroup(IReadOnlyList<Cohort> Cohorts, IReadOnlyList<VesselId> Vessels)
{
    /// <summary>All groups of a house, first crossed first.</summary>
    internal static IReadOnlyList<LarvalGroup> Of(House house)
    {
        var cohorts = house.Cohorts.Where(cohort => cohort.Groups.Count > 0).ToList();
        var groups = new List<List<Cohort>>();
        foreach (var cohort in cohorts)
        {
            var touching = groups.Where(group => group.Any(other => Touch(cohort, other))).ToList();
            var joined = touching.SelectMany(group => group).Append(cohort).ToList();
            groups.RemoveAll(touching.Contains);
            groups.Add(joined);
        }

        return
        [
            .. groups
                .Select(group => group.OrderBy(Begins).ThenBy(cohort => cohort.Id.Value).ToList())
                .OrderBy(group => Begins(group[0]))
                .ThenBy(group => group[0].Id.Value)
                .Select(group => new LarvalGroup(
                    group,
                    [.. group.SelectMany(cohort => cohort.Groups).Select(part => part.Vessel).Distinct()]
                )),
        ];
    }

    private static bool Touch(Cohort one, Cohort other) =>
        (one.Brood is { } brood && brood == other.Brood)
        || one.Groups.Select(part => part.Vessel).Intersect(other.Groups.Select(part => part.Vessel)).Any();

    private static NodaTime.Instant Begins(Cohort cohort) => cohort.Groups.Min(part => part.Since.Middle);
}
