namespace Broodtide.Units;

/// <summary>
/// Electrical conductivity, stored in millisiemens per centimetre. Whether it is raw or referred to 25 degC is
/// never part of the number: the caller's name says it.
/// The default is 0 mS/cm.
/// </summary>
public readonly record struct Conductivity : IComparable<Conductivity>
{
    private Conductivity(double value) => MillisiemensPerCentimetre = value;

    /// <summary>Millisiemens per centimetre.</summary>
    public double MillisiemensPerCentimetre { get; }

    /// <summary>Microsiemens per centimetre.</summary>
    public double MicrosiemensPerCentimetre => MillisiemensPerCentimetre * 1000;

    /// <summary>From millisiemens per centimetre.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public static Conductivity FromMillisiemensPerCentimetre(double millisiemensPerCentimetre) =>
        new(Finite.NotNegative(millisiemensPerCentimetre));

    /// <summary>From microsiemens per centimetre.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public static Conductivity FromMicrosiemensPerCentimetre(double microsiemensPerCentimetre) =>
        new(Finite.NotNegative(microsiemensPerCentimetre) / 1000);

    /// <summary>Whether the left one is smaller.</summary>
    public static bool operator <(Conductivity left, Conductivity right) =>
        left.MillisiemensPerCentimetre < right.MillisiemensPerCentimetre;

    /// <summary>Whether the left one is greater.</summary>
    public static bool operator >(Conductivity left, Conductivity right) =>
        left.MillisiemensPerCentimetre > right.MillisiemensPerCentimetre;

    /// <summary>Whether the left one is not greater.</summary>
    public static bool operator <=(Conductivity left, Conductivity right) =>
        left.MillisiemensPerCentimetre <= right.MillisiemensPerCentimetre;

    /// <summary>Whether the left one is not smaller.</summary>
    public static bool operator >=(Conductivity left, Conductivity right) =>
        left.MillisiemensPerCentimetre >= right.MillisiemensPerCentimetre;

    /// <inheritdoc/>
    public int CompareTo(Conductivity other) =>
        MillisiemensPerCentimetre.CompareTo(other.MillisiemensPerCentimetre);

    /// <summary>The number with its unit, for a programmer's eye; doors format for people.</summary>
    public override string ToString() => $"{MillisiemensPerCentimetre} mS/cm";
}
