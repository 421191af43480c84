using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>
/// Adaptive importance sampling on fixed points: each round lays Sobol points through a normal distribution fitted to
/// the weighted points of all rounds before, and in the end all points speak, each weighed by the mixture of all the
/// distributions that points were drawn from (adaptive multiple importance sampling, Cornuet, Marin, Mira and Robert
/// 2012). No chance is in it, so the same question has the same answer.
/// </summary>
internal static class AdaptiveSampling
{
    // Chosen by trying: see docs/science/alive.md.
    private static readonly int[] Rounds = [128, 64, 64, 64, 64, 64];
    private const int ExtraRound = 64;
    private const int MostExtra = 5;
    private const double Widening = 1.3;
    private const double Ridge = 0.03;
    private const double LeastForFit = 20;

    /// <summary>Below this the answer is called rough.</summary>
    internal const double LeastEffective = 50;

    /// <summary>The weighted points last, and none at each pause before.</summary>
    /// <param name="unknowns">Number of unknowns, each standard normal beforehand.</param>
    /// <param name="suppose">What follows from a point.</param>
    /// <param name="pauseAfter">How many points to weigh between pauses.</param>
    internal static IEnumerable<WeightedPoints?> Run(
        int unknowns,
        Func<double[], SuppositionResult> suppose,
        int pauseAfter
    )
    {
        var cloud = new PointCloud();
        var proposal = NormalProposal.Prior(unknowns);
        for (var round = 0; ; round++)
        {
            cloud.Begin(proposal, round < Rounds.Length ? Rounds[round] : ExtraRound);
            while (cloud.Weigh(pauseAfter, suppose))
            {
                yield return null;
            }

            var weighted = cloud.Weighted();
            var extra = round + 1 - Rounds.Length;
            if (extra >= 0 && (weighted.EffectiveSize >= LeastEffective || extra == MostExtra))
            {
                yield return weighted;
                yield break;
            }

            proposal = Fit(weighted);
        }
    }

    private static NormalProposal Fit(WeightedPoints seen)
    {
        var weights = Tempered(seen);
        var size = seen.Points[0].Length;
        var mean = new double[size];
        for (var i = 0; i < weights.Length; i++)
        {
            for (var d = 0; d < size; d++)
            {
                mean[d] += weights[i] * seen.Points[i][d];
            }
        }

        var spread = Matrix<double>.Build.Dense(size, size);
        for (var i = 0; i < weights.Length; i++)
        {
            if (weights[i] < 1e-8)
            {
                continue;
            }

            for (var d = 0; d < size; d++)
            {
                for (var e = 0; e <= d; e++)
                {
                    spread[d, e] +=
                        weights[i] * (seen.Points[i][d] - mean[d]) * (seen.Points[i][e] - mean[e]);
                }
            }
        }

        for (var d = 0; d < size; d++)
        {
            for (var e = 0; e <= d; e++)
            {
                spread[d, e] = (Widening * spread[d, e]) + (d == e ? Ridge : 0);
                spread[e, d] = spread[d, e];
            }
        }

        return NormalProposal.Normal(mean, spread.Cholesky().Factor);
    }

    // With too few points that speak the weights are flattened, so that the fit does not collapse on one of them.
    private static double[] Tempered(WeightedPoints seen)
    {
        if (seen.EffectiveSize >= LeastForFit)
        {
            return seen.Weights;
        }

        double low = 0;
        double high = 1;
        var result = seen.Weights;
        for (var step = 0; step < 20; step++)
        {
            var power = (low + high) / 2;
            result = Array.ConvertAll(seen.Weights, weight => weight > 0 ? Math.Pow(weight, power) : 0);
            var sum = result.Sum();
            var squares = result.Sum(weight => weight * weight);
            if (sum * sum / squares < LeastForFit)
            {
                high = power;
            }
            else
            {
                low = power;
            }

            result = Array.ConvertAll(result, weight => weight / sum);
        }

        return result;
    }
}
