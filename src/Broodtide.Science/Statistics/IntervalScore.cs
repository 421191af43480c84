using Broodtide.Units;

namespace Broodtide.Science.Statistics;

/// <summary>
/// Scores of forecasts given as intervals or quantiles: the smaller the better, in the unit of what is forecast.
/// Sources: Gneiting and Raftery 2007, J. Am. Stat. Assoc. 102:359, eq. 43; Bracher et al. 2021, PLoS Comput. Biol.
/// 17:e1008618.
/// </summary>
public static class IntervalScore
{
    /// <summary>Width, plus 2/alpha for each unit by which the interval missed.</summary>
    /// <param name="forecast">The interval and its level.</param>
    /// <param name="happened">What happened.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public static double Of(CentralInterval forecast, double happened)
    {
        Finite.Required(happened);
        var missed = Math.Max(0, forecast.Lower - happened) + Math.Max(0, happened - forecast.Upper);
        return forecast.Upper - forecast.Lower + (2 / forecast.Alpha * missed);
    }

    /// <summary>
    /// Several intervals and the median together: each interval's score times alpha/2, half the miss of the median,
    /// all over K + 1/2.
    /// </summary>
    /// <param name="median">Median of the forecast.</param>
    /// <param name="forecasts">Intervals, at least one.</param>
    /// <param name="happened">What happened.</param>
    /// <exception cref="ArgumentException">There is no interval.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public static double Weighted(double median, ReadOnlySpan<CentralInterval> forecasts, double happened)
    {
        if (forecasts.IsEmpty)
        {
            throw new ArgumentException("At least one interval is needed.", nameof(forecasts));
        }

        var sum = Math.Abs(Finite.Required(happened) - Finite.Required(median)) / 2;
        foreach (var forecast in forecasts)
        {
            sum += forecast.Alpha / 2 * Of(forecast, happened);
        }

        return sum / (forecasts.Length + 0.5);
    }

    /// <summary>Pinball loss of one quantile.</summary>
    /// <param name="level">Level of the quantile, above 0 and below 1.</param>
    /// <param name="quantile">The forecast quantile.</param>
    /// <param name="happened">What happened.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public static double Pinball(Probability level, double quantile, double happened)
    {
        var above = Finite.Required(happened) - Finite.Required(quantile);
        return above >= 0 ? level.Value * above : -level.Opposite * above;
    }
}
