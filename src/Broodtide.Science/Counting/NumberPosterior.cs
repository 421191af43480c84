using Broodtide.Units;

namespace Broodtide.Science.Counting;

/// <summary>
/// A belief about a whole number by weights on numbers that follow each other, each alone or, where there are very
/// many, each standing for its neighbours.
/// </summary>
public sealed record NumberPosterior
{
    // Beyond this many numbers each point stands for its neighbours.
    private const double MostPoints = 40_000;

    // Where the weight has fallen by this much (nat), the rest no longer shows.
    private const double Negligible = 40;

    private readonly double[] _cumulative;

    private NumberPosterior(double least, double step, double[] logWeights)
    {
        Least = least;
        Step = step;
        var top = logWeights.Max();
        if (!double.IsFinite(top))
        {
            throw new ArgumentException(
                "No number fits: the counts contradict each other.",
                nameof(logWeights)
            );
        }

        _cumulative = new double[logWeights.Length];
        var (sum, mean, square) = (0.0, 0.0, 0.0);
        for (var i = 0; i < logWeights.Length; i++)
        {
            var weight = Math.Exp(logWeights[i] - top);
            var away = i * step;
            sum += weight;
            mean += weight * away;
            square += weight * away * away;
            _cumulative[i] = sum;
        }

        Mean = least + (mean / sum);
        StandardDeviation = Math.Sqrt(Math.Max(0, (square / sum) - Math.Pow(mean / sum, 2)));
        for (var i = 0; i < _cumulative.Length; i++)
        {
            _cumulative[i] /= sum;
        }
    }

    /// <summary>The least number with a weight.</summary>
    public double Least { get; }

    /// <summary>Distance between the numbers that carry weights; 1 where each number has its own.</summary>
    public double Step { get; }

    /// <summary>Mean.</summary>
    public double Mean { get; }

    /// <summary>Standard deviation.</summary>
    public double StandardDeviation { get; }

    /// <summary>The smallest number whose cumulative probability reaches a probability.</summary>
    public double Quantile(Probability probability)
    {
        var place = Array.BinarySearch(_cumulative, probability.Value);
        place = place < 0 ? ~place : place;
        while (place > 0 && _cumulative[place - 1] >= probability.Value)
        {
            place--;
        }

        return Least + (Step * Math.Min(place, _cumulative.Length - 1));
    }

    /// <summary>The 5, 50 and 95 % points.</summary>
    public Interval ToInterval() => WholeNumbers.ToInterval(Quantile);

    /// <summary>Over all numbers of a range, each with the logarithm of its weight.</summary>
    internal static NumberPosterior Over(int least, double[] logWeights) => new(least, 1, logWeights);

    /// <summary>
    /// From a logarithm of weights with one top, over every number from the least one up to where it no longer shows.
    /// </summary>
    /// <param name="least">The least number possible.</param>
    /// <param name="near">A number near the top.</param>
    /// <param name="logWeight">Logarithm of the weight of a number.</param>
    internal static NumberPosterior Around(double least, double near, Func<double, double> logWeight)
    {
        var top = Top(least, Math.Max(least, Math.Round(near)), logWeight);
        var floor = logWeight(top) - Negligible;
        var beyond = WholeNumbers.First(top + 1, n => logWeight(n) < floor);
        var first =
            logWeight(least) >= floor
                ? least
                : least + WholeNumbers.First(0, m => m >= top - least || logWeight(least + m) >= floor);
        var step = Math.Max(1, Math.Ceiling((beyond - first) / MostPoints));
        var weights = new double[(int)((beyond - first) / step) + 1];
        for (var i = 0; i < weights.Length; i++)
        {
            weights[i] = logWeight(first + (i * step));
        }

        return new(first, step, weights);
    }

    // Climbs from a number nearby: doubling steps up, then down, until neither side is higher.
    private static double Top(double least, double start, Func<double, double> logWeight)
    {
        var (top, value) = (start, logWeight(start));
        for (var step = Math.Max(1, Math.Ceiling(start / 4)); ; step = Math.Ceiling(step / 2))
        {
            foreach (var way in (ReadOnlySpan<double>)[step, -step])
            {
                while (top + way >= least && logWeight(top + way) is var there && there > value)
                {
                    (top, value) = (top + way, there);
                }
            }

            if (step <= 1)
            {
                return top;
            }
        }
    }
}
