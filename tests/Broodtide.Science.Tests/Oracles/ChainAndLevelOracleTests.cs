using Broodtide.Oracles.Chains;
using Broodtide.Oracles.Levels;

namespace Broodtide.Science.Tests.Oracles;

public sealed class ChainAndLevelOracleTests
{
    private static readonly double[] Series = [3.1, double.NaN, 2.2, 4.0, double.NaN, double.NaN, 5.1, 4.4];

    [Fact]
    public void A_chain_gives_what_enumerating_all_paths_gives()
    {
        double[] first = [0.6, 0.3, 0.1];
        double[,] transition =
        {
            { 0.7, 0.2, 0.1 },
            { 0.3, 0.5, 0.2 },
            { 0.2, 0.2, 0.6 },
        };
        double[][] likelihoods =
        [
            [0.9, 0.2, 0.4],
            [0.1, 0.8, 0.3],
            [0.5, 0.5, 0.7],
            [0.2, 0.1, 0.9],
        ];
        var total = 0.0;
        var second = new double[3];
        for (var path = 0; path < 81; path++)
        {
            int[] states = [path % 3, path / 3 % 3, path / 9 % 3, path / 27];
            var weight = first[states[0]] * likelihoods[0][states[0]];
            for (var t = 1; t < 4; t++)
            {
                weight *= transition[states[t - 1], states[t]] * likelihoods[t][states[t]];
            }

            total += weight;
            second[states[1]] += weight;
        }

        var chain = new HiddenChain(first, transition, likelihoods);
        Assert.Equal(Math.Log(total), chain.Filter().LogLikelihood, 1e-12);
        Assert.All(
            chain.Smooth()[1].Zip(second),
            pair => Assert.Equal(pair.Second / total, pair.First, 1e-12)
        );
        Assert.All(
            chain.Smooth()[^1].Zip(chain.Filter().States[^1]),
            pair => Assert.Equal(pair.Second, pair.First, 1e-12)
        );
    }

    [Fact]
    public void A_stationary_distribution_stays_where_it_is()
    {
        double[,] transition =
        {
            { 0.9, 0.1 },
            { 0.2, 0.8 },
        };
        var stationary = new PoissonChain([15, 26], transition).Stationary();

        Assert.Equal(2 / 3.0, stationary[0], 1e-12);
        Assert.Equal(stationary[1], HiddenChain.Moved(stationary, transition)[1], 1e-12);
    }

    [Fact]
    public void A_fit_is_no_less_likely_than_the_truth_it_was_counted_from()
    {
        // Means 4 and 18 in runs of ten.
        int[] counts = [.. Enumerable.Range(0, 80).Select(i => (i / 10 % 2 == 0 ? 4 : 18) + (i * 7 % 5) - 2)];
        var fit = PoissonChainFit.Of(counts, 2);
        double[,] transition =
        {
            { 0.9, 0.1 },
            { 0.1, 0.9 },
        };
        var guess = new PoissonChain([4, 18], transition).Seeing(counts).Filter().LogLikelihood;

        Assert.True(fit.LogLikelihood >= guess);
        Assert.Equal(4, fit.Chain.Means[0], 0.1);
        Assert.Equal(18, fit.Chain.Means[1], 0.1);
    }

    [Fact]
    public void The_level_filter_gives_the_likelihood_of_the_joint_normal_law()
    {
        // Level known at the first value: covariance of values i, j is 4 + 0.5 min(i, j), plus 2 on the diagonal.
        var seen = Enumerable.Range(0, Series.Length).Where(t => !double.IsNaN(Series[t])).ToArray();
        var covariance = MathNet.Numerics.LinearAlgebra.Matrix<double>.Build.Dense(
            seen.Length,
            seen.Length,
            (i, j) => 4 + (0.5 * Math.Min(seen[i], seen[j])) + (i == j ? 2 : 0)
        );
        var off = MathNet.Numerics.LinearAlgebra.Vector<double>.Build.Dense([
            .. seen.Select(t => Series[t] - 3),
        ]);
        var expected =
            -0.5
            * (
                (seen.Length * Math.Log(2 * Math.PI))
                + Math.Log(covariance.Determinant())
                + off.DotProduct(covariance.Solve(off))
            );

        var track = LevelTrack.Of(Series, new(2, 0.5), new LevelStart.Known(3, 4));
        Assert.Equal(expected, track.LogLikelihood, 1e-10);
        // The level at the third value given all: cov(level, values) cov^-1 (values - mean).
        var toLevel = MathNet.Numerics.LinearAlgebra.Vector<double>.Build.Dense([
            .. seen.Select(t => 4 + (0.5 * Math.Min(t, 2))),
        ]);
        var (mean, variance) = track.Smooth();
        Assert.Equal(3 + toLevel.DotProduct(covariance.Solve(off)), mean[2], 1e-10);
        Assert.Equal(5 - toLevel.DotProduct(covariance.Solve(toLevel)), variance[2], 1e-10);
    }

    [Fact]
    public void Knowing_nothing_is_the_limit_of_knowing_little()
    {
        double[] late = [double.NaN, .. Series];
        var nothing = LevelTrack.Of(late, new(2, 0.5), new LevelStart.Diffuse(true)).Smooth();
        var little = LevelTrack.Of(late, new(2, 0.5), new LevelStart.Known(0, 1e9)).Smooth();

        Assert.All(nothing.Mean.Zip(little.Mean), pair => Assert.Equal(pair.Second, pair.First, 1e-5));
        Assert.All(
            nothing.Variance.Zip(little.Variance),
            pair => Assert.Equal(pair.Second, pair.First, 1e-5)
        );
    }
}
