using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation;
using Broodtide.Units;
using Broodtide.Workbench.Crossing;
using NodaTime;

namespace Broodtide.Workbench.WaterLedger;

/// <summary>The pages of one group of fills: which fill an instant belongs to, and how a page is begun.</summary>
internal sealed class LedgerPages(
    House house,
    IReadOnlySet<FillKey> fills,
    Func<Vessel, SalinityBand?> band,
    LedgerErrors errors
)
{
    private readonly Dictionary<FillKey, LedgerPage> _pages = [];

    /// <summary>Every page begun so far.</summary>
    public IReadOnlyCollection<LedgerPage> All => _pages.Values;

    /// <summary>Temperature where none was written down.</summary>
    public Temperature Assumed => Temperature.FromCelsius(errors.TemperatureCelsius);

    /// <summary>The fill that an occurrence began.</summary>
    public FillKey? KeyOf(VesselId vessel, Occurrence opening) =>
        KeyWhere(vessel, fill => fill.Occurrences.Any(occurrence => occurrence.Id == opening.Id));

    /// <summary>
    /// The page of the fill that stands in a vessel at an instant. A fill nobody wrote down is begun with wide doubt.
    /// </summary>
    public LedgerPage? At(WaterSaltFilter filter, VesselId vessel, Instant when)
    {
        if (KeyWhere(vessel, fill => StandsAt(fill, when)) is not { } key)
        {
            return null;
        }

        if (_pages.TryGetValue(key, out var page))
        {
            return page;
        }

        var seen = house.Vessel(vessel);
        var volume = seen.Capacity is { Litres: > 0 } line
            ? line
            : Volume.FromLitres(errors.UnknownVolumeLitres);
        var start = band(seen)?.Target ?? default;
        page = Open(
            filter,
            key,
            volume,
            errors.UnknownFillShare * volume.Litres,
            start,
            errors.UnknownSalinitySd,
            Assumed,
            volume
        );
        page.Remarks.Add(new Remark("start-unknown", new Argument("vessel", vessel)));
        return page;
    }

    /// <summary>Begins a page with what the vessel is believed to hold.</summary>
    public LedgerPage Open(
        WaterSaltFilter filter,
        FillKey key,
        Volume volume,
        double volumeSd,
        Salinity salinity,
        double salinitySd,
        Temperature temperature,
        Volume expected
    )
    {
        // mm over dm2 are hundredths of a litre; the surface of a jar goes with volume to the power two thirds.
        var evaporation = 0.01 * errors.EvaporationMillimetresPerDay * Math.Pow(expected.Litres, 2.0 / 3);
        if (house.Vessel(key.Vessel).Role is VesselRole.Store)
        {
            evaporation *= errors.ClosedShare;
        }

        var slot = filter.Add(volume, volumeSd, salinity, salinitySd, temperature, evaporation);
        return _pages[key] = new LedgerPage(house.Vessel(key.Vessel), key.Number, slot, temperature);
    }

    private static bool StandsAt(Fill fill, Instant when) =>
        (fill.Began is not { } began || began.Middle <= when)
        && (fill.Ended is not { } ended || ended.Middle >= when);

    private FillKey? KeyWhere(VesselId vessel, Func<Fill, bool> wanted)
    {
        var list = house.Vessel(vessel).Fills;
        for (var number = list.Count - 1; number >= 0; number--)
        {
            var key = new FillKey(vessel, number);
            if (fills.Contains(key) && wanted(list[number]))
            {
                return key;
            }
        }

        return null;
    }
}
