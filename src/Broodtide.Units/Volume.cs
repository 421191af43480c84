namespace Broodtide.Units;

/// <summary>
/// A volume, stored in litres.
/// The default is nothing, 0 L.
/// </summary>
public readonly record struct Volume : IComparable<Volume>
{
    private Volume(double value) => Litres = value;

    /// <summary>Litres.</summary>
    public double Litres { get; }

    /// <summary>Millilitres.</summary>
    public double Millilitres => Litres * 1000;

    /// <summary>US liquid gallons, 3.785411784 L each: exact by definition (231 cubic inches, NIST SP 811).</summary>
    public double UsGallons => Litres / 3.785411784;

    /// <summary>US liquid quarts, a quarter of a gallon.</summary>
    public double UsQuarts => 4 * UsGallons;

    /// <summary>From litres.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public static Volume FromLitres(double litres) => new(Finite.NotNegative(litres));

    /// <summary>From millilitres.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public static Volume FromMillilitres(double millilitres) => new(Finite.NotNegative(millilitres) / 1000);

    /// <summary>From US liquid gallons, 3.785411784 L each (NIST SP 811).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public static Volume FromUsGallons(double gallons) => new(3.785411784 * Finite.NotNegative(gallons));

    /// <summary>From US liquid quarts, a quarter of a gallon.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public static Volume FromUsQuarts(double quarts) => new(3.785411784 / 4 * Finite.NotNegative(quarts));

    /// <summary>The sum of two amounts that do not change in volume when joined.</summary>
    public static Volume operator +(Volume left, Volume right) => FromLitres(left.Litres + right.Litres);

    /// <summary>The ratio of two volumes.</summary>
    public static double operator /(Volume left, Volume right) => left.Litres / right.Litres;

    /// <summary>A multiple.</summary>
    public static Volume operator *(double factor, Volume volume) => FromLitres(factor * volume.Litres);

    /// <summary>The mass of this volume at a density.</summary>
    public static Mass operator *(Volume volume, Density density) =>
        Mass.FromGrams(volume.Litres * density.KilogramsPerCubicMetre);

    /// <summary>Whether the left one is smaller.</summary>
    public static bool operator <(Volume left, Volume right) => left.Litres < right.Litres;

    /// <summary>Whether the left one is greater.</summary>
    public static bool operator >(Volume left, Volume right) => left.Litres > right.Litres;

    /// <summary>Whether the left one is not greater.</summary>
    public static bool operator <=(Volume left, Volume right) => left.Litres <= right.Litres;

    /// <summary>Whether the left one is not smaller.</summary>
    public static bool operator >=(Volume left, Volume right) => left.Litres >= right.Litres;

    /// <inheritdoc/>
    public int CompareTo(Volume other) => Litres.CompareTo(other.Litres);

    /// <summary>The number with its unit, for a programmer's eye; doors format for people.</summary>
    public override string ToString() => $"{Litres} L";
}
