using Broodtide.Domain;
using Broodtide.Domain.Journal;
using NodaTime;

namespace Broodtide.Workbench.WaterLedger;

/// <content>
/// Where an account stood some days ago, as bytes: one that is begun there comes to the same as one begun at the first fill. It knows
/// the fills that were over by then no more.
/// </content>
internal sealed partial class LedgerTelling
{
    /// <summary>What takes in fewer occurrences than this is told anew in less time than it takes to keep it: a guess.</summary>
    public const int WorthKeeping = 256;

    // What is written down within a week still comes after what is kept: practice, no source.
    private static readonly Duration Settled = Duration.FromDays(7);

    /// <summary>Where it stood, to be kept; none where that would spare little.</summary>
    public byte[]? Kept { get; private set; }

    /// <summary>How many occurrences <see cref="Kept"/> stands for; 0 where there is none.</summary>
    public int KeptAt { get; private set; }

    /// <summary>Whether <see cref="Kept"/> was written by this account, not read.</summary>
    public bool IsKeptAnew { get; private set; }

    /// <summary>Goes on from where an account stood; none if anything it rests on has become another since.</summary>
    public static LedgerTelling? From(
        byte[] kept,
        LedgerErrors errors,
        LedgerScene scene,
        IReadOnlyList<Occurrence> occurrences
    )
    {
        try
        {
            using var from = new BinaryReader(new MemoryStream(kept));
            var telling = new LedgerTelling(errors) { Kept = kept };
            return telling.Load(from, scene, occurrences) ? telling : null;
        }
        catch (Exception e)
            when (e is IOException or InvalidDataException or ArgumentException or OverflowException)
        {
            // Not what was put in: it is told anew.
            return null;
        }
    }

    // Before the first that is younger than a week, once in each going on.
    private bool KeepBefore(IReadOnlyList<Occurrence> occurrences, int next, LedgerScene scene)
    {
        var young = scene.Now - Settled;
        if (next < occurrences.Count && occurrences[next].Happened.Middle <= young)
        {
            return false;
        }

        if (
            next - KeptAt >= WorthKeeping
            && _latest <= young
            && (next == occurrences.Count || occurrences[next].Happened.Earliest >= _latest)
            && _pages.All.All(page => page.Remarks.TrueForAll(LedgerBytes.CanBeKept))
        )
        {
            (Kept, KeptAt, IsKeptAnew) = (LedgerBasis.Bytes(Save), next, true);
        }

        return true;
    }

    private void Save(BinaryWriter to)
    {
        to.Write(_told.Count);
        var mark = PrefixMark.Of(_told, _told.Count);
        to.Write(mark.First);
        to.Write(mark.Second);
        to.Put(_latest);
        to.Put(_clock ?? _latest);
        to.Put(LedgerBasis.OfVessels(_scene, _latest));
        to.Write(_instruments.Count);
        foreach (var id in _instruments.Keys)
        {
            to.Put(id.Value);
            to.Put(LedgerBasis.OfInstrument(_scene.House, id));
        }

        to.Write(_heard.Count);
        var heard = LedgerBasis.OfMeans(_heard, _heard.Count);
        to.Write(heard.First);
        to.Write(heard.Second);
        to.Write(_pages.Assumptions.Count);
        foreach (var (vessel, band) in _pages.Assumptions)
        {
            to.Put(vessel.Value);
            to.Put(LedgerBasis.OfBand(band));
        }

        to.Write(_sensors.Count);
        foreach (var (sensor, number) in _sensors)
        {
            to.Write(sensor);
            to.Write(number);
        }

        to.Put(_filter);
        _pages.Save(to, _told);
    }

    private bool Load(BinaryReader from, LedgerScene scene, IReadOnlyList<Occurrence> occurrences)
    {
        KeptAt = from.ReadInt32();
        if (
            KeptAt < 1
            || KeptAt > occurrences.Count
            || PrefixMark.Of(occurrences, KeptAt) != new PrefixMark(from.ReadUInt64(), from.ReadUInt64())
        )
        {
            return false;
        }

        (_latest, _clock) = (from.Instant(), from.Instant());
        if (
            scene.Now < _latest
            || (KeptAt < occurrences.Count && occurrences[KeptAt].Happened.Earliest < _latest)
            || !from.Bytes().AsSpan().SequenceEqual(LedgerBasis.OfVessels(scene, _latest))
        )
        {
            return false;
        }

        for (var left = from.Count(); left > 0; left--)
        {
            var id = new InstrumentId(from.Id());
            if (!from.Bytes().AsSpan().SequenceEqual(LedgerBasis.OfInstrument(scene.House, id)))
            {
                return false;
            }
        }

        _told.AddRange(occurrences.Take(KeptAt));
        return LoadHeard(from, scene) && LoadAssumed(from, scene) && LoadPages(from, scene);
    }

    private bool LoadHeard(BinaryReader from, LedgerScene scene)
    {
        var heard = from.ReadInt32();
        if (
            heard < 0
            || heard > scene.Means.Count
            || LedgerBasis.OfMeans(scene.Means, heard) != new PrefixMark(from.ReadUInt64(), from.ReadUInt64())
            || (heard < scene.Means.Count && scene.Means[heard].At < _latest)
        )
        {
            return false;
        }

        _heard.AddRange(scene.Means.Take(heard));
        return true;
    }

    private bool LoadAssumed(BinaryReader from, LedgerScene scene)
    {
        for (var left = from.Count(); left > 0; left--)
        {
            var vessel = new VesselId(from.Id());
            var band = scene.Band(scene.House.Vessel(vessel));
            if (!from.Bytes().AsSpan().SequenceEqual(LedgerBasis.OfBand(band)))
            {
                return false;
            }

            _pages.Assume(vessel, band);
        }

        return true;
    }

    private bool LoadPages(BinaryReader from, LedgerScene scene)
    {
        for (var left = from.Count(); left > 0; left--)
        {
            _sensors[from.ReadString()] = from.ReadInt32();
        }

        _filter = from.Filter();
        _pages.Load(from, _told, scene);
        foreach (var page in _pages.All)
        {
            // Throws where there is no such vessel in the filter.
            _ = _filter.ExpectVolume(page.Slot);
        }

        return from.BaseStream.Position == from.BaseStream.Length;
    }
}
