namespace Broodtide.Units;

/// <summary>
/// A probability, 0 to 1.
/// The default is impossible, 0.
/// </summary>
public readonly record struct Probability : IComparable<Probability>
{
    private Probability(double value) => Value = value;

    /// <summary>The probability as a fraction, 0 to 1.</summary>
    public double Value { get; }

    /// <summary>The probability in per cent, 0 to 100.</summary>
    public double Percent => 100 * Value;

    /// <summary>The probability of the opposite.</summary>
    public double Opposite => 1 - Value;

    /// <summary>From a fraction, 0 to 1.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or outside 0 to 1.</exception>
    public static Probability FromFraction(double fraction) => new(Finite.Within(fraction, 0, 1));

    /// <summary>From per cent, 0 to 100.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or outside 0 to 1.</exception>
    public static Probability FromPercent(double percent) => new(Finite.Within(percent, 0, 100) / 100);

    /// <summary>Whether the left one is smaller.</summary>
    public static bool operator <(Probability left, Probability right) => left.Value < right.Value;

    /// <summary>Whether the left one is greater.</summary>
    public static bool operator >(Probability left, Probability right) => left.Value > right.Value;

    /// <summary>Whether the left one is not greater.</summary>
    public static bool operator <=(Probability left, Probability right) => left.Value <= right.Value;

    /// <summary>Whether the left one is not smaller.</summary>
    public static bool operator >=(Probability left, Probability right) => left.Value >= right.Value;

    /// <inheritdoc/>
    public int CompareTo(Probability other) => Value.CompareTo(other.Value);

    /// <summary>The number with its unit, for a programmer's eye; doors format for people.</summary>
    public override string ToString() => $"{Value}";
}
