namespace Broodtide.Units;

/// <summary>
/// An uncertain number as it is always told: its 5, 50 and 95 % points. The unit stands in the name of whatever
/// holds the interval. The default is the number zero, known exactly.
/// </summary>
public readonly record struct Interval
{
    private Interval(double low, double middle, double high)
    {
        Low = low;
        Middle = middle;
        High = high;
    }

    /// <summary>The 5 % point: one chance in twenty that the truth lies below.</summary>
    public double Low { get; }

    /// <summary>The median, 50 %.</summary>
    public double Middle { get; }

    /// <summary>The 95 % point: one chance in twenty that the truth lies above.</summary>
    public double High { get; }

    /// <summary>High minus low, in the unit of the interval.</summary>
    public double Width => High - Low;

    /// <summary>From the three points.</summary>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A point is not finite, or they do not ascend.
    /// </exception>
    public static Interval FromPoints(double low, double middle, double high)
    {
        Finite.Required(low);
        Finite.Required(high);
        return new(low, Finite.Within(middle, low, high), high);
    }

    /// <summary>A number known exactly.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public static Interval Exactly(double value) => FromPoints(value, value, value);

    /// <summary>From a normal distribution: the mean plus and minus 1.6449 standard deviations.</summary>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The mean is not finite, or the standard deviation not finite or negative.
    /// </exception>
    public static Interval FromNormal(double mean, double standardDeviation)
    {
        Finite.Required(mean);
        var reach = StandardNormal95 * Finite.NotNegative(standardDeviation);
        return FromPoints(mean - reach, mean, mean + reach);
    }

    /// <summary>Whether a value lies in the closed interval.</summary>
    public bool Contains(double value) => value >= Low && value <= High;

    /// <summary>The interval moved and stretched: each point times a positive factor plus an offset.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The factor is not finite or not positive.</exception>
    public Interval Scaled(double factor, double offset = 0) =>
        FromPoints(
            (Low * Finite.Positive(factor)) + offset,
            (Middle * factor) + offset,
            (High * factor) + offset
        );

    /// <summary>The interval with every point held at or above <paramref name="floor"/>.</summary>
    public Interval AtLeast(double floor) =>
        FromPoints(Math.Max(Low, floor), Math.Max(Middle, floor), Math.Max(High, floor));

    /// <summary>The three points, for a programmer's eye; doors format for people.</summary>
    public override string ToString() => $"{Middle} ({Low}-{High})";

    /// <summary>The 95 % point of the standard normal distribution (Abramowitz and Stegun, table 26.1).</summary>
    public const double StandardNormal95 = 1.6448536269514722;
}
