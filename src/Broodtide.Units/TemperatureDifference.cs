namespace Broodtide.Units;

/// <summary>
/// How much warmer one thing is than another, or the half-width of a temperature's error.
/// The default is no difference.
/// </summary>
public readonly record struct TemperatureDifference : IComparable<TemperatureDifference>
{
    private TemperatureDifference(double value) => Celsius = value;

    /// <summary>Degrees Celsius (equal to kelvin).</summary>
    public double Celsius { get; }

    /// <summary>Degrees Fahrenheit.</summary>
    public double Fahrenheit => 1.8 * Celsius;

    /// <summary>From degrees Celsius.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public static TemperatureDifference FromCelsius(double celsius) => new(Finite.Required(celsius));

    /// <summary>From degrees Fahrenheit.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public static TemperatureDifference FromFahrenheit(double fahrenheit) =>
        new(Finite.Required(fahrenheit) / 1.8);

    /// <summary>Whether the left one is smaller.</summary>
    public static bool operator <(TemperatureDifference left, TemperatureDifference right) =>
        left.Celsius < right.Celsius;

    /// <summary>Whether the left one is greater.</summary>
    public static bool operator >(TemperatureDifference left, TemperatureDifference right) =>
        left.Celsius > right.Celsius;

    /// <summary>Whether the left one is not greater.</summary>
    public static bool operator <=(TemperatureDifference left, TemperatureDifference right) =>
        left.Celsius <= right.Celsius;

    /// <summary>Whether the left one is not smaller.</summary>
    public static bool operator >=(TemperatureDifference left, TemperatureDifference right) =>
        left.Celsius >= right.Celsius;

    /// <inheritdoc/>
    public int CompareTo(TemperatureDifference other) => Celsius.CompareTo(other.Celsius);

    /// <summary>The number with its unit, for a programmer's eye; doors format for people.</summary>
    public override string ToString() => $"{Celsius} degC";
}
