namespace Broodtide.Units;

/// <summary>
/// Number of cells per volume of water, stored per millilitre.
/// The default is none, 0 cells/mL.
/// </summary>
public readonly record struct CellDensity : IComparable<CellDensity>
{
    private CellDensity(double value) => PerMillilitre = value;

    /// <summary>Cells per millilitre.</summary>
    public double PerMillilitre { get; }

    /// <summary>From cells per millilitre.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public static CellDensity FromPerMillilitre(double perMillilitre) =>
        new(Finite.NotNegative(perMillilitre));

    /// <summary>Whether the left one is smaller.</summary>
    public static bool operator <(CellDensity left, CellDensity right) =>
        left.PerMillilitre < right.PerMillilitre;

    /// <summary>Whether the left one is greater.</summary>
    public static bool operator >(CellDensity left, CellDensity right) =>
        left.PerMillilitre > right.PerMillilitre;

    /// <summary>Whether the left one is not greater.</summary>
    public static bool operator <=(CellDensity left, CellDensity right) =>
        left.PerMillilitre <= right.PerMillilitre;

    /// <summary>Whether the left one is not smaller.</summary>
    public static bool operator >=(CellDensity left, CellDensity right) =>
        left.PerMillilitre >= right.PerMillilitre;

    /// <inheritdoc/>
    public int CompareTo(CellDensity other) => PerMillilitre.CompareTo(other.PerMillilitre);

    /// <summary>The number with its unit, for a programmer's eye; doors format for people.</summary>
    public override string ToString() => $"{PerMillilitre} cells/mL";
}
