using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;

namespace Broodtide.Workbench.WaterLedger;

/// <summary>
/// The groups of fills of a house that grows: what only comes at the end of a fill is put at the end of its group, all
/// else is grouped anew.
/// </summary>
internal sealed class GroupedFills
{
    private readonly Dictionary<VesselId, Vessel> _vessels = [];
    private readonly Dictionary<FillKey, int> _groupOf = [];
    private List<LedgerGroup> _groups = [];

    /// <summary>The groups of a house, the same as <see cref="LedgerGroups.Of"/> gives.</summary>
    public IReadOnlyList<LedgerGroup> Of(House house)
    {
        var vessels = house.Vessels.ToList();
        if (vessels.Count != _vessels.Count || !GoOn(vessels))
        {
            Begin([.. LedgerGroups.Of(house)], vessels);
        }

        return _groups;
    }

    /// <summary>Groups the fills of a house that none were grouped of yet, with a pause wherever one is given.</summary>
    /// <param name="house">The house.</param>
    /// <param name="piece">How many occurrences are looked at between two pauses.</param>
    public IEnumerable<LedgerGroup?> Prepare(House house, int piece)
    {
        if (_vessels.Count > 0)
        {
            yield break;
        }

        var groups = new List<LedgerGroup>();
        foreach (var group in LedgerGroups.InPieces(house, piece))
        {
            if (group is not null)
            {
                groups.Add(group);
            }

            yield return group;
        }

        Begin(groups, [.. house.Vessels]);
    }

    private void Begin(List<LedgerGroup> groups, List<Vessel> vessels)
    {
        _groups = groups;
        _vessels.Clear();
        _groupOf.Clear();
        foreach (var vessel in vessels)
        {
            _vessels[vessel.Id] = vessel;
        }

        for (var number = 0; number < _groups.Count; number++)
        {
            foreach (var key in _groups[number].Fills)
            {
                _groupOf[key] = number;
            }
        }
    }

    private bool GoOn(List<Vessel> vessels)
    {
        var fresh = new Dictionary<EntryId, (Occurrence Told, int Group)>();
        foreach (var vessel in vessels)
        {
            if (!_vessels.TryGetValue(vessel.Id, out var before) || before.Fills.Count != vessel.Fills.Count)
            {
                return false;
            }

            for (var number = 0; number < vessel.Fills.Count && !ReferenceEquals(before, vessel); number++)
            {
                var (was, now) = (before.Fills[number].Occurrences, vessel.Fills[number].Occurrences);
                if (!IsBeginning(was, now))
                {
                    return false;
                }

                var group = _groupOf[new(vessel.Id, number)];
                foreach (var occurrence in now.Skip(was.Count))
                {
                    // Water that comes from another group joins the two.
                    if (fresh.TryGetValue(occurrence.Id, out var other) && other.Group != group)
                    {
                        return false;
                    }

                    fresh[occurrence.Id] = (occurrence, group);
                }
            }
        }

        var told = fresh.Values.ToList();
        told.Sort((x, y) => OrderOfTelling.Instance.Compare(x.Told, y.Told));
        foreach (var (occurrence, group) in told)
        {
            // An occurrence that another fill of the group had before, or that was told earlier, is grouped anew.
            if (
                _groups[group].Occurrences is [.., var last]
                && OrderOfTelling.Instance.Compare(last, occurrence) >= 0
            )
            {
                return false;
            }
        }

        foreach (var group in told.GroupBy(it => it.Group))
        {
            _groups[group.Key] = _groups[group.Key] with
            {
                Occurrences = [.. _groups[group.Key].Occurrences, .. group.Select(it => it.Told)],
            };
        }

        foreach (var vessel in vessels)
        {
            _vessels[vessel.Id] = vessel;
        }

        return true;
    }

    private static bool IsBeginning(IReadOnlyList<Occurrence> was, IReadOnlyList<Occurrence> now)
    {
        if (was.Count > now.Count)
        {
            return false;
        }

        for (var at = 0; at < was.Count; at++)
        {
            if (!ReferenceEquals(was[at], now[at]))
            {
                return false;
            }
        }

        return true;
    }
}
