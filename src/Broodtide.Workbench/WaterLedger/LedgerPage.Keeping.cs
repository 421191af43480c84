using Broodtide.Domain.Journal;
using Broodtide.Science.Estimation;

namespace Broodtide.Workbench.WaterLedger;

/// <content>A page as bytes.</content>
internal sealed partial class LedgerPage
{
    /// <summary>Writes down what stands on it.</summary>
    public void Save(BinaryWriter to, List<Occurrence> told)
    {
        to.Write(_rows.Count);
        foreach (var row in _rows)
        {
            to.Put(row.When);
            to.Write(told.BinarySearch(row.Occurrence, OrderOfTelling.Instance));
            to.Put(row.Litres);
            to.Put(row.SalinityPpt);
            to.Write((sbyte)(row.Fit is { } fit ? (int)fit : -1));
            to.Write(row.Innovation is not null);
            if (row.Innovation is { } innovation)
            {
                Save(to, innovation);
            }
        }

        to.Write(_track.Count);
        foreach (var point in _track)
        {
            to.Put(point.At);
            to.Put(point.SalinityPpt);
            to.Put(point.Litres);
        }

        to.Write(Remarks.Count);
        foreach (var remark in Remarks)
        {
            to.Put(remark);
        }

        to.Write(_doubtful is not null);
        if (_doubtful is { } doubt)
        {
            to.Write(doubt.Row);
            to.Write(doubt.Off);
            to.Write(doubt.Sd);
            to.Write(doubt.Surprise);
        }

        to.Write(_last is not null);
        if (_last is not null)
        {
            to.Put(_last);
        }

        SaveSensors(to);
    }

    /// <summary>Takes what stood on it.</summary>
    /// <exception cref="IOException">It is cut short.</exception>
    /// <exception cref="InvalidDataException">More is announced than follows, or a doubt without its reading.</exception>
    /// <exception cref="ArgumentException">A number cannot be.</exception>
    public void Load(BinaryReader from, List<Occurrence> told)
    {
        for (var left = from.Count(); left > 0; left--)
        {
            var (when, occurrence) = (from.Instant(), told[from.ReadInt32()]);
            var (litres, salinity, fit) = (from.Interval(), from.Interval(), from.ReadSByte());
            Innovation? innovation = from.ReadBoolean() ? Innovation(from) : null;
            _rows.Add(new(when, occurrence, litres, salinity, innovation, fit < 0 ? null : (ReadingFit)fit));
        }

        for (var left = from.Count(); left > 0; left--)
        {
            _track.Add(new(from.Instant(), from.Interval(), from.Interval()));
        }

        for (var left = from.Count(); left > 0; left--)
        {
            Remarks.Add(from.Remark());
        }

        if (from.ReadBoolean())
        {
            _doubtful = new(from.ReadInt32(), from.ReadDouble(), from.ReadDouble(), from.ReadDouble());
            // Throws where there is no such row.
            _ = _rows[_doubtful.Row].Innovation ?? throw new InvalidDataException("It doubts no reading.");
        }

        _last = from.ReadBoolean() ? from.Filter() : null;
        LoadSensors(from);
    }

    private void SaveSensors(BinaryWriter to)
    {
        to.Write(_sensors.Count);
        foreach (var (name, heard) in _sensors)
        {
            to.Write(name);
            to.Write(heard.Count);
            to.Put(heard.Last);
            to.Put(heard.OffPpt);
        }

        to.Write(_jumped.Count);
        foreach (var (name, (at, off)) in _jumped)
        {
            to.Write(name);
            to.Put(at);
            to.Write(off);
        }
    }

    private void LoadSensors(BinaryReader from)
    {
        for (var left = from.Count(); left > 0; left--)
        {
            var name = from.ReadString();
            _sensors[name] = new(name, from.ReadInt32(), from.Instant(), from.Interval());
        }

        for (var left = from.Count(); left > 0; left--)
        {
            _jumped[from.ReadString()] = (from.Instant(), from.ReadDouble());
        }
    }

    private static void Save(BinaryWriter to, Innovation innovation)
    {
        to.Write(innovation.Expected);
        to.Write(innovation.ExpectedSd);
        to.Write(innovation.Seen);
        to.Write(innovation.SeenSd);
        to.Write(innovation.SaltMovedGrams);
        to.Write(innovation.SaltMovedInAllGrams);
        to.Write(innovation.WaterMovedKg);
    }

    private static Innovation Innovation(BinaryReader from) =>
        new(
            from.ReadDouble(),
            from.ReadDouble(),
            from.ReadDouble(),
            from.ReadDouble(),
            from.ReadDouble(),
            from.ReadDouble(),
            from.ReadDouble()
        );
}
