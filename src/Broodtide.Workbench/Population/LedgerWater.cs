using Broodtide.Domain;
using Broodtide.Units;
using Broodtide.Workbench.WaterLedger;
using NodaTime;

namespace Broodtide.Workbench.Population;

/// <summary>How much water a vessel held, by its ledgers; each vessel's points are put in order once.</summary>
internal sealed class LedgerWater(IReadOnlyList<VesselLedger> ledgers)
{
    // Water known no better, as where a filling was never written, tells no number by aliquots.
    private const double MostVolumeWidthShare = 0.6;

    private readonly Dictionary<VesselId, LedgerPoint[]> _points = [];

    /// <summary>The ledgers.</summary>
    public IReadOnlyList<VesselLedger> Ledgers => ledgers;

    /// <summary>Water of a vessel at an instant; none where nobody knows.</summary>
    public Volume? At(VesselId vessel, Instant at)
    {
        if (!_points.TryGetValue(vessel, out var points))
        {
            // In the order of telling where instants are equal.
            _points[vessel] = points = [
                .. ledgers
                    .Where(ledger => ledger.Vessel == vessel)
                    .SelectMany(ledger => ledger.Track)
                    .OrderBy(point => point.At),
            ];
        }

        var (low, high) = (0, points.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = points[middle].At <= at ? (middle + 1, high) : (low, middle);
        }

        return
            low > 0
            && points[low - 1].Litres is var litres
            && litres.Width <= MostVolumeWidthShare * litres.Middle
            ? Volume.FromLitres(Math.Max(0, litres.Middle))
            : null;
    }
}
