using System.Runtime.CompilerServices;

namespace Broodtide.Units;

/// <summary>
/// The one door for numbers: NaN and the infinities stop here. The guards of the framework let infinities and
/// some NaNs through, so every public door of the core uses these.
/// </summary>
public static class Finite
{
    /// <summary>Returns <paramref name="value"/> unchanged if it is finite.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is NaN or infinite.</exception>
    public static double Required(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        double.IsFinite(value)
            ? value
            : throw new ArgumentOutOfRangeException(name, value, $"{name} must be a finite number.");

    /// <summary>Returns <paramref name="value"/> unchanged if it is finite and not below zero.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is NaN, infinite or negative.</exception>
    public static double NotNegative(
        double value,
        [CallerArgumentExpression(nameof(value))] string name = ""
    ) => Within(value, 0, double.MaxValue, name);

    /// <summary>Returns <paramref name="value"/> unchanged if it is finite and above zero.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is NaN, infinite, zero or negative.</exception>
    public static double Positive(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        Within(value, double.Epsilon, double.MaxValue, name);

    /// <summary>Returns <paramref name="value"/> unchanged if it lies in the closed range given.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is NaN, infinite or outside the range.</exception>
    public static double Within(
        double value,
        double lowest,
        double highest,
        [CallerArgumentExpression(nameof(value))] string name = ""
    ) =>
        // NaN compares false with everything, so it falls to the throwing arm.
        value >= lowest
        && value <= highest
        && double.IsFinite(value)
            ? value
            : throw new ArgumentOutOfRangeException(
                name,
                value,
                $"{name} must be a finite number from {lowest} to {highest}."
            );
}
