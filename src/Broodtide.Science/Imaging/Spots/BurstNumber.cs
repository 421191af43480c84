using Broodtide.Units;

namespace Broodtide.Science.Imaging.Spots;

/// <summary>What the frames of a burst say of the number that swims there.</summary>
/// <param name="Middle">The median of the marks of the frames that count.</param>
/// <param name="Mean">Their mean.</param>
/// <param name="Between">The variance of their numbers between the frames.</param>
/// <param name="Hidden">Share that looks like one with another, 0 to 1 without 1.</param>
/// <param name="Area">The middle area of what was marked, in pixels of the picture looked at.</param>
/// <param name="Doubtful">Things of a frame that seem to move and were not marked.</param>
/// <param name="IsTooBright">Whether the light burns part of the picture white.</param>
internal sealed record BurstNumber(
    double Middle,
    double Mean,
    double Between,
    double Hidden,
    double Area,
    double Doubtful,
    bool IsTooBright
)
{
    // All chosen on invented scenes of the seed that docs/science/looking.md names for it: by the likelihood of the true
    // numbers, and then the deviations widened. A keeper's own calibration says more.

    // The mean counts for so much beside the median, and this is what lies still or is missed, on the whole.
    private const double OfMean = 0.75;
    private const double Missed = 0.045;

    // Small things are missed more often: by this power of how many times they are smaller than is plain to see. Among few
    // there is dirt enough to leave the area unknown.
    private const double PlainArea = 100;
    private const double MissedSmall = 0.36;
    private const double Many = 10;

    // Squares of relative deviations: of any count, of one thing, of small things, of a core burnt white.
    private const double OfAny = 0.01;
    private const double OfOne = 0.13;
    private const double OfSmall = 0.045;
    private const double OfTooBright = 0.15;

    // Frames differ by some of the number anyway; what is beyond tells of a poor picture.
    private const double UsuallyBetween = 0.15;
    private const double OfBetween = 1.5;

    // Each doubtful thing beyond a few may be a larva. Their errors go together, so that it is their root that counts.
    private const double UsuallyDoubtful = 2;
    private const double OfDoubtful = 0.5;

    // Added before the logarithm, so that none is a number too.
    private const double Shift = 0.4;

    /// <summary>
    /// The number: log-normal about what was marked and is missed, the upper side wider by what is doubtful; its ends are
    /// whole numbers, as larvae are.
    /// </summary>
    public Interval Number()
    {
        var small = Math.Max(0, Math.Log(PlainArea / Math.Max(1, Area))) * Math.Min(1, Middle / Many);
        var seen = ((1 - OfMean) * Middle) + (OfMean * Mean);
        var middle = seen * (1 + Missed) / (1 - Hidden) * Math.Exp(MissedSmall * small);
        var about = middle + Shift;
        var between = OfBetween * Math.Max(0, Between - (UsuallyBetween * about)) / (about * about);
        var deviation = Math.Sqrt(
            OfAny + (OfOne / about) + between + (OfSmall * small * small) + (IsTooBright ? OfTooBright : 0)
        );
        var reach = Interval.StandardNormal95;
        var doubtful = OfDoubtful * Math.Sqrt(Math.Max(0, Doubtful - UsuallyDoubtful));
        var low = Math.Round(Math.Max(0, (about * Math.Exp(-reach * deviation)) - Shift));
        var high = Math.Round((about * Math.Exp(reach * deviation)) - Shift + (reach * doubtful));
        high = Middle > 0 ? high : Math.Max(high, Spread.OfNone);
        return Interval.FromPoints(low, Math.Clamp(middle, low, high), high);
    }
}
