using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Survival;

/// <summary>A moment of one or more deaths on a survival curve.</summary>
/// <param name="Time">When, in the unit of the lives.</param>
/// <param name="AtRisk">How many were followed just before.</param>
/// <param name="Deaths">How many died.</param>
/// <param name="Survival">Share alive just after, 0 to 1.</param>
/// <param name="RelativeVariance">
/// Greenwood's sum up to here, the variance of the logarithm of the share.
/// </param>
public sealed record SurvivalStep(
    double Time,
    int AtRisk,
    int Deaths,
    double Survival,
    double RelativeVariance
);

/// <summary>Share still alive by time, in steps down at each death.</summary>
public sealed class SurvivalCurve
{
    internal SurvivalCurve(int lives, double lastSeen, IReadOnlyList<SurvivalStep> steps)
    {
        Lives = lives;
        LastSeen = lastSeen;
        Steps = steps;
    }

    /// <summary>How many lives were followed.</summary>
    public int Lives { get; }

    /// <summary>The last moment at which any life was followed; later the curve knows nothing.</summary>
    public double LastSeen { get; }

    /// <summary>The moments of death, in order.</summary>
    public IReadOnlyList<SurvivalStep> Steps { get; }

    /// <summary>Share alive at a time, deaths at that time counted; 0 to 1.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, negative, or after the last look.</exception>
    public double At(double time) => UpTo(time)?.Survival ?? 1;

    /// <summary>Its standard error (Greenwood 1926).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, negative, or after the last look.</exception>
    public double StandardErrorAt(double time) =>
        UpTo(time) is { } step ? step.Survival * Math.Sqrt(step.RelativeVariance) : 0;

    /// <summary>
    /// The share as an interval, by Greenwood's variance on the scale log(-log S), which keeps it between 0 and 1
    /// (Kalbfleisch and Prentice 1980, section 1.3). Where none or all have died so far, the far end is the exact
    /// binomial limit: the share at which that would happen once in twenty times.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, negative, or after the last look.</exception>
    public Interval IntervalAt(double time)
    {
        var step = UpTo(time);
        var limit = Math.Pow(0.05, 1.0 / Lives);
        if (step is null)
        {
            return Interval.FromPoints(limit, 1, 1);
        }

        if (step.Survival <= 0)
        {
            return Interval.FromPoints(0, 0, 1 - limit);
        }

        var log = Math.Log(step.Survival);
        var reach = Normal.InvCDF(0, 1, 0.95) * Math.Sqrt(step.RelativeVariance) / Math.Abs(log);
        return Interval.FromPoints(
            Math.Exp(log * Math.Exp(reach)),
            step.Survival,
            Math.Exp(log * Math.Exp(-reach))
        );
    }

    private SurvivalStep? UpTo(double time)
    {
        Finite.Within(time, 0, LastSeen);
        SurvivalStep? last = null;
        foreach (var step in Steps)
        {
            if (step.Time > time)
            {
                break;
            }

            last = step;
        }

        return last;
    }
}
