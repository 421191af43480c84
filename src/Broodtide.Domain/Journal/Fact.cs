using Broodtide.Units;

namespace Broodtide.Domain.Journal;

/// <summary>What kind of thing an entry speaks of.</summary>
public enum SubjectKind
{
    /// <summary>The whole house: power, absence, due actions, notes.</summary>
    House,

    /// <summary>An adult.</summary>
    Animal,

    /// <summary>A clutch of eggs.</summary>
    Brood,

    /// <summary>A brood carried through.</summary>
    Run,

    /// <summary>A thing that holds water.</summary>
    Vessel,

    /// <summary>Larvae of one crossing.</summary>
    Cohort,

    /// <summary>A measuring device.</summary>
    Instrument,

    /// <summary>Another entry.</summary>
    Entry,
}

/// <summary>One thing that an entry speaks of.</summary>
/// <param name="Kind">What kind of thing.</param>
/// <param name="Id">Its UUID; all zero for the house.</param>
public readonly record struct Subject(SubjectKind Kind, Guid Id)
{
    /// <summary>The house itself.</summary>
    public static Subject House => default;

    /// <summary>An animal.</summary>
    public static Subject Of(AnimalId id) => new(SubjectKind.Animal, id.Value);

    /// <summary>A brood.</summary>
    public static Subject Of(BroodId id) => new(SubjectKind.Brood, id.Value);

    /// <summary>A run.</summary>
    public static Subject Of(RunId id) => new(SubjectKind.Run, id.Value);

    /// <summary>A vessel.</summary>
    public static Subject Of(VesselId id) => new(SubjectKind.Vessel, id.Value);

    /// <summary>A cohort.</summary>
    public static Subject Of(CohortId id) => new(SubjectKind.Cohort, id.Value);

    /// <summary>An instrument.</summary>
    public static Subject Of(InstrumentId id) => new(SubjectKind.Instrument, id.Value);

    /// <summary>An entry.</summary>
    public static Subject Of(EntryId id) => new(SubjectKind.Entry, id.Value);
}

/// <summary>
/// What happened, without the when and the who: the body of an entry. Facts are sealed records beside their
/// subject; a stored name and a version are given by hand in <see cref="Kinds"/>.
/// </summary>
public abstract record Fact
{
    /// <summary>Everything this fact speaks of; the entry is found under each of them.</summary>
    public abstract IEnumerable<Subject> Subjects();

    /// <summary>Every number in the fact with the dimension it must have.</summary>
    public virtual IEnumerable<(string Name, TypedNumber? Number, Dimension Dimension)> Numbers() => [];

    /// <summary>Every count in the fact; none may be negative.</summary>
    public virtual IEnumerable<(string Name, int? Count)> Counts() => [];

    /// <summary>
    /// Why this can be no entry at all: a number that is not finite or physically impossible, a unit that is not
    /// on the list or measures something else. None for everything that can be, however unlikely.
    /// </summary>
    public Remark? Impossible()
    {
        foreach (var (name, number, dimension) in Numbers())
        {
            if (number is null)
            {
                continue;
            }

            if (number.KnownUnit() is not { } unit)
            {
                return new Remark("unit-unknown", new("field", name), new("unit", number.Unit));
            }

            if (unit.Dimension != dimension)
            {
                return new Remark(
                    "unit-of-another-kind",
                    new("field", name),
                    new("unit", number.Unit),
                    new("wanted", dimension.ToString())
                );
            }

            if (!unit.Allows(number.Value))
            {
                return new Remark(
                    "number-impossible",
                    new("field", name),
                    new("typed", number.Typed),
                    new("unit", number.Unit),
                    new("lowest", unit.Lowest),
                    new("highest", unit.Highest)
                );
            }
        }

        foreach (var (name, count) in Counts())
        {
            if (count < 0)
            {
                return new Remark("count-negative", new("field", name), new("count", count.Value));
            }
        }

        return null;
    }
}

/// <summary>A fact of a kind or version that this build does not know: kept as bytes, counted, never guessed at.</summary>
/// <param name="Kind">The stored name.</param>
/// <param name="Version">The version.</param>
public sealed record UnknownFact(string Kind, int Version) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.House];
}

/// <summary>A fact of a known kind whose bytes do not hold what the kind demands.</summary>
/// <param name="Kind">The stored name.</param>
/// <param name="Reason">What is wrong with it.</param>
public sealed record UnreadableFact(string Kind, string Reason) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.House];
}

/// <summary>A fact that a person had removed. That it was removed is all that is left.</summary>
/// <param name="Kind">The stored name.</param>
public sealed record ErasedFact(string Kind) : Fact
{
    /// <inheritdoc/>
    public override IEnumerable<Subject> Subjects() => [Subject.House];
}
