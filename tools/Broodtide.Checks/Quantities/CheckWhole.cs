using Broodtide.Units;

namespace Broodtide.Checks.Quantities;

/// <summary>Numbers that must be whole.</summary>
internal static class CheckWhole
{
    /// <summary>A whole number that fits an integer.</summary>
    /// <exception cref="ArgumentException">It is not whole: the quantity refuses it.</exception>
    public static int Of(double number, string key) =>
        Finite.Within(number, int.MinValue, int.MaxValue, key).Equals(Math.Truncate(number))
            ? (int)number
            : throw new ArgumentException($"{key}={number} is no whole number", key);
}
