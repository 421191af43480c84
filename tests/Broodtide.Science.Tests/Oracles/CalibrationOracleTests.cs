using Broodtide.Oracles.Calibration;

namespace Broodtide.Science.Tests.Oracles;

/// <summary>
/// One normal number seen with error: mean and variance after it are known in closed form, so the posterior drawn from
/// can be the right one or one made wrong on purpose.
/// </summary>
public sealed class CalibrationOracleTests
{
    private const int Draws = 99;
    private const int Bins = 20;

    [Fact]
    public void The_right_posterior_passes_with_every_bin_inside()
    {
        var histogram = Ranks(spread: 1, shift: 0);
        var accepted = RankHistogram.AcceptBin(histogram.Simulations, Bins, 0.9999);

        Assert.True(histogram.MayBeEven(0.99), $"{histogram.ChiSquare}");
        Assert.All(histogram.Counts, count => Assert.True(accepted.Holds(count)));
    }

    [Theory]
    [InlineData(0.7, 0)]
    [InlineData(1.4, 0)]
    [InlineData(1, 0.3)]
    public void A_posterior_too_sure_too_vague_or_shifted_is_turned_down(double spread, double shift) =>
        Assert.False(Ranks(spread, shift).MayBeEven(0.99));

    [Fact]
    public void Ranks_outside_the_draws_and_bins_of_unequal_width_are_refused()
    {
        Assert.ThrowsAny<ArgumentException>(() => RankHistogram.Of([100], Draws, Bins));
        Assert.ThrowsAny<ArgumentException>(() => RankHistogram.Of([1], 100, Bins));
    }

    [Fact]
    public void The_gate_lets_an_honest_interval_through_and_stops_one_of_eighty_per_cent()
    {
        var gate = CoverageGate.Accept(400, 0.9, 0.99);

        Assert.True(gate.Holds(360));
        Assert.False(gate.Holds(320));
        Assert.False(gate.Holds(390));
    }

    private static RankHistogram Ranks(double spread, double shift)
    {
        var dice = new Simulation.Dice(11);
        var ranks = new List<int>();
        for (var simulation = 0; simulation < 1000; simulation++)
        {
            // Prior of mean 0 and sd 1, error of sd 1: afterwards mean y / 2, variance 1 / 2.
            var truth = dice.Normal();
            var seen = truth + dice.Normal();
            var rank = 0;
            for (var draw = 0; draw < Draws; draw++)
            {
                rank += (seen / 2) + shift + (spread * Math.Sqrt(0.5) * dice.Normal()) < truth ? 1 : 0;
            }

            ranks.Add(rank);
        }

        return RankHistogram.Of(ranks, Draws, Bins);
    }
}
