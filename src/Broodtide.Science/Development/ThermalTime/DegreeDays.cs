using Broodtide.Units;

namespace Broodtide.Science.Development.ThermalTime;

/// <summary>Temperatures between which development counts.</summary>
public sealed record DevelopmentThresholds
{
    /// <summary>Above a lower one, and no faster above an upper one, if there is one.</summary>
    /// <param name="lower">Below it nothing counts.</param>
    /// <param name="upper">Above it nothing more is added; above the lower one.</param>
    /// <exception cref="ArgumentOutOfRangeException">The upper is not above the lower.</exception>
    public DevelopmentThresholds(Temperature lower, Temperature? upper = null)
    {
        if (upper is { } top && top <= lower)
        {
            throw new ArgumentOutOfRangeException(
                nameof(upper),
                upper,
                "The upper threshold must be above the lower one."
            );
        }

        Lower = lower;
        Upper = upper;
    }

    /// <summary>Below it nothing counts.</summary>
    public Temperature Lower { get; }

    /// <summary>Above it nothing more is added.</summary>
    public Temperature? Upper { get; }

    internal double Above => Upper is { } upper ? (upper - Lower).Celsius : double.PositiveInfinity;
}

/// <summary>
/// Warmth that counts for development, degree-days: degrees Celsius above the lower threshold times days, with a
/// horizontal cutoff at the upper one. From daily extremes as a triangle or a sine (Zalom and others 1983, University
/// of California Leaflet 21373; Allen 1976; Baskerville and Emin 1969), or from logged temperatures. In heated water
/// the day hardly swings and all agree.
/// </summary>
public static class DegreeDays
{
    private const double HoursPerDay = 24;

    /// <summary>A day as one triangle from minimum to maximum and back.</summary>
    /// <param name="lowest">Of the day.</param>
    /// <param name="highest">Of the day, not below the lowest.</param>
    /// <param name="thresholds">What counts.</param>
    /// <returns>degC d.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The highest is below the lowest.</exception>
    public static double SingleTriangle(
        Temperature lowest,
        Temperature highest,
        DevelopmentThresholds thresholds
    )
    {
        var day = new Day(lowest, highest, thresholds);
        return day.Trivial ?? Triangle(day);
    }

    /// <summary>The first half of a day with its minimum, the second with the next one's, as triangles.</summary>
    /// <param name="lowest">Of the day.</param>
    /// <param name="highest">Of the day, below neither minimum.</param>
    /// <param name="nextLowest">Of the day after.</param>
    /// <param name="thresholds">What counts.</param>
    /// <returns>degC d.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The highest is below a minimum.</exception>
    public static double DoubleTriangle(
        Temperature lowest,
        Temperature highest,
        Temperature nextLowest,
        DevelopmentThresholds thresholds
    ) =>
        0.5 * (SingleTriangle(lowest, highest, thresholds) + SingleTriangle(nextLowest, highest, thresholds));

    /// <summary>A day as one sine between minimum and maximum.</summary>
    /// <param name="lowest">Of the day.</param>
    /// <param name="highest">Of the day, not below the lowest.</param>
    /// <param name="thresholds">What counts.</param>
    /// <returns>degC d.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The highest is below the lowest.</exception>
    public static double SingleSine(Temperature lowest, Temperature highest, DevelopmentThresholds thresholds)
    {
        var day = new Day(lowest, highest, thresholds);
        return day.Trivial ?? Sine(day);
    }

    /// <summary>The first half of a day with its minimum, the second with the next one's, as sines.</summary>
    /// <param name="lowest">Of the day.</param>
    /// <param name="highest">Of the day, below neither minimum.</param>
    /// <param name="nextLowest">Of the day after.</param>
    /// <param name="thresholds">What counts.</param>
    /// <returns>degC d.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The highest is below a minimum.</exception>
    public static double DoubleSine(
        Temperature lowest,
        Temperature highest,
        Temperature nextLowest,
        DevelopmentThresholds thresholds
    ) => 0.5 * (SingleSine(lowest, highest, thresholds) + SingleSine(nextLowest, highest, thresholds));

    /// <summary>The mean of the extremes above the lower threshold, no upper one.</summary>
    /// <param name="lowest">Of the day.</param>
    /// <param name="highest">Of the day, not below the lowest.</param>
    /// <param name="lower">Below it nothing counts.</param>
    /// <param name="clampExtremes">
    /// Whether each extreme is lifted to the threshold before the mean is taken. Where the minimum lies below it the two
    /// ways differ, and papers rarely say which they took (McMaster and Wilhelm 1997, Agric. For. Meteorol. 87:291).
    /// </param>
    /// <returns>degC d.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The highest is below the lowest.</exception>
    public static double Average(
        Temperature lowest,
        Temperature highest,
        Temperature lower,
        bool clampExtremes
    )
    {
        var day = new Day(lowest, highest, new DevelopmentThresholds(lower));
        return clampExtremes
            ? 0.5 * (Math.Max(0, day.Lowest) + Math.Max(0, day.Highest))
            : Math.Max(0, day.Mean);
    }

    /// <summary>One day at a mean temperature.</summary>
    /// <param name="mean">Of the day.</param>
    /// <param name="lower">Below it nothing counts.</param>
    /// <returns>degC d.</returns>
    public static double OfMean(Temperature mean, Temperature lower) => Math.Max(0, (mean - lower).Celsius);

    /// <summary>Logged temperatures, each holding for a time.</summary>
    /// <param name="logged">The temperatures.</param>
    /// <param name="hoursEach">How long each holds, h, above zero.</param>
    /// <param name="thresholds">What counts.</param>
    /// <returns>degC d.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The time is not above zero.</exception>
    public static double Logged(
        ReadOnlySpan<Temperature> logged,
        double hoursEach,
        DevelopmentThresholds thresholds
    )
    {
        var sum = 0.0;
        foreach (var temperature in logged)
        {
            sum += Math.Clamp((temperature - thresholds.Lower).Celsius, 0, thresholds.Above);
        }

        return sum * Finite.Positive(hoursEach) / HoursPerDay;
    }

    private static double Triangle(Day day)
    {
        var rise = day.Highest - day.Lowest;
        var below = day.Lowest < 0 ? day.Lowest * day.Lowest / (2 * rise) : 0;
        var cut = day.Highest > day.Above ? Square(day.Highest - day.Above) / (2 * rise) : 0;
        return day.Mean + below - cut;
    }

    private static double Sine(Day day)
    {
        var half = 0.5 * (day.Highest - day.Lowest);
        // Where the sine crosses the thresholds, from -pi/2 at the minimum to pi/2 at the maximum.
        var from = day.Lowest < 0 ? Math.Asin(-day.Mean / half) : -Math.PI / 2;
        var to = day.Highest > day.Above ? Math.Asin((day.Above - day.Mean) / half) : Math.PI / 2;
        var between = (day.Mean * (to - from)) + (half * (Math.Cos(from) - Math.Cos(to)));
        var cut = to < Math.PI / 2 ? day.Above * ((Math.PI / 2) - to) : 0;
        return (between + cut) / Math.PI;
    }

    private static double Square(double value) => value * value;

    /// <summary>A day in degrees above the lower threshold.</summary>
    private readonly record struct Day
    {
        public Day(Temperature lowest, Temperature highest, DevelopmentThresholds thresholds)
        {
            if (highest < lowest)
            {
                throw new ArgumentOutOfRangeException(
                    nameof(highest),
                    highest,
                    "The highest temperature of a day is not below its lowest."
                );
            }

            Lowest = (lowest - thresholds.Lower).Celsius;
            Highest = (highest - thresholds.Lower).Celsius;
            Above = thresholds.Above;
        }

        public double Lowest { get; }

        public double Highest { get; }

        /// <summary>The upper threshold above the lower; infinite where there is none.</summary>
        public double Above { get; }

        public double Mean => 0.5 * (Lowest + Highest);

        /// <summary>What needs no curve: the whole day below, above or between the thresholds, or at one temperature.</summary>
        public double? Trivial =>
            Highest <= 0 ? 0
            : Lowest >= Above ? Above
            : Lowest >= 0 && Highest <= Above ? Mean
            : null;
    }
}
