using Broodtide.Units;

namespace Broodtide.Science.Imaging.Spots;

/// <summary>From what was marked to the number behind it.</summary>
internal static class Spread
{
    // Relative standard deviations of what a picture misses or takes for a thing, from the errors on invented scenes and on
    // the pictures with known truth that docs/science/looking.md lists; a keeper's own calibration says more.
    public const double OfPhoto = 0.12;
    public const double OfBurst = 0.14;

    /// <summary>
    /// Log-normal about the marks raised by what is hidden and by half of what may lie still. What is hidden is known to half
    /// of itself, our choice; that all of the share may lie still raises the upper end alone, and
    /// so do doubtful things that were not marked.
    /// </summary>
    public static Interval Number(
        double marks,
        double shareHidden,
        double deviation,
        double shareStill,
        double doubtful = 0
    )
    {
        var middle = marks / (1 - shareHidden) / (1 - (shareStill / 2));
        // At least one more or less, so that a small number is not told too surely.
        var half = Math.Sqrt(
            Math.Pow(deviation, 2) + Math.Pow(shareHidden / 2, 2) + (0.25 / Math.Max(1, marks))
        );
        var reach = Math.Exp(Interval.StandardNormal95 * half);
        var low = marks > 0 ? middle / reach : 0;
        var high = marks > 0 ? middle * reach / (1 - (shareStill / 2)) : OfNone;
        return Interval.FromPoints(low, middle, high + doubtful);
    }

    // Of none marked: so many at most lie unseen with 95 %, if each number is thought as likely as the next and one in five is
    // missed: ln 0.05 / ln 0.2 = 1.9.
    private const double OfNone = 2;
}
