using Broodtide.Units;

namespace Broodtide.Domain.Journal;

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
    public virtual IEnumerable<(string Name, long? Count)> Counts() => [];

    /// <summary>Every number without a unit of its own, with its closed range.</summary>
    public virtual IEnumerable<(string Name, double? Value, double Lowest, double Highest)> Plain() => [];

    /// <summary>Every unit code that stands alone.</summary>
    public virtual IEnumerable<(string Name, string? Code)> Codes() => [];

    /// <summary>Every list of records; none may have a hole.</summary>
    public virtual IEnumerable<(string Name, IEnumerable<object?>? List)> Lists() => [];

    /// <summary>
    /// Why this can be no entry at all: a number that is not finite or physically impossible, a unit that is not
    /// on the list or measures something else, a text that is no date or hash. None for everything that can be,
    /// however unlikely.
    /// </summary>
    public Remark? Impossible()
    {
        // First, because the numbers are found by walking the lists.
        foreach (var (name, list) in Lists())
        {
            if (list?.Contains(null) is true)
            {
                return new Remark("list-has-a-hole", new Argument("field", name));
            }
        }

        foreach (var (name, number, dimension) in Numbers())
        {
            if (number is not null && WrongWith(name, number, dimension) is { } reason)
            {
                return reason;
            }
        }

        foreach (var (name, count) in Counts())
        {
            if (count < 0)
            {
                return new Remark("count-negative", new("field", name), new("count", count.Value));
            }
        }

        foreach (var (name, value, lowest, highest) in Plain())
        {
            // NaN compares false with everything.
            if (value is { } given && !(given >= lowest && given <= highest))
            {
                return new Remark(
                    "number-impossible",
                    new("field", name),
                    new("typed", given),
                    new("lowest", lowest),
                    new("highest", highest)
                );
            }
        }

        foreach (var (name, code) in Codes())
        {
            if (code is not null && UnitCode.Find(code) is null)
            {
                return new Remark("unit-unknown", new("field", name), new("unit", code));
            }
        }

        return Amiss();
    }

    /// <summary>What else makes this fact impossible, if anything.</summary>
    private protected virtual Remark? Amiss() => null;

    private static Remark? WrongWith(string name, TypedNumber number, Dimension dimension) =>
        number.KnownUnit() is not { } unit
            ? new Remark("unit-unknown", new("field", name), new("unit", number.Unit))
        : unit.Dimension != dimension
            ? new Remark(
                "unit-of-another-kind",
                new("field", name),
                new("unit", number.Unit),
                new("wanted", dimension.ToString())
            )
        : !unit.Allows(number.Value)
            ? new Remark(
                "number-impossible",
                new("field", name),
                new("typed", number.Typed),
                new("unit", number.Unit),
                new("lowest", unit.Lowest),
                new("highest", unit.Highest)
            )
        : null;
}
