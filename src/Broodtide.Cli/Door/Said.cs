using System.CommandLine;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Mixing;
using Broodtide.Workbench.Recording;

namespace Broodtide.Cli.Door;

/// <summary>
/// Turns the texts of a call into what they stand for. What is wrong is gathered, so that all of it is told at once;
/// until then a place holder stands for what could not be read.
/// </summary>
internal sealed class Said(Sitting sitting, House house)
{
    private readonly List<Remark> _wrong = [];

    public IReadOnlyList<Remark> Wrong => _wrong;

    public Sitting Sitting => sitting;

    public House House => house;

    public Naming Naming { get; } = new(house);

    private ParseResult Parse => sitting.Parse;

    public bool Flag(Slot slot) => slot.Text(Parse) is not null;

    public string? Text(Slot slot) => slot.Text(Parse);

    public string TheText(Slot slot) => slot.Text(Parse) ?? "";

    /// <summary>A name to call something by.</summary>
    public string TheName(Slot slot)
    {
        var name = TheText(slot).Trim();
        if (name.Length == 0)
        {
            Add(new Remark("name-empty", new Argument("field", slot.Name)));
        }

        return name;
    }

    public IReadOnlyList<string> Texts(Slot slot) => slot.Texts(Parse);

    public VesselId? Vessel(Slot slot) => Named(slot, Naming.Vessel);

    public VesselId TheVessel(Slot slot) => Vessel(slot) ?? default;

    public AnimalId? Animal(Slot slot) => Named(slot, Naming.Animal);

    public AnimalId TheAnimal(Slot slot) => Animal(slot) ?? default;

    public BroodId? Brood(Slot slot) => Named(slot, Naming.Brood);

    public BroodId TheBrood(Slot slot) => Brood(slot) ?? default;

    public RunId? Run(Slot slot) => Named(slot, Naming.Run);

    public RunId TheRun(Slot slot) => Run(slot) ?? default;

    public InstrumentId? Instrument(Slot slot) => Named(slot, Naming.Instrument);

    public InstrumentId TheInstrument(Slot slot) => Instrument(slot) ?? default;

    public CohortId? Cohort(Slot slot) => Named(slot, Naming.Cohort);

    public CohortId TheCohort(Slot slot) => Cohort(slot) ?? default;

    public Entry? Entry(Slot slot)
    {
        var read = Naming.Entry(TheText(slot));
        return Take(read) ? read.Value : null;
    }

    public TypedNumber? Amount(Slot slot, Dimension dimension, string? unit = null) =>
        Amount(slot, [dimension], unit);

    public TypedNumber? Amount(Slot slot, IReadOnlyList<Dimension> dimensions, string? unit = null) =>
        Text(slot) is { } text ? AmountOf(text, slot.Name, dimensions, unit) : null;

    public TypedNumber TheAmount(Slot slot, Dimension dimension, string? unit = null) =>
        Amount(slot, dimension, unit) ?? new TypedNumber("", unit ?? "1", 0);

    public TypedNumber? AmountOf(
        string text,
        string field,
        IReadOnlyList<Dimension> dimensions,
        string? unit = null
    )
    {
        var read = AmountText.Parse(text, field, dimensions, unit);
        return Take(read) ? read.Value : null;
    }

    public TypedNumber? Volume(Slot slot) => Amount(slot, Dimension.Volume);

    public TypedNumber? Celsius(Slot slot) => Amount(slot, Dimension.Temperature, "Cel");

    public TypedNumber? Salinity(Slot slot) => Amount(slot, Dimension.Salinity, UnitCode.PracticalSalinity);

    public double? Number(Slot slot)
    {
        if (Text(slot) is not { } text)
        {
            return null;
        }

        var read = NumberText.Parse(text, slot.Name);
        return Take(read) ? read.Value.Value : null;
    }

    public int? Count(Slot slot) => Text(slot) is { } text ? CountOf(text, slot.Name) : null;

    public int TheCount(Slot slot) => Count(slot) ?? 0;

    public int CountOf(string text, string field)
    {
        var read = NumberText.Parse(text, field);
        if (!Take(read))
        {
            return 0;
        }

        // A comma before three figures parts thousands of animals: there are no thousandths of one.
        var value = read.Value.Otherwise ?? read.Value.Value;
        if (value != Math.Floor(value) || Math.Abs(value) > int.MaxValue)
        {
            Add(new Remark("count-not-whole", new("field", field), new("typed", text)));
            return 0;
        }

        return (int)value;
    }

    public bool? YesNo(Slot slot) =>
        Text(slot) switch
        {
            null => null,
            "yes" or "on" or "y" => true,
            "no" or "off" or "n" => false,
            var other => Not<bool?>(slot, other, "yes, no"),
        };

    /// <summary>A member of a closed list, as words joined by hyphens.</summary>
    public T? Member<T>(Slot slot)
        where T : struct, Enum
    {
        if (Text(slot) is not { } text)
        {
            return null;
        }

        foreach (var member in Enum.GetValues<T>())
        {
            if (
                string.Equals(
                    EnumWords.Of(member),
                    text.Replace(' ', '-'),
                    StringComparison.OrdinalIgnoreCase
                )
            )
            {
                return member;
            }
        }

        return Not<T?>(slot, text, EnumWords.All<T>());
    }

    public T TheMember<T>(Slot slot)
        where T : struct, Enum => Member<T>(slot) ?? default;

    /// <summary>When something happened; none for now.</summary>
    public Happened? When(Slot when, Slot since)
    {
        var at = Time(when);
        if (Time(since) is not { } from)
        {
            return at;
        }

        var latest = at?.Latest ?? sitting.Now;
        if (latest < from.Earliest)
        {
            Add(
                new Remark(
                    "time-ends-before-it-begins",
                    new("field", since.Name),
                    new("typed", TheText(since))
                )
            );
            return at;
        }

        return Happened.Between(from.Earliest, latest);
    }

    public Happened? Time(Slot slot)
    {
        if (Text(slot) is not { } text)
        {
            return null;
        }

        var read = WhenText.Parse(text, slot.Name, sitting.Now, sitting.Zone);
        return Take(read) ? read.Value : null;
    }

    /// <summary>Practical salinity on any scale, for a calculation.</summary>
    public ScaledSalinity? Scaled(Slot slot) =>
        Salinity(slot) is { } typed ? ScaledSalinity.FromUnit(typed.Value, typed.Unit) : null;

    public Temperature? Degrees(Slot slot) =>
        Celsius(slot).AsTemperature() ?? Impossible(slot, Celsius(slot));

    public void Add(Remark wrong)
    {
        if (!_wrong.Contains(wrong))
        {
            _wrong.Add(wrong);
        }
    }

    public bool Take<T>(Parsed<T> read)
        where T : notnull
    {
        if (!read.Succeeded)
        {
            Add(read.Reason);
        }

        return read.Succeeded;
    }

    private Temperature? Impossible(Slot slot, TypedNumber? number)
    {
        if (number is not null)
        {
            Add(
                new Remark(
                    "number-impossible",
                    new("field", slot.Name),
                    new("typed", number.Typed),
                    new("lowest", number.KnownUnit()?.Lowest ?? 0),
                    new("highest", number.KnownUnit()?.Highest ?? 0)
                )
            );
        }

        return null;
    }

    private T? Named<T>(Slot slot, Func<string, Parsed<T>> find)
        where T : struct
    {
        if (Text(slot) is not { } text)
        {
            return null;
        }

        var found = find(text);
        return Take(found) ? found.Value : null;
    }

    private T? Not<T>(Slot slot, string typed, string allowed)
    {
        Add(
            new Remark(
                "word-not-on-the-list",
                new("field", slot.Name),
                new("typed", typed),
                new("allowed", allowed)
            )
        );
        return default;
    }
}
