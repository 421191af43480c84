using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using NodaTime;

namespace Broodtide.Workbench.WaterLedger;

/// <summary>Which fill of a vessel stood at an instant, found without looking through all of them.</summary>
internal sealed class FillTimes
{
    private readonly IReadOnlyList<Fill> _fills;

    // The earliest beginning of a fill and of all after it: where this lies after an instant, none of them stood.
    private readonly Instant[] _earliestFrom;
    private readonly Dictionary<EntryId, int> _begun = [];

    public FillTimes(IReadOnlyList<Fill> fills)
    {
        _fills = fills;
        _earliestFrom = new Instant[fills.Count];
        var earliest = Instant.MaxValue;
        for (var number = fills.Count - 1; number >= 0; number--)
        {
            earliest = Instant.Min(earliest, fills[number].Began?.Middle ?? Instant.MinValue);
            _earliestFrom[number] = earliest;
            if (fills[number] is { Began: not null, Occurrences: [var opening, ..] })
            {
                _begun.TryAdd(opening.Id, number);
            }
        }
    }

    /// <summary>The number of the fill that an occurrence began.</summary>
    public int? BegunBy(Occurrence opening) => _begun.TryGetValue(opening.Id, out var number) ? number : null;

    /// <summary>The last of some fills that stood in the vessel at an instant, its beginning and its end included.</summary>
    public FillKey? StandingAt(Instant when, IReadOnlySet<FillKey> among, VesselId vessel)
    {
        // The least number from which on all began later: it and what follows cannot have stood.
        var (low, high) = (0, _fills.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (_earliestFrom[middle] > when)
            {
                high = middle;
            }
            else
            {
                low = middle + 1;
            }
        }

        for (var number = low - 1; number >= 0; number--)
        {
            var key = new FillKey(vessel, number);
            if (StandsAt(_fills[number], when) && among.Contains(key))
            {
                return key;
            }
        }

        return null;
    }

    private static bool StandsAt(Fill fill, Instant when) =>
        (fill.Began is not { } began || began.Middle <= when)
        && (fill.Ended is not { } ended || ended.Middle >= when);
}
