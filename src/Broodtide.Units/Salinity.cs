namespace Broodtide.Units;

/// <summary>
/// Practical salinity on the scale PSS-78 (no unit; what keepers call ppt). Conversions from other scales are
/// formulas with ranges and live with the water science.
/// The default is fresh water, 0.
/// </summary>
public readonly record struct Salinity : IComparable<Salinity>
{
    private Salinity(double value) => Practical = value;

    /// <summary>Practical salinity, PSS-78.</summary>
    public double Practical { get; }

    /// <summary>From practical salinity. Values outside the range of a formula are kept: the formula says so.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public static Salinity FromPractical(double practical) => new(Finite.NotNegative(practical));

    /// <summary>Whether the left one is smaller.</summary>
    public static bool operator <(Salinity left, Salinity right) => left.Practical < right.Practical;

    /// <summary>Whether the left one is greater.</summary>
    public static bool operator >(Salinity left, Salinity right) => left.Practical > right.Practical;

    /// <summary>Whether the left one is not greater.</summary>
    public static bool operator <=(Salinity left, Salinity right) => left.Practical <= right.Practical;

    /// <summary>Whether the left one is not smaller.</summary>
    public static bool operator >=(Salinity left, Salinity right) => left.Practical >= right.Practical;

    /// <inheritdoc/>
    public int CompareTo(Salinity other) => Practical.CompareTo(other.Practical);

    /// <summary>The number with its unit, for a programmer's eye; doors format for people.</summary>
    public override string ToString() => $"{Practical} (practical salinity)";
}
