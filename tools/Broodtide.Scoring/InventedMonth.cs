using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using NodaTime;

namespace Broodtide.Scoring;

/// <summary>The truth of one hour of an invented month.</summary>
public readonly record struct HourOfTruth(
    double Day,
    double UnionisedAmmonia,
    double Oxygen,
    double Nitrite,
    double Ph
);

/// <summary>An invented month: what its keeper wrote, as entries of a journal, and the truth.</summary>
public sealed class InventedMonth
{
    private static readonly Instant Start = Instant.FromUtc(2026, 3, 1, 0, 0);
    private readonly List<(Instant At, Entry Entry)> _entries = [];
    private ulong _identities;
    private long _sequence;
    private Digest? _previous;

    private InventedMonth(string folder, Func<Fact, Fact?> plant)
    {
        Habit = File.Exists(Path.Combine(folder, "habit.txt"))
            ? File.ReadAllText(Path.Combine(folder, "habit.txt")).Trim()
            : "";
        Truth = [.. Truths(Path.Combine(folder, "truth.csv"))];
        Vessel = new(Identity());
        Write(0, new VesselSetUp(Vessel, "jar", VesselRole.LarvalVessel));
        foreach (var note in Notes(Path.Combine(folder, "events.csv")))
        {
            foreach (var fact in Facts(note))
            {
                if (plant(fact) is { } planted)
                {
                    Write(note.Day, planted);
                }
            }
        }
    }

    public string Habit { get; }

    public VesselId Vessel { get; }

    /// <summary>The entries in the order of writing.</summary>
    public IReadOnlyList<(Instant At, Entry Entry)> Entries => _entries;

    /// <summary>Hour by hour, the first at the end of the first hour.</summary>
    public IReadOnlyList<HourOfTruth> Truth { get; }

    public static Instant At(double day) => Start + Duration.FromHours(24 * day);

    /// <param name="folder">Holds events.csv and truth.csv.</param>
    /// <param name="plant">What the journal says in place of a fact; nothing to leave it out.</param>
    /// <exception cref="FileTroubleException">A file is missing or cannot be read.</exception>
    public static InventedMonth Read(string folder, Func<Fact, Fact?> plant) => new(folder, plant);

    private static IEnumerable<HourOfTruth> Truths(string file)
    {
        var table = Table.Read(file, "t_days", "nh3_n", "oxygen", "nitrite", "ph");
        return table.Rows.Select(row => new HourOfTruth(
            Number(table, row, 0),
            Number(table, row, 1),
            Number(table, row, 2),
            Number(table, row, 3),
            Number(table, row, 4)
        ));
    }

    private static IEnumerable<(double Day, string Kind, double? X, double? Y)> Notes(string file)
    {
        var table = Table.Read(file, "t_days", "kind", "x", "y");
        return table.Rows.Select(row =>
            (
                Number(table, row, 0),
                table.Text(row, 1),
                Table.Number(table.Text(row, 2)),
                Table.Number(table.Text(row, 3))
            )
        );
    }

    private static double Number(Table table, (int Line, string[] Fields) row, int column) =>
        Table.Number(table.Text(row, column))
        ?? throw table.Trouble(row, $"'{table.Text(row, column)}' is not a number.");

    private IEnumerable<Fact> Facts((double Day, string Kind, double? X, double? Y) note)
    {
        var (x, y) = (note.X ?? 0, note.Y ?? 0);
        return note.Kind switch
        {
            "filled" =>
            [
                new VesselFilled(
                    Vessel,
                    new FillId(Identity()),
                    Typed(x, "L"),
                    Typed(y, "sal:practical"),
                    Typed(24, "Cel")
                ),
            ],
            "light" => [new LightChanged(Vessel, y > 0, x, Typed(y, "umol/m2/s"))],
            "air on" => [new AirChanged(Vessel, On: true)],
            "air off" => [new AirChanged(Vessel, On: false)],
            "filter" => [new FilterChanged(Vessel, On: true, "an old sponge")],
            "larvae" =>
            [
                new CrossingMade(
                    new CohortId(Identity()),
                    new BroodId(Identity()),
                    Vessel,
                    Number: (int)x,
                    Method: CountMethod.Full
                ),
            ],
            "temperature" => [Reading(x, "Cel")],
            "salinity" => [Reading(x, "sal:practical")],
            "tan" => [Reading(x, "mg/L{TAN-N}")],
            "nitrite" => [Reading(x, "mg/L{NO2-N}")],
            "ph" => [Reading(x, "[pH]")],
            "oxygen" => [Reading(x, "mg/L{O2}")],
            "colour" => [new VesselLookedAt(Vessel, Colour((int)x))],
            "algae" =>
            [
                new WaterMoved(From: Vessel, Volume: Typed(x, "mL")),
                new VesselFed(
                    Vessel,
                    FoodKind.GreenWater,
                    Volume: Typed(x, "mL"),
                    Density: Typed(y, "{cells}/mL")
                ),
            ],
            "yeast" => [new VesselFed(Vessel, FoodKind.Yeast, Mass: Typed(x, "mg"))],
            "powder" => [new VesselFed(Vessel, FoodKind.Powder, Mass: Typed(x, "mg"))],
            "changed" =>
            [
                new WaterMoved(From: Vessel, Volume: Typed(x, "L")),
                new WaterMoved(To: Vessel, Volume: Typed(x, "L"), Salinity: Typed(y, "sal:practical")),
            ],
            "topped up" =>
            [
                new WaterMoved(To: Vessel, Volume: Typed(x, "L"), Salinity: Typed(0, "sal:practical")),
            ],
            _ => throw new FileTroubleException($"{note.Kind}: no kind of note."),
        };
    }

    private static WaterLook Colour(int step) =>
        step switch
        {
            0 => WaterLook.Clear,
            1 => WaterLook.Tinted,
            2 => WaterLook.Green,
            _ => WaterLook.DeepGreen,
        };

    private ReadingTaken Reading(double value, string unit) => new(Typed(value, unit), Vessel);

    private static TypedNumber Typed(double value, string unit) => TypedNumber.Of(value, unit);

    private void Write(double day, Fact fact)
    {
        var at = At(day);
        var draft = new Draft(
            new EntryId(Identity()),
            new Author("invented", null),
            at,
            "UTC",
            Happened.At(at),
            fact
        );
        Span<byte> salt = stackalloc byte[16];
        var entry = draft.Seal(Replica, ++_sequence, _previous, salt);
        _previous = entry.Digest;
        _entries.Add((at, entry));
    }

    private static ReplicaId Replica { get; } = new(new Guid("0195557c-0000-7000-8000-00000000aaaa"));

    private Guid Identity() =>
        new(
            0x0195557c,
            0,
            0x7000,
            0x80,
            0,
            0,
            0,
            (byte)(++_identities >> 24),
            (byte)(_identities >> 16),
            (byte)(_identities >> 8),
            (byte)_identities
        );
}
