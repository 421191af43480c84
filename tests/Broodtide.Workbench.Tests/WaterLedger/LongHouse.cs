using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Workbench.Tests.WaterLedger;

/// <summary>
/// Some 400 days of an invented house whose vessels are filled, emptied and pour into each other by chance; readings sometimes
/// miss by far.
/// </summary>
internal sealed class LongHouse
{
    public const int Days = 400;
    public static readonly Instant Start = Instant.FromUtc(2025, 1, 1, 8, 0);
    public static readonly Instant Now = Start + Duration.FromDays(Days);

    private readonly Random _random;
    private readonly ReplicaId _replica;
    private readonly VesselId _jar;
    private readonly VesselId _culture;
    private readonly VesselId _can;
    private readonly VesselId _tank;
    private readonly InstrumentId _refractometer;
    private readonly List<Entry> _entries = [];

    public LongHouse(int seed)
    {
        _random = new Random(seed);
        (_replica, _refractometer) = (new(Id()), new(Id()));
        (_jar, _culture, _can, _tank) = (new(Id()), new(Id()), new(Id()), new(Id()));
        Say(0, new VesselSetUp(_jar, "Jar", VesselRole.LarvalVessel, Litres(8)));
        Say(0, new VesselSetUp(_culture, "Green jar", VesselRole.AlgaeCulture, Litres(1.5)));
        Say(0, new VesselSetUp(_can, "Can", VesselRole.Store, Litres(10)));
        Say(0, new VesselSetUp(_tank, "Tank", VesselRole.BroodTank, Litres(40)));
        Say(
            0,
            new InstrumentDescribed(
                _refractometer,
                "Hand refractometer",
                InstrumentKind.Refractometer,
                "sal:brine-g/kg",
                Error: 0.4
            )
        );
        Say(0.1, new VesselFilled(_can, new(Id()), Litres(9), Practical(31)));
        // A tank whose filling nobody wrote down, and two jars.
        Say(0.2, new VesselFilled(_culture, new(Id()), Litres(1.4), Practical(30)));
        Say(0.3, new VesselFilled(_jar, new(Id()), Litres(7), From: _can));
        for (var day = 1; day < Days; day++)
        {
            Day(day);
        }
    }

    public IReadOnlyList<Entry> Entries => _entries;

    public InstrumentId Refractometer => _refractometer;

    public VesselId Jar => _jar;

    /// <summary>One entry more.</summary>
    /// <param name="day">When it happened, in days from the start.</param>
    /// <param name="fact">What.</param>
    /// <param name="correction">What it corrects.</param>
    /// <param name="doubtDays">How wide the doubt in its time is, in days.</param>
    public Entry Say(double day, Fact fact, Correction? correction = null, double doubtDays = 0)
    {
        var when = Start + Duration.FromDays(day);
        var entry = new Draft(
            new(Id()),
            new("Ada"),
            when + Duration.FromMinutes(1),
            "Europe/Berlin",
            Happened.Between(when - Duration.FromDays(doubtDays), when),
            fact,
            correction
        ).Seal(
            _replica,
            _entries.Count + 1,
            _entries.Count > 0 ? _entries[^1].Digest : null,
            new byte[EntryBytes.SaltLength]
        );
        _entries.Add(entry);
        return entry;
    }

    /// <summary>What happens on one more day.</summary>
    public void Day(int day)
    {
        Read(day, _jar);
        if (day % 3 == 0)
        {
            Read(day + 0.05, _culture);
            Say(day + 0.06, new ReadingTaken(TypedNumber.Of(20 + _random.Next(8), "Cel"), _tank));
            Say(day + 0.07, new WaterMoved(To: _tank, Volume: Litres(0.5)));
        }

        switch (_random.Next(12))
        {
            case 0:
                Say(day + 0.1, new VesselEmptied(_jar));
                Say(day + 0.2, new VesselFilled(_jar, new(Id()), Litres(7), From: _can));
                break;
            case 1:
                Say(day + 0.1, new VesselEmptied(_culture));
                Say(day + 0.11, new VesselFilled(_culture, new(Id()), Litres(1.4), Practical(30)));
                break;
            case 2 or 3:
                Say(day + 0.1, new WaterMoved(_can, _jar, Litres(0.3)));
                break;
            case 4:
                Say(day + 0.1, new WaterMoved(To: _can, ToLine: true, Salinity: Practical(31)));
                break;
            case 5:
                Say(day + 0.1, new VesselSiphoned(_jar, Litres(0.05)), doubtDays: 0.02);
                break;
            case 6:
                // More than it holds.
                Say(day + 0.1, new WaterMoved(_culture, Volume: Litres(3)));
                break;
            default:
                Say(
                    day + 0.1,
                    new VesselFed(
                        _jar,
                        FoodKind.GreenWater,
                        TypedNumber.Of(15, "mL"),
                        From: _random.Next(3) == 0 ? _culture : null
                    )
                );
                break;
        }
    }

    /// <summary>What a probe in the jar showed, four times a day, until an instant.</summary>
    public SensorsSeen Sensors(Instant until) =>
        new(
            until.ToUnixTimeMilliseconds(),
            [
                new(
                    "probe/salinity",
                    null,
                    UnitCode.PracticalSalinity,
                    _jar.Value,
                    true,
                    null,
                    null,
                    null,
                    null,
                    false,
                    [],
                    [],
                    [
                        .. Enumerable
                            .Range(0, 4 * Days * 2)
                            .Select(quarter => Start + Duration.FromHours(6 * quarter))
                            .TakeWhile(at => at < until)
                            .Select(
                                (at, number) =>
                                    new MeanSeen(
                                        at.ToUnixTimeMilliseconds(),
                                        31 + (number % 7 / 10.0),
                                        0.1,
                                        6,
                                        _jar.Value
                                    )
                            ),
                    ]
                ),
            ],
            [],
            null,
            false,
            new Dictionary<string, long>(StringComparer.Ordinal)
        );

    private void Read(double day, VesselId vessel) =>
        Say(
            day,
            new ReadingTaken(
                TypedNumber.Of(
                    _random.Next(15) == 0 ? 20 + _random.Next(20) : 31 + _random.Next(4),
                    "sal:brine-g/kg"
                ),
                vessel,
                _refractometer
            )
        );

    private Guid Id()
    {
        Span<byte> bytes = stackalloc byte[16];
        _random.NextBytes(bytes);
        return new Guid(bytes);
    }

    private static TypedNumber Litres(double litres) => TypedNumber.Of(litres, "L");

    private static TypedNumber Practical(double value) => TypedNumber.Of(value, UnitCode.PracticalSalinity);
}
