using Broodtide.Science.Counting;
using Broodtide.Units;
using CsCheck;
using MathNet.Numerics;

namespace Broodtide.Science.Tests.Counting;

public sealed class AliquotTotalTests
{
    private static readonly Volume TwoLitres = Volume.FromLitres(2);

    private static readonly Gen<int[]> Counts = Gen.Int[0, 60].Array[1, 8].Where(counts => counts.Sum() > 0);

    private static AliquotSeen[] Of(IEnumerable<int> counts, double millilitres = 10) =>
        [.. counts.Select(count => new AliquotSeen(count, Volume.FromMillilitres(millilitres)))];

    [Fact]
    public void Equal_aliquots_agree_with_the_closed_form()
    {
        // Given k, the chance p = k / (k + d v) has a beta posterior and what stayed is beta negative binomial; mixed
        // over k it needs no grid of densities. The gamma that stands for what stayed costs less than one per cent.
        int[][] samples =
        [
            [12, 15, 9, 14, 11],
            [3, 21, 8, 0, 17, 11, 2, 26],
            [0, 0, 0, 0],
            [1, 0],
            [40, 55, 61],
        ];
        foreach (var counts in samples)
        {
            foreach (var whole in new[] { 2000.0, 120 })
            {
                var found = AliquotTotal.Posterior(Of(counts), Volume.FromMillilitres(whole)).ToInterval();
                var twin = ClosedForm(counts, 10, whole);
                foreach (
                    var (mine, other) in new[]
                    {
                        (found.Low, twin.Low),
                        (found.Middle, twin.Middle),
                        (found.High, twin.High),
                    }
                )
                {
                    Assert.InRange(mine, (other * 0.99) - 1, (other * 1.01) + 1);
                }
            }
        }
    }

    [Fact]
    public void The_interval_holds_the_simple_estimate() =>
        Counts.Sample(counts =>
        {
            var total = AliquotTotal.Posterior(Of(counts), TwoLitres).ToInterval();
            Assert.InRange(AliquotScaling.Total(Of(counts), TwoLitres), total.Low, total.High);
        });

    [Fact]
    public void With_clumping_known_one_more_seen_never_lowers_the_answer() =>
        Gen.Select(Counts, Gen.Double[0.5, 20])
            .Sample(
                (counts, k) =>
                {
                    // With clumping unknown it may: fifty and two are less clumped than fifty and one.
                    int[] more = [counts[0] + 1, .. counts[1..]];
                    var clumping = ClumpingPrior.Known(k);
                    var before = AliquotTotal.Posterior(Of(counts), TwoLitres, clumping).ToInterval();
                    var after = AliquotTotal.Posterior(Of(more), TwoLitres, clumping).ToInterval();
                    Assert.True(after.Low >= before.Low, $"{before} {after}");
                    Assert.True(after.Middle >= before.Middle, $"{before} {after}");
                    Assert.True(after.High >= before.High, $"{before} {after}");
                }
            );

    [Fact]
    public void Clumping_that_is_not_known_widens_the_answer() =>
        Counts.Sample(counts =>
        {
            var unknown = AliquotTotal.Posterior(Of(counts), TwoLitres);
            var even = AliquotTotal.Posterior(Of(counts), TwoLitres, ClumpingPrior.EvenlyMixed);
            var known = AliquotTotal.Posterior(
                Of(counts),
                TwoLitres,
                ClumpingPrior.Known(unknown.Clumping!.Value.Middle)
            );
            Assert.True(unknown.ToInterval().Width > even.ToInterval().Width);
            Assert.True(unknown.ToInterval().Width > known.ToInterval().Width * 0.995);
        });

    [Fact]
    public void Evenly_mixed_water_gives_the_answer_of_a_known_fraction() =>
        Gen.Select(Counts, Gen.Double[0.1, 0.9])
            .Sample(
                (counts, fraction) =>
                {
                    var whole = Volume.FromMillilitres(10 * counts.Length / fraction);
                    var found = AliquotTotal
                        .Posterior(Of(counts), whole, ClumpingPrior.EvenlyMixed, CountPrior.Reciprocal)
                        .ToInterval();
                    var exact = new KnownFraction(counts.Sum(), Probability.FromFraction(fraction))
                        .Posterior(CountPrior.Reciprocal)
                        .ToInterval();
                    Assert.InRange(found.Low, exact.Low - 1, exact.Low + 1);
                    Assert.InRange(found.Middle, exact.Middle - 1, exact.Middle + 1);
                    Assert.InRange(
                        found.High,
                        exact.High - 1 - (0.003 * exact.High),
                        exact.High + 1 + (0.003 * exact.High)
                    );
                }
            );

    [Fact]
    public void When_all_water_was_counted_the_number_is_known()
    {
        var total = AliquotTotal.Posterior(Of([7, 0, 5]), Volume.FromMillilitres(30)).ToInterval();
        Assert.Equal(Interval.Exactly(12), total);
    }

    [Fact]
    public void The_order_of_aliquots_does_not_matter_and_one_may_be_bigger()
    {
        AliquotSeen[] aliquots =
        [
            new(12, Volume.FromMillilitres(20)),
            new(3, Volume.FromMillilitres(5)),
            new(31, Volume.FromMillilitres(50)),
        ];
        var there = AliquotTotal.Posterior(aliquots, Volume.FromLitres(5)).ToInterval();
        var back = AliquotTotal.Posterior([.. aliquots.Reverse()], Volume.FromLitres(5)).ToInterval();
        Assert.Equal(there.Middle, back.Middle, 1.0);
        Assert.InRange(3067, there.Low, there.High);
    }

    [Fact]
    public void None_seen_is_information_and_has_a_finite_upper_end()
    {
        var few = AliquotTotal.Posterior(Of([0, 0]), TwoLitres).ToInterval();
        var many = AliquotTotal.Posterior(Of([0, 0, 0, 0, 0, 0]), TwoLitres).ToInterval();
        Assert.True(few.Low <= few.Middle && few.Middle < few.High);
        Assert.True(many.High < few.High);
        Assert.True(few.High is > 100 and < 1000, $"{few}");
    }

    [Fact]
    public void Many_aliquots_learn_the_clumping()
    {
        var even = AliquotTotal.Posterior(Of([.. Enumerable.Repeat(40, 12)]), TwoLitres).Clumping!.Value;
        var clumped = AliquotTotal
            .Posterior(Of([2, 80, 0, 11, 130, 4, 35, 1, 60, 150, 3, 6]), TwoLitres)
            .Clumping!.Value;
        Assert.True(even.Low > 5, $"{even}");
        Assert.True(clumped.High < 2.5, $"{clumped}");
    }

    [Fact]
    public void Intervals_hold_the_truth_as_often_as_they_say()
    {
        // Patches of one aliquot's volume are negative binomial; clumping from its prior, densities over two decades.
        var dice = new Random(20260);
        var held = 0;
        for (var run = 0; run < 400; run++)
        {
            var k = 5 * Math.Exp(0.7 * MathNet.Numerics.Distributions.Normal.Sample(dice, 0, 1));
            var mean = Math.Pow(10, (2 * dice.NextDouble()) - 0.3);
            var n = dice.Next(3, 7);
            int[] patches =
            [
                .. Enumerable
                    .Range(0, 150)
                    .Select(_ =>
                        MathNet.Numerics.Distributions.Poisson.Sample(
                            dice,
                            Math.Max(1e-12, MathNet.Numerics.Distributions.Gamma.Sample(dice, k, k / mean))
                        )
                    ),
            ];
            var total = AliquotTotal.Posterior(Of(patches[..n]), Volume.FromMillilitres(1500)).ToInterval();
            held += total.Contains(patches.Sum()) ? 1 : 0;
        }

        // Binomial(400, 0.9) lies from 344 to 375 with 99.5 %.
        Assert.InRange(held, 344, 375);
    }

    [Fact]
    public void What_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentException>(() => AliquotTotal.Posterior([], TwoLitres));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            AliquotTotal.Posterior(Of([1, 2]), Volume.FromMillilitres(15))
        );
        Assert.Throws<ArgumentException>(() =>
            AliquotTotal.Posterior(Of([0, 0]), TwoLitres, null, CountPrior.Reciprocal)
        );
        Assert.Throws<ArgumentOutOfRangeException>(() => new AliquotSeen(-1, TwoLitres));
        Assert.Throws<ArgumentOutOfRangeException>(() => new AliquotSeen(1, default));
        Assert.Throws<ArgumentOutOfRangeException>(() => ClumpingPrior.LogNormal(double.NaN, 0.7));
        Assert.Throws<ArgumentOutOfRangeException>(() => ClumpingPrior.Known(0));
    }

    private static Interval ClosedForm(int[] counts, double aliquot, double whole)
    {
        var (n, x, rest) = (counts.Length, counts.Sum(), (whole / aliquot) - counts.Length);
        var points = new List<(double K, double Log)>();
        for (var z = -3.5; z <= 3.5; z += 0.05)
        {
            var k = 5 * Math.Exp(0.7 * z);
            var log = (-z * z / 2) + (0.5 * Math.Log(k)) + LogBeta((n * k) - 0.5, x + 0.5);
            log += counts.Sum(count => SpecialFunctions.GammaLn(count + k) - SpecialFunctions.GammaLn(k));
            // Where n k is below one half no density is too high; the grid ends such tails far out, here they are left.
            if (n * k > 0.5)
            {
                points.Add((k, log));
            }
        }

        var top = points.Max(point => point.Log);
        var sum = points.Sum(point => Math.Exp(point.Log - top));
        var quantiles = new List<double>();
        var below = 0.0;
        foreach (var wanted in new[] { 0.05, 0.5, 0.95 })
        {
            for (var stayed = quantiles.Count == 0 ? 0 : (int)quantiles[^1] - x + 1; ; stayed++)
            {
                if (below >= wanted)
                {
                    quantiles.Add(Math.Max(0, stayed - 1) + x);
                    break;
                }

                below += points.Sum(point => Math.Exp(point.Log - top + LogStayed(stayed, point.K))) / sum;
                if (below >= wanted)
                {
                    quantiles.Add(stayed + x);
                    break;
                }
            }
        }

        return Interval.FromPoints(quantiles[0], quantiles[1], quantiles[2]);

        double LogStayed(int stayed, double k) =>
            SpecialFunctions.GammaLn(stayed + (rest * k))
            - SpecialFunctions.GammaLn(stayed + 1.0)
            - SpecialFunctions.GammaLn(rest * k)
            + LogBeta((rest * k) + (n * k) - 0.5, stayed + x + 0.5)
            - LogBeta((n * k) - 0.5, x + 0.5);
    }

    private static double LogBeta(double a, double b) =>
        SpecialFunctions.GammaLn(a) + SpecialFunctions.GammaLn(b) - SpecialFunctions.GammaLn(a + b);
}
