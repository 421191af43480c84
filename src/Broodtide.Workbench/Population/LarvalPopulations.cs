using Broodtide.Domain;
using Broodtide.Domain.Larvae;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Population;

/// <summary>
/// All populations of a house, first crossed first. Which cohorts belong together is worked out at once; each
/// population when it is asked for.
/// </summary>
internal sealed class LarvalPopulations
{
    private readonly IReadOnlyList<LarvalGroup> _groups;
    private readonly IReadOnlyList<Lazy<LarvalPopulation?>> _each;
    private readonly Lazy<IReadOnlyList<LarvalPopulation>> _all;

    /// <param name="house">What is known.</param>
    /// <param name="profileOf">Whose numbers apply to a brood.</param>
    /// <param name="water">The water of all vessels.</param>
    /// <param name="now">The instant to tell them for.</param>
    public LarvalPopulations(
        House house,
        Func<BroodId?, SpeciesProfile> profileOf,
        Func<LedgerWater> water,
        Instant now
    )
    {
        _groups = LarvalGroup.Of(house);
        var stays = _groups
            .SelectMany(group => group.Stays.Select(stay => (Group: group, Stay: stay)))
            .ToLookup(lived => lived.Stay.Vessel);
        var doubles = new Lazy<DoubleCounts>(() => DoubleCounts.Of(house, profileOf, water().At, now));
        _each =
        [
            .. _groups.Select(group => new Lazy<LarvalPopulation?>(() =>
                LarvalPopulation.Of(
                    house,
                    group,
                    profileOf(group.Cohorts[0].Brood),
                    water(),
                    (vessel, at) => IsOfOthers(stays[vessel], group, at),
                    () => doubles.Value,
                    now
                )
            )),
        ];
        _all = new(() => [.. _each.Select(population => population.Value).OfType<LarvalPopulation>()]);
    }

    /// <summary>All of them.</summary>
    public IReadOnlyList<LarvalPopulation> All => _all.Value;

    /// <summary>The first one that larvae of a brood belong to.</summary>
    public LarvalPopulation? Of(BroodId brood) =>
        Where(group => group.Cohorts.Any(cohort => cohort.Brood == brood)).FirstOrDefault();

    /// <summary>The last one that lives or lived in a vessel.</summary>
    public LarvalPopulation? In(VesselId vessel) =>
        Where(group => group.Vessels.Contains(vessel), backwards: true).FirstOrDefault();

    /// <summary>Those with a cohort of a kind.</summary>
    public IEnumerable<LarvalPopulation> With(Func<Cohort, bool> wanted) =>
        Where(group => group.Cohorts.Any(wanted));

    // Whether others lived in a vessel at an instant, and the group did not.
    private static bool IsOfOthers(
        IEnumerable<(LarvalGroup Group, LarvalStay Stay)> lived,
        LarvalGroup group,
        Instant at
    )
    {
        var others = false;
        foreach (var (owner, stay) in lived)
        {
            if (stay.Holds(stay.Vessel, at))
            {
                if (ReferenceEquals(owner, group))
                {
                    return false;
                }

                others = true;
            }
        }

        return others;
    }

    private IEnumerable<LarvalPopulation> Where(Func<LarvalGroup, bool> wanted, bool backwards = false)
    {
        for (var i = 0; i < _groups.Count; i++)
        {
            var place = backwards ? _groups.Count - 1 - i : i;
            if (wanted(_groups[place]) && _each[place].Value is { } population)
            {
                yield return population;
            }
        }
    }
}
