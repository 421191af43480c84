using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Development.Collecting;

/// <summary>Hatching spread like a normal distribution around one hour.</summary>
public sealed record NormalHatch
{
    /// <summary>By mean and standard deviation.</summary>
    /// <param name="meanHours">Middle of the hatching, hours from any beginning.</param>
    /// <param name="sdHours">Standard deviation, hours, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or the deviation not positive.</exception>
    public NormalHatch(double meanHours, double sdHours)
    {
        MeanHours = Finite.Required(meanHours);
        SdHours = Finite.Positive(sdHours);
    }

    /// <summary>Middle of the hatching, hours.</summary>
    public double MeanHours { get; }

    /// <summary>Standard deviation, hours.</summary>
    public double SdHours { get; }

    /// <summary>
    /// Share of all larvae that hatched after one moment and are alive at another, at a constant loss:
    /// exp(-u (t - m) + u^2 s^2 / 2) [F((t - m)/s - u s) - F((t0 - m)/s - u s)].
    /// </summary>
    internal double Alive(double fromHours, double atHours, double lossPerHour)
    {
        var shift = lossPerHour * SdHours;
        var upper = ((atHours - MeanHours) / SdHours) - shift;
        var lower = ((fromHours - MeanHours) / SdHours) - shift;
        // Below this the normal distribution holds nothing that a double can tell.
        if (upper < -37 || upper <= lower)
        {
            return 0;
        }

        var between =
            lower > 0
                ? Normal.CDF(0, 1, -lower) - Normal.CDF(0, 1, -upper)
                : Normal.CDF(0, 1, upper) - Normal.CDF(0, 1, lower);
        return Math.Exp((-shift * upper) - (0.5 * shift * shift)) * between;
    }
}
