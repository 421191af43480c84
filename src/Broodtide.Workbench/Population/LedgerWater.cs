using Broodtide.Domain;
using Broodtide.Units;
using Broodtide.Workbench.WaterLedger;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Population;

/// <summary>How much water a vessel held, by its ledgers.</summary>
internal sealed class LedgerWater(IReadOnlyList<VesselLedger> ledgers)
{
    // Water known no better, as where a filling was never written, tells no number by aliquots.
    private const double MostVolumeWidthShare = 0.6;

    private Dictionary<VesselId, List<VesselLedger>>? _byVessel;

    /// <summary>The ledgers of a vessel, oldest fill first.</summary>
    public IReadOnlyList<VesselLedger> LedgersOf(VesselId vessel)
    {
        _byVessel ??= ledgers
            .GroupBy(ledger => ledger.Vessel)
            .ToDictionary(group => group.Key, group => group.ToList());
        return _byVessel.GetValueOrDefault(vessel) ?? [];
    }

    /// <summary>Water of a vessel at an instant; none where nobody knows well enough to tell numbers by it.</summary>
    public Volume? At(VesselId vessel, Instant at) =>
        Then(vessel, at) is { } litres && litres.Width <= MostVolumeWidthShare * litres.Middle
            ? Volume.FromLitres(Math.Max(0, litres.Middle))
            : null;

    /// <summary>
    /// Litres in a vessel at an instant, however well they are known: the last that its ledgers tell by then. None where they tell of nothing
    /// so early.
    /// </summary>
    public Interval? Then(VesselId vessel, Instant at)
    {
        LedgerPoint? last = null;
        foreach (var ledger in LedgersOf(vessel))
        {
            var track = ledger.Track;
            if (track.Count == 0 || track[0].At > at || track[^1].At < last?.At)
            {
                continue;
            }

            var (low, high) = (0, track.Count);
            while (low < high)
            {
                var middle = (low + high) / 2;
                (low, high) = track[middle].At <= at ? (middle + 1, high) : (low, middle);
            }

            // In the order of telling where instants are equal.
            if (last is not { } known || track[low - 1].At >= known.At)
            {
                last = track[low - 1];
            }
        }

        return last?.Litres;
    }
}
