using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>What follows from some points of the unknowns.</summary>
internal delegate void Supposing(ReadOnlySpan<double[]> points, Span<SuppositionResult> results);

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
    /// <param name="suppose">What follows from some points; at most <see cref="Lanes.Count"/> are asked at once.</param>
    /// <param name="pauseAfter">How many points to weigh between pauses.</param>
    internal static IEnumerable<WeightedPoints?> Run(int unknowns, Supposing suppose, int pauseAfter)
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

        // Only the lower triangle; the other is its mirror.
        var spread = new double[size * size];
        var off = new double[size];
        for (var i = 0; i < weights.Length; i++)
        {
            if (weights[i] < 1e-8)
            {
                continue;
            }

            var point = seen.Points[i];
            for (var d = 0; d < size; d++)
            {
                off[d] = point[d] - mean[d];
                ManyNumbers.AddTimes(
                    off.AsSpan(0, d + 1),
                    weights[i] * off[d],
                    spread.AsSpan(d * size, d + 1)
                );
            }
        }

        for (var d = 0; d < size; d++)
        {
            for (var e = 0; e <= d; e++)
            {
                spread[(d * size) + e] = (Widening * spread[(d * size) + e]) + (d == e ? Ridge : 0);
                spread[(e * size) + d] = spread[(d * size) + e];
            }
        }

        return NormalProposal.Normal(mean, Matrix<double>.Build.Dense(size, size, spread).Cholesky().Factor);
    }

    // With too few points that speak the weights are flattened, so that the fit does not collapse on one of them.
    private static double[] Tempered(WeightedPoints seen)
    {
        if (seen.EffectiveSize >= LeastForFit)
        {
            return seen.Weights;
        }

        // Weights to a power by their logarithms, which are taken once; a weight of zero stays zero.
        var logs = Array.ConvertAll(seen.Weights, weight => Math.Log(weight));
        var result = new double[logs.Length];
        double low = 0;
        double high = 1;
        for (var step = 0; step < 20; step++)
        {
            var power = (low + high) / 2;
            var (sum, squares) = (0.0, 0.0);
            for (var i = 0; i < logs.Length; i++)
            {
                result[i] = Math.Max(-700, power * logs[i]);
            }

            ManyNumbers.Exp(result, result);
            for (var i = 0; i < logs.Length; i++)
            {
                result[i] = seen.Weights[i] > 0 ? result[i] : 0;
                sum += result[i];
                squares += result[i] * result[i];
            }

            if (sum * sum / squares < LeastForFit)
            {
                high = power;
            }
            else
            {
                low = power;
            }

            for (var i = 0; step == 19 && i < result.Length; i++)
            {
                result[i] /= sum;
            }
        }

        return result;
    }
}
