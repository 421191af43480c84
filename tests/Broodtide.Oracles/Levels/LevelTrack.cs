using Broodtide.Units;

namespace Broodtide.Oracles.Levels;

/// <summary>
/// A series gone through by the filter of Kalman (1960), value by value; a value that is NaN is missing. Formulas:
/// Durbin and Koopman, Time Series Analysis by State Space Methods (2012), chapter 2.
/// </summary>
public sealed class LevelTrack
{
    private readonly double _stepVariance;
    private readonly double[] _mean;
    private readonly double[] _variance;
    private readonly double[] _ahead;
    private readonly double[] _aheadVariance;
    private readonly double[] _innovation;
    private readonly double[] _innovationVariance;

    private LevelTrack(int length, double stepVariance)
    {
        _stepVariance = stepVariance;
        _mean = new double[length];
        _variance = new double[length];
        _ahead = new double[length];
        _aheadVariance = new double[length];
        _innovation = new double[length];
        _innovationVariance = new double[length];
    }

    /// <summary>Mean of the level, given all values up to the same place.</summary>
    public IReadOnlyList<double> Mean => _mean;

    /// <summary>Its variance.</summary>
    public IReadOnlyList<double> Variance => _variance;

    /// <summary>Of all values, nat.</summary>
    public double LogLikelihood { get; private set; }

    /// <exception cref="ArgumentException">Variances are negative or both zero, or there is no value.</exception>
    public static LevelTrack Of(IReadOnlyList<double> series, LocalLevel level, LevelStart start)
    {
        Finite.NotNegative(level.NoiseVariance);
        Finite.NotNegative(level.StepVariance);
        Finite.Positive(level.NoiseVariance + level.StepVariance);
        Finite.Required(level.Offset);
        if (series.Count == 0 || series.Any(double.IsInfinity))
        {
            throw new ArgumentException("A series of finite values is wanted.", nameof(series));
        }

        var track = new LevelTrack(series.Count, level.StepVariance);
        var (mean, variance) = Before(start, level);
        for (var t = 0; t < series.Count; t++)
        {
            track.Take(t, series[t] - level.Offset, mean, variance, level, start);
            (mean, variance) = (track._mean[t], track._variance[t] + level.StepVariance);
        }

        return track;
    }

    /// <summary>Means and variances of the level, given the whole series (Rauch, Tung and Striebel 1965).</summary>
    public (IReadOnlyList<double> Mean, IReadOnlyList<double> Variance) Smooth()
    {
        double[] mean = [.. _mean];
        double[] variance = [.. _variance];
        for (var t = mean.Length - 2; t >= 0; t--)
        {
            if (double.IsPositiveInfinity(_variance[t]))
            {
                // Nothing known before the first value: the level behind it is that ahead, one step less sure.
                mean[t] = mean[t + 1];
                variance[t] = variance[t + 1] + _stepVariance;
                continue;
            }

            // A level known for certain that makes no steps is not moved by what follows.
            var gain = _aheadVariance[t + 1] > 0 ? _variance[t] / _aheadVariance[t + 1] : 0;
            mean[t] += gain * (mean[t + 1] - _ahead[t + 1]);
            variance[t] += gain * gain * (variance[t + 1] - _aheadVariance[t + 1]);
        }

        return (mean, variance);
    }

    /// <summary>
    /// Ljung and Box (1978): n (n + 2) sum of r(k)^2 / (n - k) over the lags, of the standardised innovations from the
    /// second place on. Missing ones are left out.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than one lag, or not fewer than innovations.</exception>
    public double LjungBox(int lags)
    {
        var standardised = Enumerable
            .Range(1, _mean.Length - 1)
            .Where(t => double.IsFinite(_innovation[t]) && double.IsFinite(_innovationVariance[t]))
            .Select(t => _innovation[t] / Math.Sqrt(_innovationVariance[t]))
            .ToArray();
        Whole.Within(lags, 1, standardised.Length - 1);
        var mean = standardised.Average();
        var all = standardised.Sum(value => (value - mean) * (value - mean));
        var n = (double)standardised.Length;
        var sum = 0.0;
        for (var lag = 1; lag <= lags; lag++)
        {
            var together = 0.0;
            for (var t = lag; t < standardised.Length; t++)
            {
                together += (standardised[t] - mean) * (standardised[t - lag] - mean);
            }

            sum += together / all * (together / all) / (n - lag);
        }

        return n * (n + 2) * sum;
    }

    private static (double Mean, double Variance) Before(LevelStart start, LocalLevel level) =>
        start switch
        {
            LevelStart.Diffuse => (0, double.PositiveInfinity),
            LevelStart.Known known => (Finite.Required(known.Mean), Finite.NotNegative(known.Variance)),
            LevelStart.KnownBefore known => (
                Finite.Required(known.Mean),
                Finite.NotNegative(known.Variance) + level.StepVariance
            ),
            _ => throw new ArgumentException("An unknown start.", nameof(start)),
        };

    private void Take(int t, double value, double mean, double variance, LocalLevel level, LevelStart start)
    {
        (_ahead[t], _aheadVariance[t]) = (mean, variance);
        (_innovation[t], _innovationVariance[t]) = (double.NaN, double.NaN);
        (_mean[t], _variance[t]) = (mean, variance);
        if (double.IsNaN(value))
        {
            return;
        }

        if (double.IsPositiveInfinity(variance))
        {
            (_mean[t], _variance[t]) = (value, level.NoiseVariance);
            LogLikelihood += start is LevelStart.Diffuse { CountsConstant: true }
                ? -0.5 * Math.Log(2 * Math.PI)
                : 0;
            return;
        }

        var seenVariance = Finite.Positive(variance + level.NoiseVariance);
        var off = value - mean;
        var gain = variance / seenVariance;
        (_innovation[t], _innovationVariance[t]) = (off, seenVariance);
        (_mean[t], _variance[t]) = (mean + (gain * off), variance * (1 - gain));
        LogLikelihood -= 0.5 * (Math.Log(2 * Math.PI * seenVariance) + (off * off / seenVariance));
    }
}
