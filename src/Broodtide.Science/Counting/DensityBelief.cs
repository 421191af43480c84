using Broodtide.Science.Statistics;
using MathNet.Numerics;

namespace Broodtide.Science.Counting;

/// <summary>A density with its weight.</summary>
/// <param name="PerLitre">Larvae per litre.</param>
/// <param name="Weight">Weight, of one in all.</param>
/// <param name="ReciprocalK">Mean of 1/k at this density.</param>
internal readonly record struct WeighedDensity(double PerLitre, double Weight, double ReciprocalK);

/// <summary>The belief about density and clumping after aliquots, on a grid of their logarithms.</summary>
/// <param name="Densities">Densities with weights.</param>
/// <param name="ClumpingPoints">Points of ln k.</param>
/// <param name="ClumpingWeights">Weights of the points, of one in all.</param>
internal sealed record DensityBelief(
    IReadOnlyList<WeighedDensity> Densities,
    IReadOnlyList<double> ClumpingPoints,
    IReadOnlyList<double> ClumpingWeights
)
{
    private const int Points = 240;
    private const int Rounds = 5;

    // A density this far (in ln) above the simple estimate, or so few in all litres seen, is not thought possible; and
    // where the weight has fallen by so much (nat) it no longer shows.
    private const double FarAbove = 12;
    private const double FarBelow = 14;
    private const double Negligible = 20;

    internal static DensityBelief After(
        IReadOnlyList<AliquotSeen> aliquots,
        ClumpingPrior clumping,
        CountPrior prior
    )
    {
        var litres = aliquots.Sum(aliquot => aliquot.Volume.Litres);
        var simple = Math.Log((aliquots.Sum(aliquot => (double)aliquot.Seen) + 1) / litres);
        var (low, high) = (simple - FarBelow, simple + FarAbove);
        var evidence = Evidence.Of(aliquots, clumping, prior);
        var points = evidence.Points;
        var weights = Weights(evidence, low, high);
        for (var round = 0; round < Rounds; round++)
        {
            // Closer in, until the grid covers no more than what shows.
            var rows = Enumerable
                .Range(0, Points)
                .Select(i => Enumerable.Range(0, points.Length).Max(j => weights[i, j]))
                .ToArray();
            var top = rows.Max();
            var first = Array.FindIndex(rows, row => row > top - Negligible);
            var last = Array.FindLastIndex(rows, row => row > top - Negligible);
            var step = (high - low) / (Points - 1);
            if (first <= 1 && last >= Points - 2)
            {
                break;
            }

            (low, high) = (
                low + (Math.Max(0, first - 1) * step),
                low + (Math.Min(Points - 1, last + 1) * step)
            );
            weights = Weights(evidence, low, high);
        }

        return Summed(weights, points, low, high);
    }

    // ln NegBin(x; d v, k) without what does not hang on d or k: ln k (k + 1) ... (k + x - 1) - k ln(1 + d v / k)
    // + x ln(d v) - x ln(k + d v). Aliquots of one volume share the logarithms.
    private static double[,] Weights(Evidence evidence, double low, double high)
    {
        var points = evidence.Points;
        var weights = new double[Points, points.Length];
        for (var i = 0; i < Points; i++)
        {
            var logDensity = low + ((high - low) * i / (Points - 1));
            var perLitre = Math.Exp(logDensity);
            for (var j = 0; j < points.Length; j++)
            {
                // A prior d^(s-1) of the density is exp(s ln d) in its logarithm.
                var log = evidence.Constants[j] + ((evidence.Shape + evidence.Seen) * logDensity);
                var k = Math.Exp(points[j].LogK);
                foreach (var (litres, aliquots, seen) in evidence.ByVolume)
                {
                    var mean = perLitre * litres;
                    log -= double.IsFinite(k)
                        ? (aliquots * k * SpecialFunctions.Log1p(mean / k)) + (seen * Math.Log(k + mean))
                        : aliquots * mean;
                }

                weights[i, j] = log;
            }
        }

        return weights;
    }

    private static DensityBelief Summed(
        double[,] weights,
        (double LogK, double Weight)[] points,
        double low,
        double high
    )
    {
        var top = weights.Cast<double>().Max();
        var ofClumping = new double[points.Length];
        var ofDensity = new double[Points];
        var reciprocal = new double[Points];
        for (var i = 0; i < Points; i++)
        {
            for (var j = 0; j < points.Length; j++)
            {
                var weight = Math.Exp(weights[i, j] - top);
                ofClumping[j] += weight;
                ofDensity[i] += weight;
                reciprocal[i] += weight * Math.Exp(-points[j].LogK);
            }
        }

        var sum = ofClumping.Sum();
        return new(
            [
                .. Enumerable
                    .Range(0, Points)
                    .Where(i => ofDensity[i] > 0)
                    .Select(i => new WeighedDensity(
                        Math.Exp(low + ((high - low) * i / (Points - 1))),
                        ofDensity[i] / sum,
                        reciprocal[i] / ofDensity[i]
                    )),
            ],
            [.. points.Select(point => point.LogK)],
            [.. ofClumping.Select(weight => weight / sum)]
        );
    }

    // What the aliquots say, gathered so that a point of the grid costs little.
    private sealed record Evidence(
        (double LogK, double Weight)[] Points,
        double[] Constants,
        double Shape,
        double Seen,
        (double Litres, int Aliquots, double Seen)[] ByVolume
    )
    {
        internal static Evidence Of(
            IReadOnlyList<AliquotSeen> aliquots,
            ClumpingPrior clumping,
            CountPrior prior
        )
        {
            var points = clumping.Points();
            return new(
                points,
                [
                    .. points.Select(point =>
                        Math.Log(point.Weight)
                        + (
                            double.IsFinite(point.LogK)
                                ? aliquots.Sum(aliquot =>
                                    LogProbability.LogRising(Math.Exp(point.LogK), aliquot.Seen)
                                )
                                : 0
                        )
                    ),
                ],
                prior.Shape(),
                aliquots.Sum(aliquot => (double)aliquot.Seen),
                [
                    .. aliquots
                        .GroupBy(aliquot => aliquot.Volume.Litres)
                        .Select(group =>
                            (group.Key, group.Count(), group.Sum(aliquot => (double)aliquot.Seen))
                        ),
                ]
            );
        }
    }
}
