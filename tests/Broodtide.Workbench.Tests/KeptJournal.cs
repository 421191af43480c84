using System.Buffers.Binary;
using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using NodaTime;

namespace Broodtide.Workbench.Tests;

/// <summary>A journal of one invented keeper, written entry by entry with fixed identities.</summary>
internal sealed class KeptJournal
{
    private static readonly Author Keeper = new("keeper");
    private readonly List<Entry> _entries = [];
    private int _ids = 1000;

    public static DateTimeZone Zone { get; } = DateTimeZoneProviders.Tzdb["Europe/Zurich"];

    public IReadOnlyList<Entry> Entries => _entries;

    public static AnimalId Female => new(Fixed(1));

    public static BroodId Brood1 => new(Fixed(2));

    public static VesselId Tank => new(Fixed(3));

    public static VesselId Box => new(Fixed(4));

    public static VesselId Jar => new(Fixed(5));

    public static VesselId Culture => new(Fixed(6));

    public static InstrumentId Thermometer => new(Fixed(7));

    public static InstrumentId Refractometer => new(Fixed(8));

    public static CollectionId Collection1 => new(Fixed(9));

    public static CohortId Cohort1 => new(Fixed(10));

    public static RunId Run1 => new(Fixed(11));

    public static FillId Fill1 => new(Fixed(12));

    public static Guid Fixed(int number)
    {
        Span<byte> bytes = stackalloc byte[16];
        BinaryPrimitives.WriteInt32BigEndian(bytes[12..], number);
        bytes[0] = 1;
        bytes[6] = 0x70;
        bytes[8] = 0x80;
        return new Guid(bytes, bigEndian: true);
    }

    /// <summary>An instant of May or June 2026, by local time.</summary>
    public static Instant At(int month, int day, int hour = 12, int minute = 0) =>
        Zone.AtStrictly(new LocalDateTime(2026, month, day, hour, minute)).ToInstant();

    public KeptJournal Write(Instant when, Fact fact, Instant? written = null) =>
        Write(Happened.At(when), fact, written ?? when);

    public KeptJournal Write(Happened when, Fact fact, Instant written)
    {
        var draft = new Draft(new EntryId(Fixed(_ids++)), Keeper, written, Zone.Id, when, fact);
        _entries.Add(
            draft.Seal(
                new ReplicaId(Fixed(99)),
                _entries.Count + 1,
                _entries.Count == 0 ? null : _entries[^1].Digest,
                new byte[EntryBytes.SaltLength]
            )
        );
        return this;
    }

    public Account Account(Instant? asKnownAt = null) => Domain.Journal.Account.Of(_entries, asKnownAt);

    public House House() => new(Account());

    /// <summary>A female in a tank at 25.5 degC, seen empty on 30 April and berried on 2 May.</summary>
    public static KeptJournal WithBrood(double celsius = 25.5, int readingDays = 12)
    {
        var kept = new KeptJournal()
            .Write(At(4, 20), new VesselSetUp(Tank, "Tank", VesselRole.BroodTank))
            .Write(At(4, 20), new AnimalAcquired(Female, "F1", "Caridina multidentata", Sex.Female, Tank))
            .Write(At(4, 30, 20), new AnimalSeenEmpty(Female))
            .Write(At(5, 2, 8), new AnimalSeenBerried(Female, Brood1, "Brood 1"));
        for (var day = 0; day < readingDays; day++)
        {
            kept.Write(
                At(5, 2 + day, 9),
                new ReadingTaken(TypedNumber.Of(celsius, "Cel"), Tank, SampleTemperature: null)
            );
        }

        return kept;
    }
}
