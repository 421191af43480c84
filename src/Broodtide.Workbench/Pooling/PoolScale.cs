using Broodtide.Science.Statistics;
using Broodtide.Units;

namespace Broodtide.Workbench.Pooling;

/// <summary>The scale on which a number of a species is taken to be normal between runs.</summary>
internal enum PoolScale
{
    /// <summary>Its natural logarithm: times, hazards, factors.</summary>
    Logarithm,

    /// <summary>The logarithm of its odds: shares.</summary>
    LogOdds,
}

/// <summary>Goes to a scale and back.</summary>
internal static class PoolScales
{
    public static double To(this PoolScale scale, double value) =>
        scale is PoolScale.Logarithm ? Math.Log(value) : Math.Log(value / (1 - value));

    public static double From(this PoolScale scale, double value) =>
        scale is PoolScale.Logarithm ? Math.Exp(value) : 1 / (1 + Math.Exp(-value));

    public static Interval From(this PoolScale scale, Interval points) =>
        Interval.FromPoints(scale.From(points.Low), scale.From(points.Middle), scale.From(points.High));

    /// <summary>The normal curve through the 5 and 95 % points of a belief.</summary>
    public static NormalBelief Belief(this PoolScale scale, double low, double high) =>
        new(
            (scale.To(low) + scale.To(high)) / 2,
            (scale.To(high) - scale.To(low)) / (2 * Interval.StandardNormal95)
        );

    /// <summary>The same through the median and the outer points of a belief that is no normal curve.</summary>
    public static NormalBelief? Belief(this PoolScale scale, Interval points) =>
        points.Low > 0 && points.High > points.Low && (scale is PoolScale.Logarithm || points.High < 1)
            ? new(
                scale.To(points.Middle),
                (scale.To(points.High) - scale.To(points.Low)) / (2 * Interval.StandardNormal95)
            )
            : null;
}
