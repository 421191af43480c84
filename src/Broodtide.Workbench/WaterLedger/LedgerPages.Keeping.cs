using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Crossing;

namespace Broodtide.Workbench.WaterLedger;

/// <content>The pages that are still written on, as bytes.</content>
internal sealed partial class LedgerPages
{
    /// <summary>Notes that a band was taken as the start of water that nobody wrote down.</summary>
    public void Assume(VesselId vessel, SalinityBand? band) => _assumed.Add((vessel, band));

    /// <summary>Writes them down.</summary>
    /// <param name="to">Where to.</param>
    /// <param name="told">What was told so far, in the order of telling: rows speak of it.</param>
    public void Save(BinaryWriter to, List<Occurrence> told)
    {
        to.Write(_pages.Count);
        foreach (var (key, page) in _pages)
        {
            to.Put(key.Vessel.Value);
            to.Write(key.Number);
            to.Write(page.Slot);
            to.Write(page.Temperature.Celsius);
            page.Save(to, told);
        }
    }

    /// <summary>Begins them where they stood.</summary>
    /// <exception cref="IOException">It is cut short.</exception>
    /// <exception cref="InvalidDataException">No such fill stands in the scene, or more is announced than follows.</exception>
    public void Load(BinaryReader from, List<Occurrence> told, LedgerScene scene)
    {
        for (var left = from.Count(); left > 0; left--)
        {
            var key = new FillKey(new(from.Id()), from.ReadInt32());
            if (!scene.Fills.Contains(key))
            {
                throw new InvalidDataException("No such fill.");
            }

            var page = new LedgerPage(
                scene.House.Vessel(key.Vessel),
                key.Number,
                from.ReadInt32(),
                from.Temperature()
            );
            page.Load(from, told);
            _pages[key] = page;
        }
    }
}
