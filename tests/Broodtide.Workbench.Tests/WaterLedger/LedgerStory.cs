using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Crossing;
using Broodtide.Workbench.Sensors;
using Broodtide.Workbench.WaterLedger;
using NodaTime;

namespace Broodtide.Workbench.Tests.WaterLedger;

/// <summary>Writes small journals about one or two jars and tells their ledgers.</summary>
internal sealed class LedgerStory
{
    public static readonly Instant Start = Instant.FromUtc(2026, 3, 1, 8, 0);
    public static readonly VesselId Jar = new(Guid.Parse("00000000-0000-7000-8000-000000000001"));
    public static readonly VesselId Can = new(Guid.Parse("00000000-0000-7000-8000-000000000002"));

    private readonly List<Entry> _entries = [];

    public LedgerStory Jars(double jarLitres = 8)
    {
        At(0, new VesselSetUp(Jar, "Jar A", VesselRole.LarvalVessel, TypedNumber.Of(jarLitres, "L")));
        return At(0, new VesselSetUp(Can, "Can", VesselRole.Store, TypedNumber.Of(10, "L")));
    }

    public LedgerStory Filled(double day, double litres, double ppt) =>
        At(
            day,
            new VesselFilled(
                Jar,
                new(Guid.Parse("00000000-0000-7000-8000-0000000000f1")),
                TypedNumber.Of(litres, "L"),
                TypedNumber.Of(ppt, UnitCode.PracticalSalinity)
            )
        );

    public LedgerStory Reads(double day, double ppt) =>
        At(day, new ReadingTaken(TypedNumber.Of(ppt, UnitCode.PracticalSalinity), Jar));

    public LedgerStory At(double day, Fact fact) => Between(day, day, fact);

    public LedgerStory Between(double first, double last, Fact fact)
    {
        var when = Start + Duration.FromDays(last);
        var happened = Happened.Between(Start + Duration.FromDays(first), when);
        var number = _entries.Count + 1;
        var id = new EntryId(new Guid(number, 0, 0x7000, 0x80, 0, 0, 0, 0, 0, 0, 1));
        var draft = new Draft(id, new Author("test"), when, "UTC", happened, fact);
        _entries.Add(
            draft.Seal(
                new ReplicaId(Guid.Parse("00000000-0000-7000-8000-00000000000a")),
                number,
                number == 1 ? null : _entries[^1].Digest,
                new byte[16]
            )
        );
        return this;
    }

    public VesselLedger Tell(
        double day,
        VesselId? vessel = null,
        LedgerErrors? errors = null,
        IReadOnlyList<WaterMean>? means = null
    ) => All(day, errors, means).Last(ledger => ledger.Vessel == (vessel ?? Jar));

    public IReadOnlyList<VesselLedger> All(
        double day,
        LedgerErrors? errors = null,
        IReadOnlyList<WaterMean>? means = null
    ) =>
        Ledger.Of(
            new House(Account.Of(_entries)),
            Meaning,
            of => of.Role is VesselRole.LarvalVessel ? SalinityBand.Larvae : null,
            Start + Duration.FromDays(day),
            errors,
            means
        );

    // Practical salinity as typed, known to four tenths: what an instrument does to it is tested elsewhere.
    private static WaterMeaning Meaning { get; } =
        new(
            (typed, _) => new SalinityRead(Salinity.FromPractical(typed.Value), 0.4),
            (reading, _) => new SalinityRead(Salinity.FromPractical(reading.Value.Value), 0.4)
        );
}
