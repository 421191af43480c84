namespace Broodtide.Units;

/// <summary>
/// A temperature on the scale ITS-90, stored in degrees Celsius. A point, not a difference: see
/// <see cref="TemperatureDifference"/>. The default is 0 degrees Celsius.
/// </summary>
public readonly record struct Temperature : IComparable<Temperature>
{
    /// <summary>Absolute zero in degrees Celsius; exact by the definition of the kelvin scale.</summary>
    public const double AbsoluteZeroCelsius = -273.15;

    /// <summary>Highest value accepted, degrees Celsius: far above anything a vessel survives.</summary>
    public const double HighestCelsius = 1000;

    private Temperature(double celsius) => Celsius = celsius;

    /// <summary>Degrees Celsius, ITS-90.</summary>
    public double Celsius { get; }

    /// <summary>Kelvin.</summary>
    public double Kelvin => Celsius - AbsoluteZeroCelsius;

    /// <summary>Degrees Fahrenheit; exact by definition, F = 1.8 C + 32.</summary>
    public double Fahrenheit => (1.8 * Celsius) + 32;

    /// <summary>
    /// Degrees Celsius on the older scale IPTS-68, t68 = 1.00024 t90, which PSS-78 and EOS-80 are written in.
    /// Source: Saunders 1990, WOCE Newsletter 10, as used with UNESCO Tech. Pap. Mar. Sci. 44.
    /// </summary>
    public double CelsiusIpts68 => 1.00024 * Celsius;

    /// <summary>From degrees Celsius (ITS-90).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, below absolute zero or above 1000.</exception>
    public static Temperature FromCelsius(double celsius) =>
        new(Finite.Within(celsius, AbsoluteZeroCelsius, HighestCelsius));

    /// <summary>From degrees Fahrenheit.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, below absolute zero or above 1000 degC.</exception>
    public static Temperature FromFahrenheit(double fahrenheit) =>
        FromCelsius((Finite.Required(fahrenheit) - 32) / 1.8);

    /// <summary>From kelvin.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, negative or above 1000 degC.</exception>
    public static Temperature FromKelvin(double kelvin) =>
        FromCelsius(Finite.Required(kelvin) + AbsoluteZeroCelsius);

    /// <summary>From degrees Celsius on the scale IPTS-68.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, below absolute zero or above 1000.</exception>
    public static Temperature FromCelsiusIpts68(double celsius68) =>
        FromCelsius(Finite.Required(celsius68) / 1.00024);

    /// <summary>How much warmer <paramref name="warmer"/> is than <paramref name="colder"/>.</summary>
    public static TemperatureDifference operator -(Temperature warmer, Temperature colder) =>
        TemperatureDifference.FromCelsius(warmer.Celsius - colder.Celsius);

    /// <summary>The point that lies <paramref name="difference"/> above <paramref name="start"/>.</summary>
    public static Temperature operator +(Temperature start, TemperatureDifference difference) =>
        FromCelsius(start.Celsius + difference.Celsius);

    /// <summary>Whether the left one is colder.</summary>
    public static bool operator <(Temperature left, Temperature right) => left.Celsius < right.Celsius;

    /// <summary>Whether the left one is warmer.</summary>
    public static bool operator >(Temperature left, Temperature right) => left.Celsius > right.Celsius;

    /// <summary>Whether the left one is not warmer.</summary>
    public static bool operator <=(Temperature left, Temperature right) => left.Celsius <= right.Celsius;

    /// <summary>Whether the left one is not colder.</summary>
    public static bool operator >=(Temperature left, Temperature right) => left.Celsius >= right.Celsius;

    /// <inheritdoc/>
    public int CompareTo(Temperature other) => Celsius.CompareTo(other.Celsius);

    /// <summary>The number with its unit, for a programmer's eye; doors format for people.</summary>
    public override string ToString() => $"{Celsius} degC";
}
