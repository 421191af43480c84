using Broodtide.Units;

namespace Broodtide.Science.Statistics;

/// <summary>
/// A distribution by weights on cells of equal width, uniform inside a cell. What a grid posterior ends in.
/// </summary>
public sealed class GridDistribution
{
    private readonly double[] _cumulative;

    /// <summary>From the weights of cells that follow each other.</summary>
    /// <param name="start">Lower end of the first cell.</param>
    /// <param name="step">Width of every cell, above zero.</param>
    /// <param name="weights">Weights, not negative; they need not sum to one.</param>
    /// <exception cref="ArgumentException">No weight is above zero.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite, or a weight is negative.</exception>
    public GridDistribution(double start, double step, ReadOnlySpan<double> weights)
    {
        Start = Finite.Required(start);
        Step = Finite.Positive(step);
        _cumulative = new double[weights.Length];
        var sum = 0.0;
        for (var i = 0; i < weights.Length; i++)
        {
            sum += Finite.NotNegative(weights[i], nameof(weights));
            _cumulative[i] = sum;
        }

        if (sum <= 0)
        {
            throw new ArgumentException(
                "Nothing is possible: all weights are zero, so the evidence contradicts the prior.",
                nameof(weights)
            );
        }

        for (var i = 0; i < _cumulative.Length; i++)
        {
            _cumulative[i] /= sum;
        }
    }

    /// <summary>Lower end of the first cell.</summary>
    public double Start { get; }

    /// <summary>Width of a cell.</summary>
    public double Step { get; }

    /// <summary>Mean.</summary>
    public double Mean
    {
        get
        {
            var mean = 0.0;
            for (var i = 0; i < _cumulative.Length; i++)
            {
                mean += Share(i) * Middle(i);
            }

            return mean;
        }
    }

    /// <summary>Standard deviation, with the spread inside the cells.</summary>
    public double StandardDeviation
    {
        get
        {
            var mean = Mean;
            var variance = Step * Step / 12;
            for (var i = 0; i < _cumulative.Length; i++)
            {
                var away = Middle(i) - mean;
                variance += Share(i) * away * away;
            }

            return Math.Sqrt(variance);
        }
    }

    /// <summary>Probability of lying at or below a point.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public double Cumulative(double point)
    {
        var place = (Finite.Required(point) - Start) / Step;
        if (place <= 0)
        {
            return 0;
        }

        var cell = (int)Math.Min(place, _cumulative.Length);
        return cell >= _cumulative.Length ? 1 : Below(cell) + (Share(cell) * (place - cell));
    }

    /// <summary>The point below which the number lies with a probability, straight inside a cell.</summary>
    public double Quantile(Probability probability)
    {
        var wanted = probability.Value;
        var cell = Array.BinarySearch(_cumulative, wanted);
        cell = Math.Min(cell < 0 ? ~cell : cell, _cumulative.Length - 1);
        var share = Share(cell);
        var inside = share > 0 ? (wanted - Below(cell)) / share : 0;
        return Start + (Step * (cell + inside));
    }

    private double Middle(int cell) => Start + (Step * (cell + 0.5));

    private double Below(int cell) => cell == 0 ? 0 : _cumulative[cell - 1];

    private double Share(int cell) => _cumulative[cell] - Below(cell);
}
