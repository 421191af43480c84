using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Cli.Door;

/// <summary>What is wrong with a call's numbers beyond their reading: those that cannot be.</summary>
internal static class Complaints
{
    public static IReadOnlyList<Remark> Of(Said said, params ReadOnlySpan<TypedNumber?> numbers)
    {
        var wrong = said.Wrong.ToList();
        foreach (var number in numbers)
        {
            if (
                number is { Typed.Length: > 0 }
                && number.KnownUnit() is { } unit
                && !unit.Allows(number.Value)
            )
            {
                wrong.Add(
                    new Remark(
                        "number-impossible",
                        new("field", "number"),
                        new("typed", number.Typed),
                        new("lowest", unit.Lowest),
                        new("highest", unit.Highest)
                    )
                );
            }
        }

        return wrong;
    }
}
