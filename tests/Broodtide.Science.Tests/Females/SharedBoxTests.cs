using Broodtide.Science.Development.Females;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Tests.Females;

public class SharedBoxTests
{
    private const double LogSd = 0.49;

    private static FemaleInBox HatchesOn(double day, double larvae = 220) => new(_ => day, larvae, LogSd);

    // Hatches on one day with a probability, else long after.
    private static FemaleInBox Perhaps(double chance, double day) =>
        new(at => at < chance ? day : 40, 220, LogSd);

    [Fact]
    public void If_both_hatched_the_shares_follow_the_logistic_normal_law()
    {
        var told = SharedBox.Of([HatchesOn(1.2), HatchesOn(1.3)], [new(1, 2, true)])[0];

        // Two log-normal clutches: the logit of the share is normal with a standard deviation of sqrt(2) logSd.
        var away = Normal.InvCDF(0, 1, 0.95) * Math.Sqrt(2) * LogSd;
        Assert.Equal(0.5, told.Shares[0].Middle, 0.02);
        Assert.Equal(1 / (1 + Math.Exp(-away)), told.Shares[0].High, 0.03);
        Assert.Equal(1 / (1 + Math.Exp(away)), told.Shares[0].Low, 0.03);
        Assert.Equal(1, told.Expected.Sum(), 1e-9);
    }

    [Fact]
    public void If_only_one_can_have_hatched_all_larvae_are_hers()
    {
        var told = SharedBox.Of([HatchesOn(1.5), HatchesOn(9)], [new(1, 2, true)])[0];

        Assert.Equal(1, told.Shares[0].Low, 1e-9);
        Assert.Equal(0, told.Shares[1].High, 1e-9);
        Assert.Equal(1, told.Some[0].Value, 1e-9);
    }

    [Fact]
    public void Chances_of_having_hatched_weigh_as_bayes_says()
    {
        var told = SharedBox.Of([Perhaps(0.3, 1.5), Perhaps(0.2, 1.5)], [new(1, 2, true)])[0];

        // Of the cases in which anybody hatched (0.44; a look that is wrong weighs 0.01 of 0.56), hers are 0.3.
        Assert.Equal(0.3 / (0.44 + (0.01 * 0.56)), told.Some[0].Value, 0.02);
        Assert.Equal(0.2 / (0.44 + (0.01 * 0.56)), told.Some[1].Value, 0.02);
    }

    [Fact]
    public void A_night_without_larvae_tells_of_the_night_after()
    {
        // She is as likely to have hatched in the first night as in the second, the other only in the second.
        FemaleInBox either = new(at => at < 0.5 ? 0.5 : 1.5, 220, LogSd);
        var blind = SharedBox.Of([either, HatchesOn(1.5)], [new(1, 2, true)])[0];
        var told = SharedBox.Of([either, HatchesOn(1.5)], [new(0, 1, false), new(1, 2, true)])[1];

        Assert.True(told.Expected[0] > blind.Expected[0] + 0.1);
    }

    [Fact]
    public void The_tail_of_a_clutch_comes_in_the_nights_after()
    {
        var told = SharedBox.Of([HatchesOn(0.5), HatchesOn(1.5)], [new(0, 1, true), new(1, 2, true)]);

        Assert.Equal(1, told[0].Expected[0], 1e-9);
        Assert.InRange(told[1].Expected[0], 0.02, 0.15);
    }

    [Fact]
    public void Shares_told_hold_the_truth_of_invented_boxes_nine_times_in_ten()
    {
        // Hatch days within a day and a half of each other, clutches log-normal; a gathering each noon until larvae were found.
        var random = new Random(11);
        var (inside, all, lopsided) = (0, 0, 0);
        while (all < 300)
        {
            var places = new[] { 1 + random.NextDouble(), 1 + random.NextDouble() };
            FemaleInBox Believed(double place) =>
                new(at => place + (1.5 * Normal.InvCDF(0, 1, Math.Clamp(at, 1e-9, 1 - 1e-9))), 220, LogSd);
            var days = places
                .Select(place => place + (1.5 * Normal.InvCDF(0, 1, random.NextDouble())))
                .ToArray();
            var clutches = days.Select(_ => 220 * Math.Exp(LogSd * Normal.InvCDF(0, 1, random.NextDouble())))
                .ToArray();
            var gatherings = new List<BoxGathering>();
            double[] came = [0, 0];
            for (var noon = -6; noon < 12 && came.Sum() < 0.5; noon++)
            {
                came =
                [
                    .. days.Select((day, who) => clutches[who] * (Out(noon + 1 - day) - Out(noon - day))),
                ];
                gatherings.Add(new(noon, noon + 1, came.Sum() >= 0.5));
            }

            if (came.Sum() < 0.5)
            {
                continue;
            }

            all++;
            var share = came[0] / came.Sum();
            var told = SharedBox.Of([Believed(places[0]), Believed(places[1])], gatherings)[^1];
            inside += share >= told.Shares[0].Low - 1e-6 && share <= told.Shares[0].High + 1e-6 ? 1 : 0;
            lopsided += told.Shares[0].Width < 0.5 ? 1 : 0;
        }

        Assert.InRange(inside / (double)all, 0.88, 1);
        Assert.True(lopsided < all);

        static double Out(double days) =>
            days <= 0 ? 0 : 1 - Math.Pow(1 - SharedBox.HatchingPerDay, days + 1);
    }

    [Fact]
    public void One_female_shares_with_nobody()
    {
        Assert.Throws<ArgumentException>(() => SharedBox.Of([HatchesOn(1)], [new(0, 1, true)]));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            SharedBox.Of([HatchesOn(1), HatchesOn(1)], [new(1, 0, true)])
        );
    }
}
