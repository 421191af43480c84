using Broodtide.Science.Trials;
using Broodtide.Units;
using CsCheck;
using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Tests.Trials;

/// <summary>Against the closed form of one point, and the plain inverse of Rasmussen and Williams 2006, equations 2.25 and 2.26.</summary>
public sealed class ResponseSurfaceTests
{
    private static readonly SurfaceBelief Belief = new(Probability.FromFraction(0.4), 1.5, 6, 3, 0.5);

    [Fact]
    public void With_nothing_tried_the_belief_stands_everywhere()
    {
        var (mean, deviation) = ResponseSurface.Of([], Belief).At(20, 25);
        Assert.Equal(Math.Log(0.4 / 0.6), mean, 1e-12);
        Assert.Equal(1.5, deviation, 1e-12);
        Assert.Null(ResponseSurface.Of([], Belief).BestTried);
    }

    [Fact]
    public void One_vessel_pulls_its_own_point_by_the_share_of_what_it_knows()
    {
        var surface = ResponseSurface.Of([new(20, 25, new(9, 10))], Belief);
        // By hand: log odds ln(9.5 / 1.5), error 1/9.5 + 1/1.5 + 0.25, weight 2.25 over 2.25 plus that.
        var error = (1 / 9.5) + (1 / 1.5) + 0.25;
        var weight = 2.25 / (2.25 + error);
        var prior = Math.Log(0.4 / 0.6);
        var (mean, deviation) = surface.At(20, 25);
        Assert.Equal(prior + (weight * (Math.Log(9.5 / 1.5) - prior)), mean, 1e-12);
        Assert.Equal(Math.Sqrt(2.25 * (1 - weight)), deviation, 1e-12);
        // Far away nothing is learnt.
        Assert.Equal(prior, surface.At(200, 25).Mean, 1e-9);
        Assert.Equal(1.5, surface.At(200, 25).Deviation, 1e-9);
    }

    [Fact]
    public void It_is_the_plain_inverse_for_any_vessels() =>
        Gen.Select(Gen.Double[17, 34], Gen.Double[20, 32], Gen.Int[0, 20])
            .Array[1, 9]
            .Sample(points =>
            {
                TriedPoint[] tried =
                [
                    .. points.Select(it => new TriedPoint(it.Item1, it.Item2, new(it.Item3, 20))),
                ];
                var surface = ResponseSurface.Of(tried, Belief);
                double K(double a, double b, TriedPoint p) =>
                    2.25
                    * Math.Exp(
                        -((a - p.First) * (a - p.First) / 72) - ((b - p.Second) * (b - p.Second) / 18)
                    );
                var matrix = Matrix<double>.Build.Dense(
                    tried.Length,
                    tried.Length,
                    (i, j) =>
                        K(tried[i].First, tried[i].Second, tried[j])
                        + (
                            i == j
                                ? (1 / (tried[i].Seen.Happened + 0.5))
                                    + (1 / (20.5 - tried[i].Seen.Happened))
                                    + 0.25
                                : 0
                        )
                );
                var towards = Vector<double>.Build.Dense(tried.Length, i => K(25, 26, tried[i]));
                var prior = Math.Log(0.4 / 0.6);
                var seen = Vector<double>.Build.Dense(
                    tried.Length,
                    i => Math.Log((tried[i].Seen.Happened + 0.5) / (20.5 - tried[i].Seen.Happened)) - prior
                );
                var inverse = matrix.Inverse();
                var (mean, deviation) = surface.At(25, 26);
                Assert.Equal(prior + (towards * (inverse * seen)), mean, 1e-8);
                Assert.Equal(2.25 - (towards * (inverse * towards)), deviation * deviation, 1e-8);
            });

    [Fact]
    public void Following_it_finds_the_best_place_in_few_rounds()
    {
        // An invented truth with its best at salinity 24 and 26 degC; each round one vessel of 30 larvae at the best guess.
        var random = new Random(11);
        double Truth(double s, double t) =>
            1 / (1 + Math.Exp(-(1.2 - (0.02 * (s - 24) * (s - 24)) - (0.1 * (t - 26) * (t - 26)))));
        var tried = new List<TriedPoint>();
        for (var round = 0; round < 20; round++)
        {
            var surface = ResponseSurface.Of(tried, Belief);
            var best = surface.BestTried ?? Math.Log(0.4 / 0.6);
            var (s, t) = (
                from a in Enumerable.Range(0, 18)
                from b in Enumerable.Range(0, 13)
                select (First: 17.0 + a, Second: 20.0 + b)
            ).MaxBy(at =>
            {
                var (mean, deviation) = surface.At(at.First, at.Second);
                return NextPoint.ExpectedImprovement(mean, deviation, best);
            });
            tried.Add(
                new(s, t, new(Enumerable.Range(0, 30).Count(_ => random.NextDouble() < Truth(s, t)), 30))
            );
        }

        var end = ResponseSurface.Of(tried, Belief);
        var (bestS, bestT) = (
            from a in Enumerable.Range(0, 18)
            from b in Enumerable.Range(0, 13)
            select (First: 17.0 + a, Second: 20.0 + b)
        ).MaxBy(at => end.At(at.First, at.Second).Mean);
        Assert.True(Truth(bestS, bestT) > 0.9 * Truth(24, 26), $"{bestS} {bestT}");
    }

    [Fact]
    public void What_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            ResponseSurface.Of([new(double.NaN, 25, new(1, 2))], Belief)
        );
        Assert.Throws<ArgumentOutOfRangeException>(() => ResponseSurface.Of([], Belief with { Spread = 0 }));
    }
}
