using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation;
using Broodtide.Units;
using Broodtide.Workbench.Crossing;
using NodaTime;

namespace Broodtide.Workbench.WaterLedger;

/// <summary>What is being written about one fill while its group is told.</summary>
internal sealed partial class LedgerPage(Vessel vessel, int number, int slot, Temperature temperature)
{
    private static readonly Duration DrawnEvery = Duration.FromHours(6);
    private static readonly Duration DrawnAhead = Duration.FromDays(5);

    // In a filter of the one vessel, which suffices from its end on and to look ahead.
    private const int Alone = 0;

    private readonly List<LedgerRow> _rows = [];
    private readonly List<LedgerPoint> _track = [];
    private Doubtful? _doubtful;
    private WaterSaltFilter? _last;

    /// <summary>The vessel; told anew when more is known of it.</summary>
    public Vessel Vessel { get; set; } = vessel;

    public int Slot { get; } = slot;

    public Temperature Temperature { get; set; } = temperature;

    /// <summary>Whether the fill was emptied: its figures then stay what they were.</summary>
    public bool Ended => _last is not null;

    public List<Remark> Remarks { get; } = [];

    /// <summary>The same page, to be closed while this one is written on.</summary>
    public LedgerPage Copy()
    {
        var copy = new LedgerPage(Vessel, number, Slot, Temperature) { _doubtful = _doubtful, _last = _last };
        copy._rows.AddRange(_rows);
        copy._track.AddRange(_track);
        copy.Remarks.AddRange(Remarks);
        foreach (var (sensor, heard) in _sensors)
        {
            copy._sensors[sensor] = heard;
        }

        foreach (var (sensor, jumped) in _jumped)
        {
            copy._jumped[sensor] = jumped;
        }

        return copy;
    }

    /// <summary>Draws the way to the next occurrence, so that the picture shows what evaporation does.</summary>
    public void Approach(WaterSaltFilter filter, Instant from, Instant to)
    {
        if (Ended)
        {
            return;
        }

        var steps = (int)Math.Min(400, (to - from) / DrawnEvery);
        if (steps == 0)
        {
            Draw(from, filter, Slot);
        }
        else
        {
            Approach(filter.Only(Slot), from, to, steps);
        }
    }

    private void Approach(WaterSaltFilter alone, Instant from, Instant to, int steps)
    {
        Draw(from, alone, Alone);
        var step = (to - from) / steps;
        for (var i = 1; i <= steps; i++)
        {
            alone.Advance(step.TotalDays);
            Draw(i == steps ? to : from + (step * i), alone, Alone);
        }
    }

    /// <summary>The fill is emptied: what happens to the filter's slot from then on is nobody's water.</summary>
    public void End(WaterSaltFilter filter, Occurrence occurrence, Instant when)
    {
        Write(filter, occurrence, when);
        _last = filter.Only(Slot);
    }

    public void Write(
        WaterSaltFilter filter,
        Occurrence occurrence,
        Instant when,
        Innovation? innovation = null,
        ReadingFit? fit = null
    )
    {
        _rows.Add(
            new(
                when,
                occurrence,
                filter.ExpectVolume(Slot).Interval,
                filter.ExpectSalinity(Slot).Interval,
                innovation,
                fit
            )
        );
        if (!Ended)
        {
            Draw(when, filter, Slot);
        }
    }

    /// <summary>
    /// Takes a salinity reading in if it fits. One that does not is set aside until another tells which was wrong:
    /// the ledger, if the two readings agree, or the first reading, if the second agrees with the ledger.
    /// </summary>
    public void Judge(
        WaterSaltFilter filter,
        LedgerErrors errors,
        Occurrence occurrence,
        Instant when,
        SalinityRead seen
    )
    {
        // What a hand reads settles what a sensor left open.
        _jumped.Clear();
        var expected = filter.ExpectSalinity(Slot);
        var off = seen.Salinity.Practical - expected.Mean;
        var surprise = off / Math.Sqrt((expected.Sd * expected.Sd) + (seen.Sd * seen.Sd));
        if (Math.Abs(surprise) <= errors.MisfitSurprise)
        {
            Settle(ReadingFit.Overruled);
            Write(
                filter,
                occurrence,
                when,
                filter.ObserveSalinity(Slot, seen.Salinity, seen.Sd),
                ReadingFit.Fits
            );
            return;
        }

        if (
            _doubtful is { } first
            && Math.Abs(off - first.Off)
                <= errors.MisfitSurprise * Math.Sqrt((seen.Sd * seen.Sd) + (first.Sd * first.Sd))
        )
        {
            // Something happened to the water that nobody wrote down: how much of each, the readings tell.
            var share = Math.Max(0.05, Math.Abs(off) / Math.Max(1, expected.Mean));
            filter.Doubt(Slot, share, share);
            Settle(ReadingFit.Confirmed);
            var innovation = filter.ObserveSalinity(Slot, seen.Salinity, seen.Sd);
            Write(filter, occurrence, when, innovation, ReadingFit.Confirmed);
            Remarks.Add(
                new Remark(
                    "ledger-moved-by-two-readings",
                    new("entry", occurrence.Id),
                    new("fromPpt", innovation.Expected),
                    new("toPpt", filter.ExpectSalinity(Slot).Mean),
                    new("saltMovedGrams", innovation.SaltMovedGrams)
                )
            );
            return;
        }

        Settle(ReadingFit.Overruled);
        var aside = new Innovation(expected.Mean, expected.Sd, seen.Salinity.Practical, seen.Sd, 0, 0, 0);
        Write(filter, occurrence, when, aside, ReadingFit.DoesNotFit);
        _doubtful = new Doubtful(_rows.Count - 1, off, seen.Sd, surprise);
    }

    public VesselLedger Close(WaterSaltFilter running, Func<Vessel, SalinityBand?> band, Instant now)
    {
        var filter = _last ?? running.Only(Slot);
        var minded = Ended ? null : band(Vessel);
        LeavingBand? leaving = null;
        TopUp? topUp = null;
        if (_doubtful is { } doubt)
        {
            var row = _rows[doubt.Row];
            Remarks.Add(
                new Remark(
                    "second-reading-first",
                    new("entry", row.Occurrence.Id),
                    new("seenPpt", row.Innovation!.Value.Seen),
                    new("expectedPpt", row.Innovation.Value.Expected),
                    new("surprise", doubt.Surprise)
                )
            );
        }

        Remarks.AddRange(Jumps());
        if (minded is not null)
        {
            leaving = LookingAhead.Leaving(filter, Alone, minded, now);
            topUp = _doubtful is null ? LookingAhead.TopUp(filter, Alone, this, minded, leaving, now) : null;
            var salinity = filter.ExpectSalinity(Alone).Mean;
            if (salinity < minded.Lower.Practical)
            {
                Remarks.Add(
                    new Remark(
                        "below-its-band",
                        new("nowPpt", salinity),
                        new("lowerPpt", minded.Lower.Practical),
                        new("targetPpt", minded.Target.Practical)
                    )
                );
            }
        }

        if (!Ended)
        {
            Approach(filter.Copy(), now, now + DrawnAhead, (int)(DrawnAhead / DrawnEvery));
        }

        return new VesselLedger
        {
            Vessel = Vessel.Id,
            FillNumber = number,
            Now = now,
            Rows = _rows,
            Track = InOrder(_track),
            SalinityPpt = filter.ExpectSalinity(Alone).Interval,
            Litres = filter.ExpectVolume(Alone).Interval,
            EvaporationMillilitresPerDay = filter.ExpectEvaporation(Alone).Interval.Scaled(1000),
            SaltGrams = filter.ExpectSaltGrams(Alone).Interval,
            Temperature = Temperature,
            Ended = Ended,
            Leaving = leaving,
            TopUp = topUp,
            Remarks = Remarks,
            Sensors = [.. _sensors.Values.OrderBy(heard => heard.Sensor, StringComparer.Ordinal)],
        };
    }

    private void Settle(ReadingFit fit)
    {
        if (_doubtful is { } doubt)
        {
            _rows[doubt.Row] = _rows[doubt.Row] with { Fit = fit };
            _doubtful = null;
        }
    }

    // What happened some time in a night is placed in its middle, behind what is known to the minute and told later.
    private static List<LedgerPoint> InOrder(List<LedgerPoint> track)
    {
        for (var i = 1; i < track.Count; i++)
        {
            if (track[i].At < track[i - 1].At)
            {
                return [.. track.OrderBy(point => point.At)];
            }
        }

        return track;
    }

    private void Draw(Instant at, WaterSaltFilter filter, int slot) =>
        _track.Add(new(at, filter.ExpectSalinity(slot).Interval, filter.ExpectVolume(slot).Interval));

    private sealed record Doubtful(int Row, double Off, double Sd, double Surprise);
}
