using Broodtide.Science.Survival;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests.Survival;

public sealed class SurvivalTests
{
    private static readonly Gen<Lifetime[]> Lives = Gen.Select(Gen.Int[0, 12], Gen.Bool)
        .Select((day, died) => died ? Lifetime.DiedAt(day) : Lifetime.AliveAt(day))
        .Array[1, 30];

    private static readonly Gen<DeathWindow[]> Windows = Gen.Select(
            Gen.Int[0, 9],
            Gen.Int[1, 5],
            Gen.Int[0, 3]
        )
        .Select(
            (from, length, kind) =>
                kind switch
                {
                    0 => DeathWindow.NotBefore(from),
                    1 => DeathWindow.At(from + 0.5),
                    _ => DeathWindow.Between(from, from + length),
                }
        )
        .Array[1, 25];

    [Fact]
    public void A_survival_curve_never_rises_and_its_interval_holds_it() =>
        Lives.Sample(lives =>
        {
            var curve = KaplanMeier.Of(lives);
            var before = 1.0;
            for (var day = 0.0; day <= curve.LastSeen; day += 0.5)
            {
                var alive = curve.At(day);
                Assert.InRange(alive, 0, before);
                var interval = curve.IntervalAt(day);
                Assert.InRange(interval.Low, 0, alive);
                Assert.Equal(alive, interval.Middle);
                Assert.InRange(interval.High, alive, 1);
                Assert.True(double.IsFinite(curve.StandardErrorAt(day)));
                before = alive;
            }
        });

    [Fact]
    public void Without_lives_that_leave_alive_the_curve_is_the_share_alive() =>
        Gen.Int[0, 12]
            .Array[1, 30]
            .Sample(days =>
            {
                var curve = KaplanMeier.Of([.. days.Select(day => Lifetime.DiedAt(day))]);
                for (var day = 0; day <= days.Max(); day++)
                {
                    Assert.Equal(
                        (double)days.Count(death => death > day) / days.Length,
                        curve.At(day),
                        1e-12
                    );
                }
            });

    [Fact]
    public void A_curve_says_nothing_after_the_last_look()
    {
        var curve = KaplanMeier.Of([Lifetime.DiedAt(3), Lifetime.AliveAt(9)]);
        Assert.Equal(0.5, curve.At(9));
        Assert.Throws<ArgumentOutOfRangeException>(() => curve.At(9.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => curve.IntervalAt(double.NaN));
    }

    [Fact]
    public void Where_none_has_died_the_low_end_is_the_share_at_which_that_happens_once_in_twenty()
    {
        var curve = KaplanMeier.Of([.. Enumerable.Repeat(Lifetime.AliveAt(5), 10)]);
        Assert.Equal(0.05, Math.Pow(curve.IntervalAt(5).Low, 10), 1e-12);
    }

    [Fact]
    public void Shares_of_deaths_sum_to_one_and_every_life_may_have_ended_in_one() =>
        Windows.Sample(windows =>
        {
            var shares = Turnbull.Of(windows);
            Assert.Equal(1, shares.Sum(share => share.Share), 1e-9);
            Assert.All(shares, share => Assert.InRange(share.Share, 0, 1));
            Assert.All(
                windows,
                window =>
                    Assert.Contains(
                        shares,
                        share =>
                            share.Share > 0
                            && share.After >= window.After
                            && (share.UpTo ?? double.PositiveInfinity)
                                <= (window.UpTo ?? double.PositiveInfinity)
                    )
            );
            var (before, beforeMost) = (1.0, 1.0);
            for (var day = 0.0; day < 15; day += 0.5)
            {
                var (least, most) = Turnbull.AliveAt(shares, day);
                Assert.InRange(least, 0, Math.Min(most, before + 1e-12));
                Assert.True(most <= beforeMost + 1e-12);
                (before, beforeMost) = (least, most);
            }
        });

    [Fact]
    public void Deaths_seen_exactly_give_the_stepwise_curve_through_visits_too()
    {
        Lifetime[] lives =
        [
            Lifetime.DiedAt(2),
            Lifetime.AliveAt(3),
            Lifetime.DiedAt(4),
            Lifetime.DiedAt(4),
            Lifetime.AliveAt(6),
            Lifetime.DiedAt(7),
            Lifetime.DiedAt(9),
        ];
        var curve = KaplanMeier.Of(lives);
        var shares = Turnbull.Of([.. lives.Select(DeathWindow.Of)]);
        foreach (var day in new[] { 2.5, 4.5, 6.5, 7.5 })
        {
            Assert.Equal(curve.At(day), Turnbull.AliveAt(shares, day).Least, 1e-6);
            Assert.Equal(curve.At(day), Turnbull.AliveAt(shares, day).Most, 1e-6);
        }
    }

    [Fact]
    public void Groups_that_die_alike_do_not_differ_and_names_do_not_matter()
    {
        Lifetime[] lives = [Lifetime.DiedAt(2), Lifetime.DiedAt(5), Lifetime.AliveAt(7)];
        Lifetime[] others = [Lifetime.DiedAt(1), Lifetime.DiedAt(2), Lifetime.DiedAt(3)];
        Assert.Equal(0, LogRank.Compare([lives, lives]).ChiSquare, 1e-12);
        Assert.Equal(
            LogRank.Compare([lives, others]).ChiSquare,
            LogRank.Compare([others, lives]).ChiSquare,
            1e-12
        );
        Assert.Equal(
            LogRank.Compare([lives, others]).Observed.Sum(),
            LogRank.Compare([lives, others]).Expected.Sum(),
            1e-12
        );
        Assert.Throws<ArgumentException>(() =>
            LogRank.Compare([
                [Lifetime.AliveAt(2)],
                [Lifetime.AliveAt(3)],
            ])
        );
    }

    [Theory]
    [InlineData(WindowScore.Sun)]
    [InlineData(WindowScore.Finkelstein)]
    public void Scores_of_visits_change_sign_with_the_groups(WindowScore score)
    {
        DeathWindow[] early =
        [
            DeathWindow.Between(0, 2),
            DeathWindow.Between(1, 3),
            DeathWindow.Between(2, 4),
        ];
        DeathWindow[] late = [DeathWindow.Between(3, 6), DeathWindow.NotBefore(5), DeathWindow.Between(5, 8)];
        var forth = IntervalLogRank.Compare(early, late, score);
        var back = IntervalLogRank.Compare(late, early, score);
        Assert.Equal(forth.Z, -back.Z, 1e-9);
        Assert.True(forth.Z > 1.5);
    }

    [Fact]
    public void A_constant_hazard_is_deaths_over_time_followed()
    {
        Lifetime[] lives = [Lifetime.DiedAt(2), Lifetime.DiedAt(5), Lifetime.AliveAt(9), Lifetime.DiedAt(4)];
        var fit = ParametricLives.Fit([.. lives.Select(DeathWindow.Of)], [], LifeShape.Exponential);
        Assert.Equal(20.0 / 3, fit.At().Scale, 1e-8);
        Assert.Equal((3 * Math.Log(3.0 / 20)) - 3, fit.LogLikelihood, 1e-8);
        Assert.Equal(1, fit.Scale);
    }

    [Fact]
    public void A_fit_by_narrow_windows_is_the_fit_by_exact_deaths()
    {
        double[] days = [3, 5, 6, 6.5, 8, 9, 11, 14];
        var exact = ParametricLives.Fit([.. days.Select(DeathWindow.At)], [], LifeShape.Weibull);
        var narrow = ParametricLives.Fit(
            [.. days.Select(day => DeathWindow.Between(day - 1e-4, day + 1e-4))],
            [],
            LifeShape.Weibull
        );
        Assert.Equal(exact.Intercept, narrow.Intercept, 1e-6);
        Assert.Equal(exact.Scale, narrow.Scale, 1e-6);
        Assert.Equal(exact.StandardErrors[0], narrow.StandardErrors[0], 1e-5);
    }

    [Fact]
    public void Lives_that_cannot_settle_a_shape_are_refused() =>
        Assert.Throws<ArgumentException>(() =>
            ParametricLives.Fit([DeathWindow.NotBefore(4), DeathWindow.NotBefore(7)], [], LifeShape.Weibull)
        );

    [Fact]
    public void A_hazard_is_what_survival_loses() =>
        Gen.Select(Gen.Double[0.5, 40], Gen.Double[0.3, 0.95], Gen.Double[1.1, 4], Gen.Double[0.5, 30])
            .Sample(
                (scale, low, high, age) =>
                {
                    var bathtub = new BathtubLife(new(scale, low), new(2 * scale, high));
                    var gompertz = new GompertzLife(0.02, 0.05);
                    const double Step = 1e-5;
                    double Slope(Func<double, double> survival) =>
                        (Math.Log(survival(age - Step)) - Math.Log(survival(age + Step))) / (2 * Step);
                    if (bathtub.Survival(age) > 1e-6)
                    {
                        Assert.Equal(1, Slope(bathtub.Survival) / bathtub.Hazard(age), 1e-4);
                    }

                    Assert.Equal(1, Slope(gompertz.Survival) / gompertz.Hazard(age), 1e-4);
                }
            );

    [Fact]
    public void Two_equal_counts_allow_a_survival_of_one_and_nothing_is_clipped()
    {
        var limits = BetweenCounts.Survival(30, 0.05, 40, 0.05, Probability.FromFraction(0.9));
        Assert.True(limits.Lower < 1 && limits.Upper > 1);
        Assert.Equal(0, BetweenCounts.Survival(30, 0.05, 0, 0.05, Probability.FromFraction(0.9)).Lower);
    }

    [Fact]
    public void Numbers_that_are_none_stop_at_the_door()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Lifetime.DiedAt(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => DeathWindow.Between(2, double.PositiveInfinity));
        Assert.Throws<ArgumentOutOfRangeException>(() => DeathWindow.Between(2, 2));
        Assert.Throws<ArgumentOutOfRangeException>(() => new WeibullLife(double.NaN, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new GompertzLife(0.1, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            RateRatio.Exact(3, double.NaN, 4, 1, Probability.FromFraction(0.9))
        );
        Assert.Throws<ArgumentOutOfRangeException>(() => BetweenCounts.HazardPerDay(new(50, 0), new(60, 3)));
        Assert.Throws<ArgumentException>(() => KaplanMeier.Of([]));
    }
}
