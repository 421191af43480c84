using Broodtide.Science.Counting;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>
/// A calibrated count as the estimate of larvae alive takes it: <see cref="LookEvidence"/> of what was seen and of the
/// scatter, its detection class believed as <see cref="Chance"/>.
/// </summary>
/// <param name="Seen">Larvae seen; where more is counted than there is, so many as would be seen of the number.</param>
/// <param name="Chance">The chance of one to be seen, shared by all looks of this container and lamp.</param>
/// <param name="Scatter">Size of the negative binomial scatter of one look.</param>
public sealed record CalibratedLook(int Seen, ShareBelief Chance, double Scatter)
{
    // A look that counts more than there is, dirt and all, is taken as one that sees nearly all of its calibrated number.
    private const double MostChance = 0.95;
    private const double LeastChance = 0.02;
    private const double MostLogitSd = 1.5;
    private const double LeastDeviation = 0.03;

    /// <summary>The look; none where the calibration has no fit of its own.</summary>
    /// <param name="calibration">Of the same container and lamp.</param>
    /// <param name="counted">What the program counted before anybody corrected it, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A negative count.</exception>
    public static CalibratedLook? From(CountCalibration calibration, int counted)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(counted);
        if (calibration.CountedOfEach(Math.Max(1, counted)) is not { } share)
        {
            return null;
        }

        var number = Math.Max(1, counted) / share;
        var chance = Math.Clamp(share, LeastChance, MostChance);
        var seen = counted == 0 ? 0 : (int)Math.Round(chance * number);
        // A relative error of a share is so much on the logit scale.
        var logitSd = Math.Min(MostLogitSd, calibration.SharedError(counted)!.Value / (1 - chance));
        var deviation = Math.Max(LeastDeviation, calibration.LogDeviation!.Value);
        return new(seen, new(chance, logitSd), 1 / (deviation * deviation));
    }
}
