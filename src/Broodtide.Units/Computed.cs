namespace Broodtide.Units;

/// <summary>
/// The result of a published formula with the formula's own verdict on its inputs. A number is there wherever it
/// is finite; <see cref="WithinPublishedRange"/> says whether the source vouches for it. What a keeper sees holds
/// no number outside the published range.
/// </summary>
/// <param name="Value">The value, in the unit of its type or of the method that returns it.</param>
/// <param name="WithinPublishedRange">Whether all inputs lie in the range that the source gives.</param>
/// <typeparam name="T">A quantity, or a plain number whose unit the returning method names.</typeparam>
public readonly record struct Computed<T>(T Value, bool WithinPublishedRange)
    where T : struct
{
    /// <summary>The value where the source vouches for it, else none.</summary>
    public T? OrNone => WithinPublishedRange ? Value : null;

    /// <summary>The same verdict on a value worked out from this one.</summary>
    public Computed<TOther> Then<TOther>(Func<T, TOther> next)
        where TOther : struct => new(next(Value), WithinPublishedRange);
}
