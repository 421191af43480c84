namespace Broodtide.Units;

/// <summary>
/// Mass of a dissolved substance per volume of water, stored in milligrams per litre.
/// The default is none, 0 mg/L.
/// </summary>
public readonly record struct Concentration : IComparable<Concentration>
{
    private Concentration(double value) => MilligramsPerLitre = value;

    /// <summary>Milligrams per litre.</summary>
    public double MilligramsPerLitre { get; }

    /// <summary>Grams per litre.</summary>
    public double GramsPerLitre => MilligramsPerLitre / 1000;

    /// <summary>From milligrams per litre.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public static Concentration FromMilligramsPerLitre(double milligramsPerLitre) =>
        new(Finite.NotNegative(milligramsPerLitre));

    /// <summary>From grams per litre.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public static Concentration FromGramsPerLitre(double gramsPerLitre) =>
        new(1000 * Finite.NotNegative(gramsPerLitre));

    /// <summary>The mass in a volume.</summary>
    public static Mass operator *(Concentration concentration, Volume volume) =>
        Mass.FromMilligrams(concentration.MilligramsPerLitre * volume.Litres);

    /// <summary>Whether the left one is smaller.</summary>
    public static bool operator <(Concentration left, Concentration right) =>
        left.MilligramsPerLitre < right.MilligramsPerLitre;

    /// <summary>Whether the left one is greater.</summary>
    public static bool operator >(Concentration left, Concentration right) =>
        left.MilligramsPerLitre > right.MilligramsPerLitre;

    /// <summary>Whether the left one is not greater.</summary>
    public static bool operator <=(Concentration left, Concentration right) =>
        left.MilligramsPerLitre <= right.MilligramsPerLitre;

    /// <summary>Whether the left one is not smaller.</summary>
    public static bool operator >=(Concentration left, Concentration right) =>
        left.MilligramsPerLitre >= right.MilligramsPerLitre;

    /// <inheritdoc/>
    public int CompareTo(Concentration other) => MilligramsPerLitre.CompareTo(other.MilligramsPerLitre);

    /// <summary>The number with its unit, for a programmer's eye; doors format for people.</summary>
    public override string ToString() => $"{MilligramsPerLitre} mg/L";
}
