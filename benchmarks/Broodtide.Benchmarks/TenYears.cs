using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using NodaTime;

namespace Broodtide.Benchmarks;

/// <summary>
/// An invented house that was kept for ten years and is kept still: a run every four weeks, each with its eggs watched,
/// its larvae crossed, read, fed and counted until they are returned; the tanks and cultures beside them. The latest
/// runs are under way. What is written how often is a guess at a diligent keeper, no measurement.
/// </summary>
internal sealed class TenYears
{
    private const int Seed = 11;
    private const int DaysOfTenYears = 3652;
    private const int EntriesOfTenYears = 50_000;
    private const int DaysBetweenRuns = 28;
    private const int DaysCarried = 26;
    private const int DaysInTheSea = 45;
    private const string Species = "Caridina multidentata";

    private readonly Random _random = new(Seed);
    private readonly List<(Instant When, Fact Fact)> _told = [];
    private readonly int _days;
    private readonly Instant _start;
    private readonly Instant _now;
    private readonly VesselId _tank;
    private readonly VesselId _box;
    private readonly VesselId _can;
    private readonly VesselId[] _jars;
    private readonly VesselId[] _cultures;
    private readonly InstrumentId _refractometer;
    private readonly InstrumentId _thermometer;

    private TenYears(int days, Instant now)
    {
        _days = days;
        _now = now;
        _start = now - Duration.FromDays(days);
        (_tank, _box, _can) = (new(Id()), new(Id()), new(Id()));
        _jars = [new(Id()), new(Id()), new(Id())];
        _cultures = [new(Id()), new(Id())];
        (_refractometer, _thermometer) = (new(Id()), new(Id()));
    }

    /// <summary>Its entries, as three phones wrote them, in the order of writing.</summary>
    /// <param name="count">How many; what the house does not write is filled up with notes.</param>
    /// <param name="now">The instant it has come to.</param>
    public static IReadOnlyList<Entry> Entries(int count, Instant now) =>
        new TenYears(Math.Max(120, DaysOfTenYears * count / EntriesOfTenYears), now).Tell(count);

    private List<Entry> Tell(int count)
    {
        SetUp();
        Keep();
        for (var run = 0; run * DaysBetweenRuns < _days; run++)
        {
            Run(run);
        }

        _told.RemoveAll(told => told.When > _now);
        while (_told.Count < count)
        {
            Say(
                _random.Next(_days),
                21,
                new NoteWritten("Quiet night, a little film on the wall.", _jars[_random.Next(3)])
            );
            _told.RemoveAll(told => told.When > _now);
        }

        return Sealed([.. _told.OrderBy(told => told.When).Take(count)]);
    }

    private void SetUp()
    {
        Say(0, 8, new VesselSetUp(_tank, "River tank", VesselRole.BroodTank, Litres(54), Species));
        Say(0, 8, new VesselFilled(_tank, new(Id()), Litres(50), null, Celsius(24)));
        Say(0, 8, new VesselSetUp(_box, "Hatching box", VesselRole.HatchingBox, Litres(2), Species));
        Say(0, 8, new VesselSetUp(_can, "Sea can", VesselRole.Store, Litres(10)));
        for (var jar = 0; jar < _jars.Length; jar++)
        {
            Say(
                0,
                8,
                new VesselSetUp(_jars[jar], $"Jar {jar + 1}", VesselRole.LarvalVessel, Litres(8), Species)
            );
        }

        for (var culture = 0; culture < _cultures.Length; culture++)
        {
            Say(
                0,
                8,
                new VesselSetUp(
                    _cultures[culture],
                    $"Green jar {culture + 1}",
                    VesselRole.AlgaeCulture,
                    Litres(1.5)
                )
            );
        }

        Say(
            0,
            8,
            new InstrumentDescribed(
                _refractometer,
                "Hand refractometer",
                InstrumentKind.Refractometer,
                "sal:brine-g/kg",
                Compensated: true,
                Resolution: 0.5,
                Error: 0.4,
                ZeroedWithWater: true
            )
        );
        Say(
            0,
            8,
            new InstrumentDescribed(
                _thermometer,
                "Thermometer",
                InstrumentKind.Thermometer,
                "Cel",
                Error: 0.3
            )
        );
    }

    // What stands in the house beside the runs.
    private void Keep()
    {
        for (var day = 1; day < _days; day++)
        {
            Say(day, 8, new ReadingTaken(Celsius(Near(24, 1)), _tank, _thermometer));
            if (day % 7 == 3)
            {
                Say(day, 18, new WaterMoved(To: _tank, ToLine: true));
            }

            foreach (var culture in _cultures)
            {
                if (day % 21 == 5)
                {
                    if (day > 5)
                    {
                        Say(day, 17, new VesselEmptied(culture));
                    }

                    Say(
                        day,
                        18,
                        new VesselFilled(culture, new(Id()), Litres(1.5), Practical(30), Celsius(23))
                    );
                }
                else if (day % 7 == 5)
                {
                    Say(day, 18, new WaterMoved(To: culture, ToLine: true));
                }
            }

            if (day % 30 == 9)
            {
                if (day > 9)
                {
                    Say(day, 16, new VesselEmptied(_can));
                }

                Say(day, 17, new VesselFilled(_can, new(Id()), Litres(9.5), Practical(31), Celsius(22)));
                Say(
                    day,
                    15,
                    new InstrumentCalibrated(
                        _refractometer,
                        TypedNumber.Of(35, "sal:brine-g/kg"),
                        TypedNumber.Of(36, "sal:brine-g/kg"),
                        Celsius(22),
                        Adjusted: true,
                        SodiumChloride: true
                    )
                );
            }
        }
    }

    private void Run(int number)
    {
        var first = number * DaysBetweenRuns;
        var (female, brood, run, jar) = (
            new AnimalId(Id()),
            new BroodId(Id()),
            new RunId(Id()),
            _jars[number % _jars.Length]
        );
        var name = $"Brood {number + 1}";
        Say(first, 9, new AnimalAcquired(female, $"Shrimp {number + 1}", Species, Sex.Female, _tank));
        Say(first, 20, new AnimalSeenEmpty(female));
        Say(first + 1, 8, new AnimalSeenBerried(female, brood, name));
        Say(first + 1, 9, new RunStarted(run, brood, name, Species));
        foreach (
            var (day, colour) in new[]
            {
                (9, EggColour.Dark),
                (15, EggColour.Dark),
                (20, EggColour.Lighter),
                (24, EggColour.Pale),
            }
        )
        {
            Say(first + day, 22, new EggsObserved(brood, Carried: true, Eyed: day > 10, Colour: colour));
        }

        Say(first + 24, 22, new AnimalIsolated(female, _box, brood));
        Say(
            first + DaysCarried - 1,
            19,
            new VesselFilled(jar, new(Id()), Litres(7.2), null, Celsius(24), _can)
        );
        var crossed = Cross(first + DaysCarried, brood, jar);
        Say(first + DaysCarried + 3, 20, new AnimalReturned(female, _tank));
        Raise(first + DaysCarried + 1, jar, crossed);
        var end = first + DaysCarried + DaysInTheSea;
        Say(end - 3, 22, new SettlementSeen(jar, 12));
        Say(end, 18, new JuvenilesReturned(jar, _tank, 30));
        Say(end, 19, new VesselEmptied(jar));
        Say(end, 20, new VesselDisinfected(jar, "household bleach, rinsed and dried"));
        Say(end, 21, new RunEnded(run, RunEnd.Home));
        Say(end + 200, 21, new AnimalDied(female));
    }

    private int Cross(int day, BroodId brood, VesselId jar)
    {
        Say(day, 6, new HatchingSeen(brood, _box));
        var crossed = 0;
        for (var night = 0; night < 3; night++)
        {
            var (collection, larvae) = (new CollectionId(Id()), _random.Next(60, 200));
            Say(
                day + night,
                7,
                new CollectionMade(collection, brood, _box, Number: larvae, Method: CountMethod.Full)
            );
            Say(
                day + night,
                7.4,
                new CrossingMade(
                    new(Id()),
                    brood,
                    jar,
                    [collection],
                    larvae,
                    CountMethod.Full,
                    Entered: TypedNumber.Of(150, "mL"),
                    EnteredSalinity: Practical(27),
                    BrackishMinutes: TypedNumber.Of(4, "min")
                )
            );
            crossed += larvae;
        }

        Say(day + 3, 19, new HatchingSeen(brood, _box, Over: true));
        return crossed;
    }

    // Fresh water is lost to the air and poured in again every other day; salt stays.
    private void Raise(int first, VesselId jar, int crossed)
    {
        var (litres, salt) = (7.6, 7.6 * 31);
        for (var day = 0; day < DaysInTheSea - 1; day++)
        {
            litres -= 0.11;
            Read(first + day, 7.8, jar, salt / litres);
            Say(first + day, 8, new ReadingTaken(Celsius(Near(24.5, 0.6)), jar, _thermometer));
            Feed(first + day, 9, jar, day);
            Feed(first + day, 20.5, jar, day + 1);
            Read(first + day, 21, jar, salt / litres);
            if (day % 2 == 1)
            {
                litres += 0.22;
                Say(first + day, 19, new WaterMoved(To: jar, Volume: TypedNumber.Of(220, "mL")));
                Say(first + day, 18, new VesselSiphoned(jar, TypedNumber.Of(20, "mL"), _random.Next(3)));
            }

            var alive = crossed * Math.Exp(-0.03 * day);
            if (day % 7 == 4)
            {
                Say(first + day, 22, Count(jar, alive));
                Say(first + day, 22.3, Stages(jar, day));
                Say(first + day, 22.6, new DeadRemoved(jar, _random.Next(5)));
            }

            if (day % 5 == 2)
            {
                Say(
                    first + day,
                    22.8,
                    new NoteWritten("Larvae at the lamp, a little film on the wall.", jar)
                );
            }
        }
    }

    private void Read(int day, double hour, VesselId jar, double ppt) =>
        Say(
            day,
            hour,
            new ReadingTaken(
                TypedNumber.Of(Math.Round(2 * Near(ppt + 1.5, 0.3)) / 2, "sal:brine-g/kg"),
                jar,
                _refractometer,
                Celsius(24)
            )
        );

    private void Feed(int day, double hour, VesselId jar, int turn) =>
        Say(
            day,
            hour,
            new VesselFed(
                jar,
                FoodKind.GreenWater,
                TypedNumber.Of(15, "mL"),
                From: _cultures[turn % _cultures.Length]
            )
        );

    private CountMade Count(VesselId jar, double alive) =>
        new(
            jar,
            CountMethod.Aliquot,
            [
                .. Enumerable
                    .Range(0, 4)
                    .Select(_ => new Aliquot(
                        Math.Max(0, (int)(Near(alive, alive * 0.2) / 30)),
                        TypedNumber.Of(250, "mL")
                    )),
            ]
        );

    private static StageSampleTaken Stages(VesselId jar, int day)
    {
        var stage = Math.Clamp(1 + (day / 5), 1, 8);
        return new(jar, [new StageTally($"Z{stage}", 4), new StageTally($"Z{stage + 1}", 6)]);
    }

    private void Say(int day, double hour, Fact fact) =>
        _told.Add(
            (
                _start
                    + Duration.FromDays(day)
                    + Duration.FromHours(hour - 12)
                    + Duration.FromSeconds(_random.Next(900)),
                fact
            )
        );

    private List<Entry> Sealed(IReadOnlyList<(Instant When, Fact Fact)> told)
    {
        var replicas = new[] { new ReplicaId(Id()), new ReplicaId(Id()), new ReplicaId(Id()) };
        var ends = new Dictionary<ReplicaId, Entry>();
        var salt = new byte[EntryBytes.SaltLength];
        var entries = new List<Entry>(told.Count);
        foreach (var (when, fact) in told)
        {
            var replica = replicas[_random.Next(replicas.Length)];
            var last = ends.GetValueOrDefault(replica);
            _random.NextBytes(salt);
            var draft = new Draft(
                new(Id()),
                new Author(_random.Next(3) == 0 ? "Ben" : "Ada"),
                when,
                "Europe/Berlin",
                Happened.At(when),
                fact
            );
            var entry = draft.Seal(replica, (last?.Envelope.Sequence ?? 0) + 1, last?.Digest, salt);
            ends[replica] = entry;
            entries.Add(entry);
        }

        return entries;
    }

    private double Near(double middle, double by) => middle + ((_random.NextDouble() - 0.5) * 2 * by);

    private static TypedNumber Litres(double value) => TypedNumber.Of(value, "L");

    private static TypedNumber Celsius(double value) => TypedNumber.Of(Math.Round(value, 1), "Cel");

    private static TypedNumber Practical(double value) =>
        TypedNumber.Of(value, Domain.Journal.UnitCode.PracticalSalinity);

    private Guid Id()
    {
        Span<byte> bytes = stackalloc byte[16];
        _random.NextBytes(bytes);
        return new Guid(bytes);
    }
}
