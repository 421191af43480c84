using Broodtide.Units;

namespace Broodtide.Science.Imaging.Spots;

/// <summary>From what was marked to the number behind it.</summary>
internal static class Spread
{
    // Relative standard deviation of what a photo misses or takes for a thing, from the errors on the pictures with known
    // truth that docs/science/looking.md lists; a keeper's own calibration says more.
    private const double OfPhoto = 0.12;

    // Real pictures without dirt have up to so many doubtful marks; beyond it the number may be off by a factor. Dirt that is
    // like larvae in size and light shows nothing of it: that one photo cannot tell is always said.
    private const double UsuallyDoubtful = 0.3;
    private const double OfUnlike = 0.6;
    private const double ForEachDoubtful = 1.5;

    // Of none marked: so many at most lie unseen with 95 %, if each number is thought as likely as the next and one in five is
    // missed: ln 0.05 / ln 0.2 = 1.9.
    public const double OfNone = 2;

    /// <summary>
    /// Log-normal about the marks; what is hidden is known to half of itself, our choice. At least one more or less, so that a
    /// small number is not told too surely; downwards so many more as may well be no larvae.
    /// </summary>
    /// <param name="marks">What was marked.</param>
    /// <param name="shareHidden">Share that likely looks like one with another.</param>
    /// <param name="shareDoubtful">Share of marks unlike the others: where these are many, others are no larvae either.</param>
    public static Interval OfOnePhoto(int marks, double shareHidden, double shareDoubtful)
    {
        if (marks == 0)
        {
            return Interval.FromPoints(0, 0, OfNone);
        }

        var unlike = Math.Min(1, Math.Max(0, shareDoubtful - UsuallyDoubtful) / UsuallyDoubtful);
        var half = Math.Sqrt(
            Math.Pow(OfPhoto + (shareHidden / 2), 2) + (0.25 / marks) + Math.Pow(OfUnlike * unlike, 2)
        );
        var reach = Math.Exp(Interval.StandardNormal95 * half);
        return Interval.FromPoints(
            marks * Math.Max(0, 1 - (ForEachDoubtful * shareDoubtful)) / reach,
            marks,
            marks * reach
        );
    }
}
