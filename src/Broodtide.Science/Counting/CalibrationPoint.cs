using Broodtide.Units;

namespace Broodtide.Science.Counting;

/// <summary>A picture of a known number, in the keeper's own container and light.</summary>
public sealed record CalibrationPoint
{
    /// <summary>A known number and what was counted of it.</summary>
    /// <param name="known">How many there were, 0 or more; from a double count it need not be whole.</param>
    /// <param name="counted">What the program counted before anybody corrected it, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public CalibrationPoint(double known, double counted)
    {
        Known = Finite.NotNegative(known);
        Counted = Finite.NotNegative(counted);
    }

    /// <summary>How many there were.</summary>
    public double Known { get; }

    /// <summary>What the program counted.</summary>
    public double Counted { get; }

    /// <summary>
    /// From the marks of a person and of the program on one picture: the number behind both (Chapman), which is too low
    /// by what neither can see.
    /// </summary>
    /// <param name="marks">The person first, the program second.</param>
    public static CalibrationPoint OfDoubleCount(TwoLookers marks) =>
        new(Math.Max(marks.Chapman, marks.First + marks.Second - marks.Both), marks.Second);
}
