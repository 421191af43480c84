using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.WaterLedger;

/// <summary>
/// Tells one group of fills from its first occurrence to now, and the days ahead. When more has happened since, it may
/// go on from where it stood, if nothing that was told before has become another.
/// </summary>
internal sealed partial class LedgerTelling(LedgerErrors errors)
{
    private const int Piece = 48;

    private readonly List<Occurrence> _told = [];
    private readonly List<VesselLedger> _over = [];
    private WaterSaltFilter _filter = new();
    private LedgerPages _pages = new(errors);
    private LedgerScene _scene = default!;
    private Instant _latest = Instant.MinValue;
    private Instant? _clock;
    private int _runs;

    /// <summary>How many occurrences were taken in, over all times it went on.</summary>
    public int Taken { get; private set; }

    /// <summary>Tells it all.</summary>
    public IReadOnlyList<VesselLedger> Tell(LedgerScene scene, IReadOnlyList<Occurrence> occurrences) =>
        InPieces(scene, occurrences).Last()!;

    /// <summary>Tells it in pieces: nothing in each but the last.</summary>
    public IEnumerable<IReadOnlyList<VesselLedger>?> InPieces(
        LedgerScene scene,
        IReadOnlyList<Occurrence> occurrences
    )
    {
        var mine = ++_runs;
        See(scene);
        // What is kept is kept where the young begin, and not where they went on before.
        var isKept = _latest > scene.Now - Settled;
        for (var next = _told.Count; next < occurrences.Count; next++)
        {
            isKept = isKept || KeepBefore(occurrences, next, scene);
            // What is written down for the future has not happened yet; it and what follows is told anew next time.
            if (occurrences[next].Happened.Middle > scene.Now)
            {
                yield return Ahead(occurrences, next);
                yield break;
            }

            Take(occurrences[next]);
            if (next % Piece == 0)
            {
                yield return null;
                if (mine != _runs)
                {
                    // Somebody else went on with it meanwhile.
                    yield return new LedgerTelling(errors).Tell(scene, occurrences);
                    yield break;
                }
            }
        }

        if (!isKept)
        {
            KeepBefore(occurrences, occurrences.Count, scene);
        }

        HearUntil(scene.Now);
        yield return Closed();
    }

    private void Take(Occurrence occurrence)
    {
        var when = occurrence.Happened.Middle;
        HearUntil(when);
        foreach (var page in _pages.TakeEndedBefore(occurrence.Happened.Earliest))
        {
            _over.Add(page.Close(_filter, _scene.Band, _scene.Now));
            _filter.Drop(page.Slot);
        }

        Advance(when);
        Take(occurrence, when);
        Taken++;
        _told.Add(occurrence);
        _latest = Instant.Max(_latest, when);
    }

    // From here on on a copy: the rest may be told otherwise once it has happened.
    private IReadOnlyList<VesselLedger> Ahead(IReadOnlyList<Occurrence> occurrences, int next)
    {
        var copy = new LedgerTelling(errors)
        {
            _filter = _filter.Copy(),
            _pages = _pages.Copy(),
            _latest = _latest,
            _clock = _clock,
        };
        copy._over.AddRange(_over);
        copy._heard.AddRange(_heard);
        foreach (var (sensor, number) in _sensors)
        {
            copy._sensors[sensor] = number;
        }

        copy._scene = _scene;
        copy._pages.See(_scene);
        foreach (var occurrence in occurrences.Skip(next).Where(it => it.Happened.Middle <= _scene.Now))
        {
            copy.Take(occurrence);
        }

        copy.HearUntil(_scene.Now);
        return copy.Closed();
    }

    private IReadOnlyList<VesselLedger> Closed()
    {
        var (filter, pages, now) = (_filter.Copy(), _pages.Copy(), _scene.Now);
        if (_clock is { } clock && now > clock)
        {
            foreach (var page in pages.All)
            {
                page.Approach(filter, clock, now);
            }

            filter.Advance((now - clock).TotalDays);
        }

        return
        [
            .. _over
                .Select(ledger => ledger.Now == now ? ledger : ledger with { Now = now })
                .Concat(pages.All.Select(page => page.Close(filter, _scene.Band, now)))
                .OrderBy(ledger => ledger.Vessel.Value)
                .ThenBy(ledger => ledger.FillNumber),
        ];
    }

    private void Advance(Instant to)
    {
        if (_clock is { } clock && to > clock)
        {
            foreach (var page in _pages.All)
            {
                page.Approach(_filter, clock, to);
            }

            _filter.Advance((to - clock).TotalDays);
        }

        _clock = _clock is { } before && before > to ? before : to;
    }

    private void Take(Occurrence occurrence, Instant when)
    {
        switch (occurrence.Fact)
        {
            case VesselFilled filled:
                Fill(occurrence, filled, when);
                break;
            case VesselEmptied emptied:
                if (_pages.At(_filter, emptied.Vessel, when) is { } ending)
                {
                    ending.End(_filter, occurrence, when);
                }

                break;
            case WaterMoved moved:
                Move(occurrence, moved, when);
                break;
            case VesselSiphoned { Volume: { } volume } siphoned:
                Draw(occurrence, siphoned.Vessel, volume, when);
                break;
            case CultureHarvested { Volume: { } volume } harvested:
                Draw(occurrence, harvested.Vessel, volume, when);
                break;
            case VesselFed { Volume: { } volume } fed:
                Feed(occurrence, fed, volume, when);
                break;
            case CrossingMade crossing:
                Cross(occurrence, crossing, when);
                break;
            case ReadingTaken { Vessel: { } vessel } reading:
                Read(occurrence, reading, vessel, when);
                break;
            default:
                break;
        }
    }

    private void Fill(Occurrence occurrence, VesselFilled filled, Instant when)
    {
        if (
            filled.Volume.AsVolume() is not { Litres: > 0 } volume
            || _pages.KeyOf(filled.Vessel, occurrence) is not { } key
        )
        {
            return;
        }

        var source = filled.From is { } from && from != filled.Vessel ? _pages.At(_filter, from, when) : null;
        var sd =
            filled.VolumeErrorShare * volume.Litres
            ?? Math.Max(errors.PourLeastLitres, errors.FillShare * volume.Litres);
        var temperature = filled.Temperature.AsTemperature() ?? source?.Temperature ?? _pages.Assumed;
        if (source is not null)
        {
            // An almost empty start, so that what is poured in is believed jointly with its source.
            var page = _pages.Open(
                _filter,
                key,
                Volume.FromMillilitres(0.001),
                0,
                default,
                0,
                temperature,
                volume
            );
            _filter.Pour(source.Slot, page.Slot, volume, sd);
            source.Write(_filter, occurrence, when);
            page.Write(_filter, occurrence, when);
            return;
        }

        var salinity = Salinity(filled.Salinity, filled.Temperature.AsTemperature());
        if (salinity is null)
        {
            return;
        }

        _pages
            .Open(_filter, key, volume, sd, salinity.Value.Salinity, salinity.Value.Sd, temperature, volume)
            .Write(_filter, occurrence, when);
    }

    private void Move(Occurrence occurrence, WaterMoved moved, Instant when)
    {
        var from = moved.From is { } source ? _pages.At(_filter, source, when) : null;
        var to = moved.To is { } target && target != moved.From ? _pages.At(_filter, target, when) : null;
        if (moved.Volume.AsVolume() is { } volume)
        {
            var sd = moved.VolumeErrorShare * volume.Litres ?? PourSd(volume);
            if (from is not null && moved.Evaporated)
            {
                _filter.Evaporate(from.Slot, volume, sd);
            }
            else if (from is not null)
            {
                if (_filter.Pour(from.Slot, to?.Slot, volume, sd).CutShort)
                {
                    from.Remarks.Add(
                        new Remark("poured-more-than-it-held", new Argument("entry", occurrence.Id))
                    );
                }
            }
            else if (
                to is not null
                && Salinity(moved.Salinity, moved.Temperature.AsTemperature()) is { } salinity
            )
            {
                _filter.PourIn(to.Slot, volume, sd, salinity.Salinity, salinity.Sd);
            }
        }
        else if (moved.ToLine && to is { Vessel.Capacity: { Litres: > 0 } line })
        {
            FillToLine(to, from, line, moved);
        }

        if (to is not null && moved.Mix.AsMass() is { } mix)
        {
            _filter.Dissolve(
                to.Slot,
                mix,
                errors.WeighShare * mix.Grams,
                errors.MixMoisture,
                errors.MixMoistureSd
            );
        }

        from?.Write(_filter, occurrence, when);
        to?.Write(_filter, occurrence, when);
    }

    // Nobody measured what went in, but the level afterwards is known.
    private void FillToLine(LedgerPage to, LedgerPage? from, Volume line, WaterMoved moved)
    {
        var missing = Volume.FromLitres(Math.Max(0, line.Litres - _filter.ExpectVolume(to.Slot).Mean));
        var sd = Math.Max(0.25 * line.Litres, missing.Litres);
        if (from is not null)
        {
            _filter.Pour(from.Slot, to.Slot, missing, sd);
        }
        else if (Salinity(moved.Salinity, moved.Temperature.AsTemperature()) is { } salinity)
        {
            _filter.PourIn(to.Slot, missing, sd, salinity.Salinity, salinity.Sd);
        }

        _filter.ObserveVolume(to.Slot, line, errors.LineShare * line.Litres);
    }

    private void Draw(Occurrence occurrence, VesselId vessel, TypedNumber drawn, Instant when)
    {
        if (_pages.At(_filter, vessel, when) is { } page && drawn.AsVolume() is { } volume)
        {
            _filter.Pour(page.Slot, null, volume, PourSd(volume));
            page.Write(_filter, occurrence, when);
        }
    }

    private void Feed(Occurrence occurrence, VesselFed fed, TypedNumber given, Instant when)
    {
        if (given.AsVolume() is not { } volume || _pages.At(_filter, fed.Vessel, when) is not { } page)
        {
            return;
        }

        var source = fed.From is { } from && from != fed.Vessel ? _pages.At(_filter, from, when) : null;
        if (source is not null)
        {
            _filter.Pour(source.Slot, page.Slot, volume, PourSd(volume));
            source.Write(_filter, occurrence, when);
        }
        else if (fed.Salinity is not null && Salinity(fed.Salinity, null) is { } salinity)
        {
            _filter.PourIn(page.Slot, volume, PourSd(volume), salinity.Salinity, salinity.Sd);
        }
        else
        {
            // Green water is grown at the larvae's salinity: as salt as the vessel, more or less.
            var own = _filter.ExpectSalinity(page.Slot);
            _filter.PourIn(
                page.Slot,
                volume,
                PourSd(volume),
                Units.Salinity.FromPractical(Math.Max(0, own.Mean)),
                5
            );
        }

        page.Write(_filter, occurrence, when);
    }

    private void Cross(Occurrence occurrence, CrossingMade crossing, Instant when)
    {
        if (
            crossing.Source is { } from
            && from != crossing.To
            && _pages.At(_filter, from, when) is { } source
        )
        {
            foreach (var pour in crossing.Pours ?? [])
            {
                if (pour.Added.AsVolume() is { } added)
                {
                    _filter.Pour(source.Slot, null, added, PourSd(added));
                }
            }

            source.Write(_filter, occurrence, when);
        }

        if (_pages.At(_filter, crossing.To, when) is { } to && crossing.Entered.AsVolume() is { } entered)
        {
            var salinity = crossing.EnteredSalinity is { } typed ? Salinity(typed, null) : null;
            _filter.PourIn(
                to.Slot,
                entered,
                PourSd(entered),
                salinity?.Salinity
                    ?? Units.Salinity.FromPractical(Math.Max(0, _filter.ExpectSalinity(to.Slot).Mean)),
                Math.Max(1, salinity?.Sd ?? 5)
            );
            to.Write(_filter, occurrence, when);
        }
    }

    private void Read(Occurrence occurrence, ReadingTaken reading, VesselId vessel, Instant when)
    {
        var dimension = reading.Value.KnownUnit()?.Dimension;
        if (dimension is Dimension.Temperature && reading.Value.AsTemperature() is { } temperature)
        {
            if (_pages.At(_filter, vessel, when) is { } warm)
            {
                warm.Temperature = temperature;
                _filter.SetTemperature(warm.Slot, temperature);
            }

            return;
        }

        if (dimension is Dimension.Volume && reading.Value.AsVolume() is { } volume)
        {
            if (_pages.At(_filter, vessel, when) is { } measured)
            {
                var innovation = _filter.ObserveVolume(measured.Slot, volume, PourSd(volume));
                measured.Write(_filter, occurrence, when, innovation, ReadingFit.Fits);
            }

            return;
        }

        if (dimension is not Dimension.Salinity || _pages.At(_filter, vessel, when) is not { } page)
        {
            return;
        }

        if (_scene.Meaning.Of(reading, when) is { } seen)
        {
            page.Judge(_filter, errors, occurrence, when, seen);
        }
        else
        {
            page.Write(_filter, occurrence, when, null, ReadingFit.NoNumber);
        }
    }

    private SalinityRead? Salinity(TypedNumber? typed, Temperature? temperature) =>
        typed is null ? new SalinityRead(default, errors.FreshSd) : _scene.Meaning.Of(typed, temperature);

    private double PourSd(Volume volume) =>
        Math.Max(errors.PourLeastLitres, errors.PourShare * volume.Litres);
}
