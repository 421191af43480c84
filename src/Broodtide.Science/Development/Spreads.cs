using Broodtide.Units;

namespace Broodtide.Science.Development;

/// <summary>
/// A positive quantity whose logarithm is normal: known by its median and the standard deviation of its natural
/// logarithm. The unit of the median stands in the name of whatever holds it. A log standard deviation of zero
/// means a value known exactly.
/// </summary>
public readonly record struct LognormalSpread
{
    private LognormalSpread(double median, double logSd)
    {
        Median = median;
        LogSd = logSd;
    }

    /// <summary>Half of the distribution lies below.</summary>
    public double Median { get; }

    /// <summary>Standard deviation of the natural logarithm, 0 or more; no unit.</summary>
    public double LogSd { get; }

    /// <summary>From the median and the standard deviation of the natural logarithm.</summary>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The median is not finite and positive, or the log standard deviation not finite or outside 0 to 3.
    /// </exception>
    public static LognormalSpread FromMedian(double median, double logSd) =>
        new(Finite.Positive(median), Finite.Within(logSd, 0, 3));

    /// <summary>The spread whose 5 and 95 % points are the two given: the usual reading of "from a to b".</summary>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A point is not finite and positive, or they do not ascend.
    /// </exception>
    public static LognormalSpread FromRange(double fivePercent, double ninetyFivePercent)
    {
        Finite.Positive(fivePercent);
        Finite.Within(ninetyFivePercent, fivePercent, double.MaxValue);
        return FromMedian(
            Math.Sqrt(fivePercent * ninetyFivePercent),
            Math.Log(ninetyFivePercent / fivePercent) / (2 * Interval.StandardNormal95)
        );
    }
}

/// <summary>
/// One part of the distribution of the time from spawning to hatch, in days at the reference temperature. Several
/// parts make a distribution with a narrow middle and honest tails.
/// </summary>
/// <param name="Weight">Relative weight, above 0; the weights need not sum to one.</param>
/// <param name="DaysAtReference">Days from spawning to hatch at the reference temperature.</param>
public readonly record struct RequirementPart(double Weight, LognormalSpread DaysAtReference);
