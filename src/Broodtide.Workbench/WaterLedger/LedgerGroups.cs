using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;

namespace Broodtide.Workbench.WaterLedger;

/// <summary>One fill of one vessel.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="Number">Which of its fills, from 0.</param>
internal readonly record struct FillKey(VesselId Vessel, int Number);

/// <summary>Fills that are believed jointly.</summary>
/// <param name="Fills">The fills.</param>
/// <param name="Occurrences">What happened to them, in the order of telling.</param>
internal sealed record LedgerGroup(IReadOnlySet<FillKey> Fills, IReadOnlyList<Occurrence> Occurrences);

/// <summary>Fills that exchanged water, directly or through others: they are believed jointly.</summary>
internal static class LedgerGroups
{
    /// <summary>Every fill in groups, each with its occurrences in the order of telling.</summary>
    public static IEnumerable<LedgerGroup> Of(House house)
    {
        var fills = new Dictionary<FillKey, Fill>();
        var byOccurrence = new Dictionary<EntryId, FillKey>();
        var parents = new Dictionary<FillKey, FillKey>();
        foreach (var vessel in house.Vessels)
        {
            for (var number = 0; number < vessel.Fills.Count; number++)
            {
                var key = new FillKey(vessel.Id, number);
                fills[key] = vessel.Fills[number];
                parents[key] = key;
                foreach (var occurrence in vessel.Fills[number].Occurrences)
                {
                    if (!MovesWater(occurrence.Fact))
                    {
                        continue;
                    }

                    if (byOccurrence.TryGetValue(occurrence.Id, out var other))
                    {
                        parents[Root(parents, key)] = Root(parents, other);
                    }
                    else
                    {
                        byOccurrence[occurrence.Id] = key;
                    }
                }
            }
        }

        foreach (var group in fills.Keys.GroupBy(key => Root(parents, key)))
        {
            var occurrences = group
                .SelectMany(key => fills[key].Occurrences)
                .DistinctBy(occurrence => occurrence.Id)
                .ToList();
            occurrences.Sort(OrderOfTelling.Instance);
            yield return new(group.ToHashSet(), occurrences);
        }
    }

    private static FillKey Root(Dictionary<FillKey, FillKey> parents, FillKey key)
    {
        while (parents[key] != key)
        {
            key = parents[key] = parents[parents[key]];
        }

        return key;
    }

    private static bool MovesWater(Fact fact) =>
        fact is WaterMoved or VesselFilled or VesselFed or Domain.Larvae.CrossingMade;
}
