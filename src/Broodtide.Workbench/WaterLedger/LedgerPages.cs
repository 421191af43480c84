using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation;
using Broodtide.Units;
using Broodtide.Workbench.Crossing;
using NodaTime;

namespace Broodtide.Workbench.WaterLedger;

/// <summary>The pages of one group of fills: which fill an instant belongs to, and how a page is begun.</summary>
internal sealed partial class LedgerPages(LedgerErrors errors)
{
    private readonly Dictionary<FillKey, LedgerPage> _pages = [];
    private readonly Dictionary<VesselId, FillTimes> _times = [];
    private readonly List<(VesselId Vessel, SalinityBand? Band)> _assumed = [];
    private LedgerScene _scene = default!;

    /// <summary>Every page begun so far, but those put away.</summary>
    public IReadOnlyCollection<LedgerPage> All => _pages.Values;

    /// <summary>Bands that were taken as the start of water that nobody wrote down.</summary>
    public IReadOnlyList<(VesselId Vessel, SalinityBand? Band)> Assumptions => _assumed;

    /// <summary>The same pages, to be closed while these are written on.</summary>
    public LedgerPages Copy()
    {
        var copy = new LedgerPages(errors) { _scene = _scene };
        foreach (var (key, page) in _pages)
        {
            copy._pages[key] = page.Copy();
        }

        copy._assumed.AddRange(_assumed);
        return copy;
    }

    /// <summary>Goes on with what is known now.</summary>
    public void See(LedgerScene scene)
    {
        _scene = scene;
        _times.Clear();
        foreach (var page in _pages.Values)
        {
            page.Vessel = scene.House.Vessel(page.Vessel.Id);
        }
    }

    /// <summary>
    /// Takes out the pages that nothing can be written on any more: their fill ended before an instant that all that is
    /// still to be told comes after.
    /// </summary>
    public IEnumerable<LedgerPage> TakeEndedBefore(Instant earliest)
    {
        List<FillKey>? over = null;
        foreach (var (key, page) in _pages)
        {
            if (
                page.Ended
                && _scene.House.Vessel(key.Vessel).Fills[key.Number].Ended is { } ended
                && ended.Middle < earliest
            )
            {
                (over ??= []).Add(key);
            }
        }

        foreach (var key in over ?? [])
        {
            _pages.Remove(key, out var page);
            yield return page!;
        }
    }

    /// <summary>Temperature where none was written down.</summary>
    public Temperature Assumed => Temperature.FromCelsius(errors.TemperatureCelsius);

    /// <summary>The fill that an occurrence began.</summary>
    public FillKey? KeyOf(VesselId vessel, Occurrence opening) =>
        TimesOf(vessel).BegunBy(opening) is { } number ? Ours(new(vessel, number)) : null;

    /// <summary>
    /// The page of the fill that stands in a vessel at an instant. A fill nobody wrote down is begun with wide doubt.
    /// </summary>
    public LedgerPage? At(WaterSaltFilter filter, VesselId vessel, Instant when)
    {
        if (TimesOf(vessel).StandingAt(when, _scene.Fills, vessel) is not { } key)
        {
            return null;
        }

        if (_pages.TryGetValue(key, out var page))
        {
            return page;
        }

        var seen = _scene.House.Vessel(vessel);
        var volume = seen.Capacity is { Litres: > 0 } line
            ? line
            : Volume.FromLitres(errors.UnknownVolumeLitres);
        var assumed = _scene.Band(seen);
        _assumed.Add((vessel, assumed));
        var start = assumed?.Target ?? default;
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

    /// <summary>The page of the fill that stands in a vessel at an instant, if anything was written on it; a sensor begins none.</summary>
    public LedgerPage? Begun(VesselId vessel, Instant when) =>
        TimesOf(vessel).StandingAt(when, _scene.Fills, vessel) is { } key
            ? _pages.GetValueOrDefault(key)
            : null;

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
        if (_scene.House.Vessel(key.Vessel).Role is VesselRole.Store)
        {
            evaporation *= errors.ClosedShare;
        }

        var slot = filter.Add(volume, volumeSd, salinity, salinitySd, temperature, evaporation);
        return _pages[key] = new LedgerPage(_scene.House.Vessel(key.Vessel), key.Number, slot, temperature);
    }

    private FillKey? Ours(FillKey key) => _scene.Fills.Contains(key) ? key : null;

    private FillTimes TimesOf(VesselId vessel)
    {
        if (!_times.TryGetValue(vessel, out var times))
        {
            _times[vessel] = times = new FillTimes(_scene.House.Vessel(vessel).Fills);
        }

        return times;
    }
}
