namespace Broodtide.Units;

/// <summary>
/// Mass per volume, stored in kilograms per cubic metre (equal to grams per litre). A density of the default
/// value has no physical meaning.
/// The default is 0, which no water has.
/// </summary>
public readonly record struct Density : IComparable<Density>
{
    private Density(double value) => KilogramsPerCubicMetre = value;

    /// <summary>Kilograms per cubic metre, equal to grams per litre.</summary>
    public double KilogramsPerCubicMetre { get; }

    /// <summary>Grams per cubic centimetre.</summary>
    public double GramsPerCubicCentimetre => KilogramsPerCubicMetre / 1000;

    /// <summary>From kilograms per cubic metre.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, zero or negative.</exception>
    public static Density FromKilogramsPerCubicMetre(double kilogramsPerCubicMetre) =>
        new(Finite.Positive(kilogramsPerCubicMetre));

    /// <summary>From grams per cubic centimetre.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, zero or negative.</exception>
    public static Density FromGramsPerCubicCentimetre(double gramsPerCubicCentimetre) =>
        new(1000 * Finite.Positive(gramsPerCubicCentimetre));

    /// <summary>The volume that a mass takes at a density.</summary>
    public static Volume operator /(Mass mass, Density density) =>
        Volume.FromLitres(mass.Grams / density.KilogramsPerCubicMetre);

    /// <summary>Whether the left one is smaller.</summary>
    public static bool operator <(Density left, Density right) =>
        left.KilogramsPerCubicMetre < right.KilogramsPerCubicMetre;

    /// <summary>Whether the left one is greater.</summary>
    public static bool operator >(Density left, Density right) =>
        left.KilogramsPerCubicMetre > right.KilogramsPerCubicMetre;

    /// <summary>Whether the left one is not greater.</summary>
    public static bool operator <=(Density left, Density right) =>
        left.KilogramsPerCubicMetre <= right.KilogramsPerCubicMetre;

    /// <summary>Whether the left one is not smaller.</summary>
    public static bool operator >=(Density left, Density right) =>
        left.KilogramsPerCubicMetre >= right.KilogramsPerCubicMetre;

    /// <inheritdoc/>
    public int CompareTo(Density other) => KilogramsPerCubicMetre.CompareTo(other.KilogramsPerCubicMetre);

    /// <summary>The number with its unit, for a programmer's eye; doors format for people.</summary>
    public override string ToString() => $"{KilogramsPerCubicMetre} kg/m3";
}
