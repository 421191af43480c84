using System.Runtime.CompilerServices;
using Broodtide.Units;

namespace Broodtide.Oracles;

/// <summary>Whole numbers that come as doubles.</summary>
public static class Whole
{
    /// <summary>The number, if it is whole and in the range.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is not.</exception>
    public static int Within(
        double value,
        int lowest,
        int highest,
        [CallerArgumentExpression(nameof(value))] string name = ""
    )
    {
        Finite.Within(value, lowest, highest, name);
        return value == Math.Floor(value)
            ? (int)value
            : throw new ArgumentOutOfRangeException(name, value, $"{name} must be a whole number.");
    }
}
