using Broodtide.Science.Statistics;
using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Counting;

/// <summary>
/// What a count says where individuals are spread without any order and the sample is a small part of the whole.
/// </summary>
public static class PoissonCount
{
    /// <summary>
    /// Exact limits of the mean behind a count: L = chi2(a/2; 2x)/2, U = chi2(1 - a/2; 2x + 2)/2 (Garwood 1936,
    /// Biometrika 28:437). None seen has a lower limit of 0 and a finite upper one.
    /// </summary>
    /// <param name="seen">The count, 0 or more.</param>
    /// <param name="level">Level of confidence, above 0 and below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A negative count, or a level of 0 or 1.</exception>
    public static Limits Garwood(int seen, Probability level)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(seen);
        var tail = Limits.Tail(level);
        return new(seen == 0 ? 0 : Gamma.InvCDF(seen, 1, tail), Gamma.InvCDF(seen + 1.0, 1, 1 - tail), level);
    }

    /// <summary>
    /// Half the width of the customary 95 % interval, in per cent of the count: 200 / sqrt(count) (Lund, Kipling and
    /// Le Cren 1958, Hydrobiologia 11:143). Good from about 20 on; below, take <see cref="Garwood"/>.
    /// </summary>
    /// <param name="seen">The count, 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A count below 1.</exception>
    public static double RelativeErrorPercent(int seen)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(seen, 1);
        return 200 / Math.Sqrt(seen);
    }
}
