using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Workbench.Crossing;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Workbench.WaterLedger;

/// <summary>
/// What a ledger rests on up to an instant, beside what happened to its fills, as bytes to be compared: where any of it has become
/// another, they differ.
/// </summary>
internal static class LedgerBasis
{
    /// <summary>The vessels, and which of their fills stood when: a fill begun or ended later makes no difference.</summary>
    public static byte[] OfVessels(LedgerScene scene, Instant until) =>
        Bytes(to =>
        {
            foreach (
                var vessel in scene
                    .Fills.GroupBy(key => key.Vessel, key => key.Number)
                    .OrderBy(vessel => vessel.Key.Value)
            )
            {
                var view = scene.House.Vessel(vessel.Key);
                var begun = vessel
                    .Order()
                    .Where(number => view.Fills[number].Began is not { } began || began.Middle <= until)
                    .ToList();
                if (begun.Count == 0)
                {
                    continue;
                }

                to.Put(vessel.Key.Value);
                to.Write((int?)view.Role ?? -1);
                to.Write(view.Capacity?.Litres ?? double.NaN);
                foreach (var number in begun)
                {
                    to.Write(number);
                    Put(to, view.Fills[number].Began);
                    Put(to, view.Fills[number].Ended is { } ended && ended.Middle <= until ? ended : null);
                }
            }
        });

    /// <summary>What was said of an instrument: its descriptions and checks.</summary>
    public static byte[] OfInstrument(House house, InstrumentId id) =>
        Bytes(to =>
        {
            foreach (var told in house.Account.About(Subject.Of(id)))
            {
                if (told.Fact is InstrumentDescribed or InstrumentCalibrated)
                {
                    to.Write(told.Told.Digest.ToBytes());
                }
            }
        });

    /// <summary>What sensors showed, the first so many.</summary>
    public static PrefixMark OfMeans(IReadOnlyList<WaterMean> means, int count) =>
        PrefixMark.Of(
            Bytes(to =>
            {
                foreach (var mean in means.Take(count))
                {
                    to.Write(mean.Sensor);
                    to.Put(mean.Vessel.Value);
                    to.Put(mean.At);
                    to.Write(mean.Value);
                    to.Write(mean.Spread);
                    to.Write(mean.Unit);
                }
            })
        );

    /// <summary>A band, or that there is none.</summary>
    public static byte[] OfBand(SalinityBand? band) =>
        band is null
            ? []
            : Bytes(to =>
            {
                to.Write(band.Lower.Practical);
                to.Write(band.Target.Practical);
                to.Write(band.Upper.Practical);
            });

    public static byte[] Bytes(Action<BinaryWriter> write)
    {
        using var stream = new MemoryStream();
        using (var to = new BinaryWriter(stream))
        {
            write(to);
        }

        return stream.ToArray();
    }

    private static void Put(BinaryWriter to, Happened? happened)
    {
        to.Write(happened is not null);
        if (happened is { } known)
        {
            to.Put(known.Earliest);
            to.Put(known.Latest);
        }
    }
}
