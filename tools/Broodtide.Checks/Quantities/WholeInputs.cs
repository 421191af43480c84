using Broodtide.Oracles;

namespace Broodtide.Checks.Quantities;

/// <summary>Inputs that are whole numbers.</summary>
internal static class WholeInputs
{
    /// <summary>A whole number.</summary>
    /// <exception cref="ArgumentException">It is none, or smaller than allowed.</exception>
    public static int WholeNumber(this CheckInputs inputs, string key, int lowest) =>
        Whole.Within(inputs.Number(key), lowest, int.MaxValue, key);

    /// <summary>A list of whole numbers that are not negative.</summary>
    /// <exception cref="ArgumentException">One is not.</exception>
    public static int[] WholeNumbers(this CheckInputs inputs, string key) =>
        [.. inputs.Numbers(key).Select(number => Whole.Within(number, 0, int.MaxValue, key))];

    /// <summary>A place counted from one, as an index from zero.</summary>
    /// <exception cref="ArgumentException">It is no whole number from one to the length.</exception>
    public static int Place(this CheckInputs inputs, string key, int length) =>
        Whole.Within(inputs.Number(key), 1, length, key) - 1;
}
