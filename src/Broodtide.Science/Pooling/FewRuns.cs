using Broodtide.Science.Statistics;
using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Pooling;

/// <summary>
/// What few runs tell about the next one. With four runs or fewer no method can say how much runs differ, so that is
/// believed beforehand: half a normal curve for the deviation between runs, flat for the mean (Röver et al. 2021, Res.
/// Synth. Methods 12:448, who advise it on the scale of log odds; 0.5 there). Everything is summed over a grid.
/// </summary>
public sealed class FewRuns
{
    private const int Steps = 400;
    private const double Farthest = 5;

    private readonly (double Weight, double Mean, double MeanVariance, double BetweenVariance)[] _grid;

    private FewRuns((double Weight, double Mean, double MeanVariance, double BetweenVariance)[] grid) =>
        _grid = grid;

    /// <summary>Where the common mean lies, 5, 50 and 95 %.</summary>
    public Interval Mean => Spread(at => at.MeanVariance);

    /// <summary>Where the truth of the next run lies, 5, 50 and 95 %.</summary>
    public Interval Next => Spread(at => at.MeanVariance + at.BetweenVariance);

    /// <summary>Mean and standard deviation of the truth of the next run.</summary>
    public (double Mean, double Deviation) NextMoments
    {
        get
        {
            var mean = _grid.Sum(at => at.Weight * at.Mean);
            var variance = _grid.Sum(at =>
                at.Weight * (at.MeanVariance + at.BetweenVariance + Math.Pow(at.Mean - mean, 2))
            );
            return (mean, Math.Sqrt(variance));
        }
    }

    /// <summary>Pools one run or more, or none where the mean is believed beforehand.</summary>
    /// <param name="effects">The runs.</param>
    /// <param name="deviationScale">Scale of the half normal curve for the deviation between runs, above 0.</param>
    /// <param name="mean">What is believed of the mean beforehand; nothing if left out.</param>
    /// <exception cref="ArgumentException">There is no run, and nothing is believed beforehand.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The scale is not above 0.</exception>
    public static FewRuns Of(
        IReadOnlyList<RunEffect> effects,
        double deviationScale = 0.5,
        NormalBelief? mean = null
    )
    {
        Finite.Positive(deviationScale);
        if (effects.Count == 0 && mean is null)
        {
            throw new ArgumentException("One run at least is needed.", nameof(effects));
        }

        var grid = new (double LogWeight, double Mean, double MeanVariance, double BetweenVariance)[Steps];
        for (var i = 0; i < Steps; i++)
        {
            var deviation = (i + 0.5) / Steps * Farthest * deviationScale;
            grid[i] = At(effects, deviation * deviation, mean);
            grid[i].LogWeight -= 0.5 * Math.Pow(deviation / deviationScale, 2);
        }

        var most = grid.Max(at => at.LogWeight);
        var sum = grid.Sum(at => Math.Exp(at.LogWeight - most));
        return new([
            .. grid.Select(at =>
                (Math.Exp(at.LogWeight - most) / sum, at.Mean, at.MeanVariance, at.BetweenVariance)
            ),
        ]);
    }

    // The likelihood with the mean integrated out.
    private static (double LogWeight, double Mean, double MeanVariance, double BetweenVariance) At(
        IReadOnlyList<RunEffect> effects,
        double betweenVariance,
        NormalBelief? believed
    )
    {
        var own = believed is null ? 0 : 1 / (believed.StandardDeviation * believed.StandardDeviation);
        var (weights, weighted, logs) = (own, own * (believed?.Mean ?? 0), 0.0);
        foreach (var effect in effects)
        {
            var weight = 1 / (effect.Variance + betweenVariance);
            weights += weight;
            weighted += weight * effect.Estimate;
            logs += Math.Log(weight);
        }

        var mean = weighted / weights;
        var q =
            (own * Math.Pow(mean - (believed?.Mean ?? 0), 2))
            + effects.Sum(effect =>
                Math.Pow(effect.Estimate - mean, 2) / (effect.Variance + betweenVariance)
            );
        return (0.5 * (logs - Math.Log(weights) - q), mean, 1 / weights, betweenVariance);
    }

    private Interval Spread(
        Func<(double Weight, double Mean, double MeanVariance, double BetweenVariance), double> variance
    ) => Interval.FromPoints(Point(0.05, variance), Point(0.5, variance), Point(0.95, variance));

    // By bisection: the mixture of normal curves rises without a break.
    private double Point(
        double probability,
        Func<(double Weight, double Mean, double MeanVariance, double BetweenVariance), double> variance
    )
    {
        var low = _grid.Min(at => at.Mean - (10 * Math.Sqrt(variance(at))));
        var high = _grid.Max(at => at.Mean + (10 * Math.Sqrt(variance(at))));
        for (var step = 0; step < 100; step++)
        {
            var middle = (low + high) / 2;
            var below = _grid.Sum(at => at.Weight * Normal.CDF(at.Mean, Math.Sqrt(variance(at)), middle));
            (low, high) = below < probability ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;
    }
}
