using Broodtide.Science.Statistics;
using Broodtide.Units;
using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Counting;

/// <summary>The belief about a number in a vessel after aliquots: what was seen in them, and what stayed.</summary>
public sealed class AliquotTotalPosterior
{
    // From this shape on a gamma is read off the normal by its cube root (Wilson and Hilferty 1931, PNAS 17:684).
    private const double LargeShape = 30;
    private const double NobodyLeft = 1e-10;

    private readonly double _restLitres;
    private readonly double _aliquotLitres;
    private readonly DensityBelief _belief;

    internal AliquotTotalPosterior(double seen, double restLitres, double aliquotLitres, DensityBelief belief)
    {
        Seen = seen;
        _restLitres = restLitres;
        _aliquotLitres = aliquotLitres;
        _belief = belief;
    }

    /// <summary>How many were seen in all aliquots.</summary>
    public double Seen { get; }

    /// <summary>Mean of 1/k after the counts; 0 where evenly mixed.</summary>
    public double ReciprocalClumping =>
        _belief.Densities.Sum(density => density.Weight * density.ReciprocalK);

    /// <summary>Clumping k after the counts; none where it was known or evenly mixed.</summary>
    public Interval? Clumping
    {
        get
        {
            var points = _belief.ClumpingPoints;
            if (points.Count < 2)
            {
                return null;
            }

            var step = points[1] - points[0];
            var logK = new GridDistribution(points[0] - (step / 2), step, [.. _belief.ClumpingWeights]);
            return WholeNumbers.ToInterval(probability => Math.Exp(logK.Quantile(probability)));
        }
    }

    /// <summary>The smallest number in the vessel whose cumulative probability reaches a probability, larvae.</summary>
    /// <param name="probability">0 to below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A probability of 1.</exception>
    public double Quantile(Probability probability)
    {
        var wanted = Finite.Within(probability.Value, 0, 1 - 1e-9, nameof(probability));
        return _restLitres <= 0 ? Seen : Seen + WholeNumbers.First(0, left => Below(left) >= wanted);
    }

    /// <summary>The 5, 50 and 95 % points, larvae.</summary>
    public Interval ToInterval() => WholeNumbers.ToInterval(Quantile);

    // Chance that no more than so many stayed. At one density they have mean d V and variance d V + (d V)^2 (v / V) / k,
    // V the litres that stayed and v those of an aliquot; a gamma of these moments, read half a larva higher.
    private double Below(double left)
    {
        var below = 0.0;
        foreach (var density in _belief.Densities)
        {
            var mean = density.PerLitre * _restLitres;
            var variance = mean + (mean * mean * _aliquotLitres / _restLitres * density.ReciprocalK);
            below += density.Weight * GammaBelow(mean, mean * mean / variance, left + 0.5);
        }

        return below;
    }

    private static double GammaBelow(double mean, double shape, double point)
    {
        if (shape < NobodyLeft)
        {
            return 1;
        }

        return shape < LargeShape
            ? SpecialFunctions.GammaLowerRegularized(shape, point * shape / mean)
            : Normal.CDF(0, 1, 3 * Math.Sqrt(shape) * (Math.Cbrt(point / mean) - 1 + (1 / (9 * shape))));
    }
}
