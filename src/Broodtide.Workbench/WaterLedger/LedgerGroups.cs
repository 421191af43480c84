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
    public static IEnumerable<LedgerGroup> Of(House house) =>
        InPieces(house, int.MaxValue).OfType<LedgerGroup>();

    /// <summary>The same with pauses between, for which nothing stands.</summary>
    /// <param name="house">The house.</param>
    /// <param name="piece">How many occurrences are looked at between two pauses.</param>
    public static IEnumerable<LedgerGroup?> InPieces(House house, int piece)
    {
        var seen = 0;
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
                    if (++seen % piece == 0)
                    {
                        yield return null;
                    }

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
            // What happened to one fill is in the order of telling already; the fills are merged.
            var (occurrences, told) = (new List<Occurrence>(), new HashSet<EntryId>());
            var next = new PriorityQueue<IEnumerator<Occurrence>, Occurrence>(OrderOfTelling.Instance);
            foreach (var key in group)
            {
                GoOn(next, fills[key].Occurrences.GetEnumerator());
            }

            while (next.TryDequeue(out var fill, out var occurrence))
            {
                if (told.Add(occurrence.Id))
                {
                    occurrences.Add(occurrence);
                }

                GoOn(next, fill);
                if (++seen % piece == 0)
                {
                    yield return null;
                }
            }

            yield return new(group.ToHashSet(), occurrences);
        }
    }

    private static void GoOn(
        PriorityQueue<IEnumerator<Occurrence>, Occurrence> next,
        IEnumerator<Occurrence> fill
    )
    {
        if (fill.MoveNext())
        {
            next.Enqueue(fill, fill.Current);
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
