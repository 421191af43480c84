namespace Broodtide.Units;

/// <summary>
/// A mass, stored in grams.
/// The default is nothing, 0 g.
/// </summary>
public readonly record struct Mass : IComparable<Mass>
{
    private Mass(double value) => Grams = value;

    /// <summary>Grams.</summary>
    public double Grams { get; }

    /// <summary>Kilograms.</summary>
    public double Kilograms => Grams / 1000;

    /// <summary>Milligrams.</summary>
    public double Milligrams => Grams * 1000;

    /// <summary>From grams.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public static Mass FromGrams(double grams) => new(Finite.NotNegative(grams));

    /// <summary>From kilograms.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public static Mass FromKilograms(double kilograms) => new(1000 * Finite.NotNegative(kilograms));

    /// <summary>From milligrams.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public static Mass FromMilligrams(double milligrams) => new(Finite.NotNegative(milligrams) / 1000);

    /// <summary>The sum.</summary>
    public static Mass operator +(Mass left, Mass right) => FromGrams(left.Grams + right.Grams);

    /// <summary>The ratio of two masses.</summary>
    public static double operator /(Mass left, Mass right) => left.Grams / right.Grams;

    /// <summary>A multiple.</summary>
    public static Mass operator *(double factor, Mass mass) => FromGrams(factor * mass.Grams);

    /// <summary>Whether the left one is smaller.</summary>
    public static bool operator <(Mass left, Mass right) => left.Grams < right.Grams;

    /// <summary>Whether the left one is greater.</summary>
    public static bool operator >(Mass left, Mass right) => left.Grams > right.Grams;

    /// <summary>Whether the left one is not greater.</summary>
    public static bool operator <=(Mass left, Mass right) => left.Grams <= right.Grams;

    /// <summary>Whether the left one is not smaller.</summary>
    public static bool operator >=(Mass left, Mass right) => left.Grams >= right.Grams;

    /// <inheritdoc/>
    public int CompareTo(Mass other) => Grams.CompareTo(other.Grams);

    /// <summary>The number with its unit, for a programmer's eye; doors format for people.</summary>
    public override string ToString() => $"{Grams} g";
}
