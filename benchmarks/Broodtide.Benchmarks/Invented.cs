using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Storage.Sqlite;
using NodaTime;

namespace Broodtide.Benchmarks;

/// <summary>
/// An invented house of ten years: sixty vessels, thirty animals, two hundred broods, two thousand crossings, three stores that write. The
/// mix of kinds is a guess at what keepers write down, no measurement.
/// </summary>
internal static class Invented
{
    public const double CorrectedShare = 0.05;

    private const int Seed = 7;
    private static readonly Instant Start = Instant.FromUtc(2016, 1, 1, 0, 0);

    /// <summary>Makes a store of so many entries, put in in random order, unless it is there.</summary>
    public static async Task StoreAsync(string path, int count)
    {
        if (File.Exists(path + ".whole"))
        {
            return;
        }

        foreach (var file in Directory.GetFiles(Path.GetDirectoryName(path)!, Path.GetFileName(path) + "*"))
        {
            File.Delete(file);
        }

        var random = new Random(Seed);
        var ends = new Dictionary<ReplicaId, (long Sequence, Digest? Digest)>();
        var salt = new byte[EntryBytes.SaltLength];
        var entries = new List<Entry>(count);
        foreach (var (draft, replica) in Drafts(count))
        {
            random.NextBytes(salt);
            var (sequence, previous) = ends.GetValueOrDefault(replica);
            var entry = draft.Seal(replica, sequence + 1, previous, salt);
            ends[replica] = (sequence + 1, entry.Digest);
            entries.Add(entry);
        }

        var shuffled = entries.ToArray();
        random.Shuffle(shuffled);
        await using var journal = await SqliteJournal.OpenAsync(path, "benchmark");
        await journal.TakeAsync(shuffled);
        await File.WriteAllTextAsync(path + ".whole", "");
    }

    public static IEnumerable<(Draft Draft, ReplicaId Replica)> Drafts(int count)
    {
        var random = new Random(Seed);
        var vessels = Ids(random, 60, VesselId.From);
        var animals = Ids(random, 30, AnimalId.From);
        var broods = Ids(random, 200, BroodId.From);
        var instruments = Ids(random, 6, InstrumentId.From);
        var replicas = Ids(random, 3, ReplicaId.From);
        var written = new List<EntryId>();
        var step = Duration.FromDays(3652) / count;
        for (var i = 0; i < count; i++)
        {
            var fact =
                First(i, vessels, animals, instruments)
                ?? Later(random, vessels, animals, broods, instruments);
            Correction? correction =
                i > 500 && random.NextDouble() < CorrectedShare
                    ? new(
                        random.Next(5) == 0 ? CorrectionKind.Retracts : CorrectionKind.Replaces,
                        written[random.Next(written.Count)]
                    )
                    : null;
            if (correction is { Kind: CorrectionKind.Retracts })
            {
                fact = new EntryTakenBack();
            }

            var at = Start + (step * i);
            var id = new EntryId(NewGuid(random));
            written.Add(id);
            var earliest = at - Duration.FromMinutes(random.Next(4) == 0 ? random.Next(600) : 0);
            yield return (
                new Draft(
                    id,
                    new Author(random.Next(3) == 0 ? "Ben" : "Ada"),
                    at + Duration.FromSeconds(random.Next(3000)),
                    "Europe/Berlin",
                    Happened.Between(earliest, at),
                    fact,
                    correction
                ),
                replicas[random.Next(replicas.Length)]
            );
        }
    }

    private static Fact? First(int i, VesselId[] vessels, AnimalId[] animals, InstrumentId[] instruments) =>
        i < vessels.Length
            ? new VesselSetUp(vessels[i], $"jar {i}", VesselRole.LarvalVessel, TypedNumber.Of(3, "L"))
        : i < 2 * vessels.Length
            ? new VesselFilled(
                vessels[i - vessels.Length],
                new FillId(vessels[i - vessels.Length].Value),
                TypedNumber.Of(2.5, "L"),
                TypedNumber.Of(32, UnitCode.PracticalSalinity)
            )
        : i < (2 * vessels.Length) + animals.Length
            ? new AnimalAcquired(animals[i - (2 * vessels.Length)], $"shrimp {i}", Sex: Sex.Female)
        : i < (2 * vessels.Length) + animals.Length + instruments.Length
            ? new InstrumentDescribed(
                instruments[i - (2 * vessels.Length) - animals.Length],
                $"meter {i}",
                InstrumentKind.Refractometer,
                "sal:sg"
            )
        : null;

    private static Fact Later(
        Random random,
        VesselId[] vessels,
        AnimalId[] animals,
        BroodId[] broods,
        InstrumentId[] instruments
    )
    {
        var vessel = vessels[random.Next(vessels.Length)];
        var brood = random.Next(broods.Length);
        return random.Next(100) switch
        {
            < 30 => new ReadingTaken(
                Number(random, 25, 35, UnitCode.PracticalSalinity),
                vessel,
                instruments[random.Next(instruments.Length)],
                Number(random, 18, 27, "Cel")
            ),
            < 45 => new ReadingTaken(Number(random, 18, 27, "Cel"), vessel),
            < 60 => new VesselFed(vessel, FoodKind.GreenWater, Number(random, 1, 40, "mL")),
            < 72 => new WaterMoved(
                To: vessel,
                Volume: Number(random, 5, 200, "mL"),
                Salinity: TypedNumber.Of(0, UnitCode.PracticalSalinity)
            ),
            < 78 => new VesselSiphoned(vessel, Number(random, 10, 200, "mL"), random.Next(4)),
            < 84 => new EggsObserved(broods[brood], true, random.Next(2) == 0),
            < 88 => new AnimalMoved(animals[random.Next(animals.Length)], vessel),
            < 90 => new AnimalSeenBerried(animals[brood % animals.Length], broods[brood]),
            < 92 => new CrossingMade(
                new CohortId(NewGuid(random)),
                broods[brood],
                vessel,
                Number: random.Next(10, 900),
                Method: CountMethod.Beam
            ),
            < 97 => new NoteWritten("Quiet night, larvae at the lamp, a little film on the wall.", vessel),
            _ => new AnimalMoulted(animals[random.Next(animals.Length)]),
        };
    }

    private static TypedNumber Number(Random random, double low, double high, string unit)
    {
        var value = Math.Round(low + (random.NextDouble() * (high - low)), 1);
        return TypedNumber.Of(value, unit);
    }

    private static T[] Ids<T>(Random random, int count, Func<Guid, T> make) =>
        [.. Enumerable.Range(0, count).Select(_ => make(NewGuid(random)))];

    private static Guid NewGuid(Random random)
    {
        Span<byte> bytes = stackalloc byte[16];
        random.NextBytes(bytes);
        return new Guid(bytes);
    }
}
