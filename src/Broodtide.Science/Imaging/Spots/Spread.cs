using Broodtide.Units;

namespace Broodtide.Science.Imaging.Spots;

/// <summary>From what was marked to the number behind it.</summary>
internal static class Spread
{
    // Relative standard deviations of what a picture misses or takes for a thing, from the errors on the pictures with
    // known truth that docs/science/looking.md lists; a keeper's own calibration says more.
    public const double OfPhoto = 0.12;
    public const double OfBurst = 0.08;

    /// <summary>
    /// Log-normal about the marks raised by what is hidden. What is hidden is known to half of itself, our choice; a
    /// share that may lie still and unseen raises the upper end alone.
    /// </summary>
    public static Interval Number(double marks, double shareHidden, double deviation, double shareStill)
    {
        var middle = marks / (1 - shareHidden);
        // At least one more or less, so that a small number is not told too surely.
        var half = Math.Sqrt(
            Math.Pow(deviation, 2) + Math.Pow(shareHidden / 2, 2) + (0.25 / Math.Max(1, marks))
        );
        var reach = Math.Exp(Interval.StandardNormal95 * half);
        var low = marks > 0 ? middle / reach : 0;
        var high = marks > 0 ? middle * reach / (1 - shareStill) : PoissonOfNone;
        return Interval.FromPoints(low, middle, high);
    }

    // The 95 % point of a Poisson mean of which none was seen, with a flat prior: -ln 0.05.
    private const double PoissonOfNone = 2.995732273553991;
}
