using Broodtide.Domain;

namespace Broodtide.Workbench.Feeding;

/// <summary>The cultures of a house: every vessel whose culture was described and whose water stands.</summary>
internal sealed class CultureBench
{
    private readonly Dictionary<VesselId, Piecewise<CultureState>> _cultures = [];
    private readonly List<VesselId> _vessels = [];

    /// <summary>The bench of an outlook.</summary>
    public CultureBench(Outlook outlook)
    {
        foreach (var vessel in outlook.House.Vessels)
        {
            var ledger = outlook.LedgerOf(vessel.Id);
            if (CultureLog.Of(outlook.House, vessel.Id, ledger, outlook.Now) is { } log)
            {
                _vessels.Add(vessel.Id);
                _cultures[vessel.Id] = new(() => new CultureTelling(log, ledger, outlook.Now).InPieces());
            }
        }
    }

    /// <summary>Vessels with a culture, first mentioned first.</summary>
    public IReadOnlyList<VesselId> Vessels => _vessels;

    /// <summary>Every culture, first mentioned first; works out what is left.</summary>
    public IReadOnlyList<CultureState> All => [.. _vessels.Select(vessel => _cultures[vessel].Value!)];

    /// <summary>The culture of a vessel; none where it has none.</summary>
    public CultureState? Of(VesselId vessel) => _cultures.GetValueOrDefault(vessel)?.Value;

    /// <summary>The work of each, for who may not be held up.</summary>
    public IEnumerable<Piecewise<CultureState>> Work => _vessels.Select(vessel => _cultures[vessel]);
}
