using Broodtide.Science.Estimation.Larvae;

namespace Broodtide.Science.Tests.Estimation.Larvae;

public sealed class LarvalLossesTests
{
    private static IReadOnlyList<LarvalLoss> Losses(LarvalRun run, params double[] days) =>
        LarvalLosses.InPieces(run, LarvalEstimator.Of(run, new LarvalQuestion()), days).Last()!;

    [Fact]
    public void Between_numbers_that_are_known_the_loss_is_their_difference()
    {
        var run = Scenes.Run(
            12,
            new Arrived(0, 0, 0, 200, 0),
            new Counted(2, 1, 1, new ExactEvidence(190)),
            new Counted(10, 2, 1, new ExactEvidence(20))
        );
        var losses = Losses(run, 0, 2, 10);

        Assert.Equal(2, losses.Count);
        Assert.InRange(losses[0].Lost.Low, 9, 10);
        Assert.InRange(losses[0].Lost.High, 10, 11);
        Assert.InRange(losses[1].Lost.Middle, 168, 171);
        Assert.InRange(losses[1].LostShare.Middle, 0.88, 0.91);
        Assert.InRange(losses[1].Came.Middle, 189, 191);
    }

    [Fact]
    public void Larvae_that_come_in_between_are_no_gain_and_those_taken_out_no_loss()
    {
        var run = Scenes.Run(
            6,
            new Arrived(0, 0, 0, 200, 0),
            new Counted(1, 1, 1, new ExactEvidence(198)),
            new Arrived(2, 2, 0, 100, 0),
            new Removed(3, 3, 1, 50),
            new Counted(5, 4, 1, new ExactEvidence(240))
        );
        var loss = Losses(run, 1, 5)[0];

        // 198 and 100 came, 50 were taken out, 240 are left.
        Assert.InRange(loss.Lost.Middle, 7, 9);
        Assert.InRange(loss.Came.Middle, 297, 299);
    }

    [Fact]
    public void A_vessel_that_is_poured_away_is_no_loss()
    {
        var run = Scenes.Run(
            6,
            new Arrived(0, 0, 0, 200, 0),
            new Counted(1, 1, 1, new ExactEvidence(198)),
            new Counted(3, 2, 1, new ExactEvidence(190)),
            new Removed(3.5, 3, 1, null)
        );

        Assert.InRange(Losses(run, 1, 5)[0].Lost.Middle, 8, 14);
    }

    [Fact]
    public void Nothing_is_lost_in_no_time_and_no_share_exceeds_the_whole()
    {
        var run = Scenes.Run(20, new Arrived(0, 0, 0, 80, 0.4), Scenes.Aliquots(9, 1, 0.1, 0, 0, 1));
        var losses = Losses(run, 3, 3, 15);

        Assert.Equal(Units.Interval.Exactly(0), losses[0].Lost);
        Assert.InRange(losses[1].LostShare.Low, 0, 1);
        Assert.InRange(losses[1].LostShare.High, losses[1].LostShare.Middle, 1);
    }

    [Fact]
    public void Days_that_go_back_are_refused()
    {
        var run = Scenes.Run(20, new Arrived(0, 0, 0, 80, 0.4));
        var learned = LarvalEstimator.Of(run, new LarvalQuestion());

        Assert.Throws<ArgumentException>(() => LarvalLosses.InPieces(run, learned, [3, 2]));
        Assert.Throws<ArgumentException>(() => LarvalLosses.InPieces(run, learned, [3]));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            LarvalLosses.InPieces(run, learned, [3, double.NaN, 5])
        );
    }

    // Larvae that die one by one, by hazards drawn from the belief, counted in aliquots on three days. Nine in ten of the
    // losses should lie within their limits; of 180 that depend on each other in threes, fewer than 147 or all would show
    // that the limits are too narrow or say nothing.
    [Fact]
    public void Limits_hold_the_losses_of_invented_larvae_nine_times_in_ten()
    {
        double[] days = [0, 4, 10, 20];
        var (held, all, width) = (0, 0, 0.0);
        for (var seed = 0; seed < 60; seed++)
        {
            var random = new Random(seed);
            var (hazard, early) = (0.02 * Math.Exp(0.6 * Normal(random)), 5 * Math.Exp(0.6 * Normal(random)));
            var alive = 300;
            var lost = new double[3];
            List<LarvalEvent> events = [new Arrived(0, 0, 0, alive, 0)];
            for (var day = 0; day < 20; day++)
            {
                var shock = Math.Exp((0.35 * Normal(random)) - (0.35 * 0.35 / 2));
                var dies = 1 - Math.Exp(-hazard * shock * (1 + ((early - 1) * Math.Exp(-day / 3.0))));
                var died = Enumerable.Range(0, alive).Count(_ => random.NextDouble() < dies);
                alive -= died;
                lost[
                    day < 4 ? 0
                    : day < 10 ? 1
                    : 2
                ] += died;
                if (day + 1 is 4 or 10 or 20)
                {
                    events.Add(
                        Scenes.Aliquots(
                            day + 1,
                            day + 1,
                            0.05,
                            [.. Enumerable.Range(0, 4).Select(_ => Seen(random, alive))]
                        )
                    );
                }
            }

            var told = Losses(Scenes.Run(20, [.. events]), days);
            for (var span = 0; span < 3; span++)
            {
                all++;
                held += told[span].Lost.Contains(lost[span]) ? 1 : 0;
                width += told[span].LostShare.Width / 180;
            }
        }

        TestContext.Current.TestOutputHelper?.WriteLine($"{held} of {all}, width {width:0.000}");
        Assert.InRange(held, 147, all - 1);
        Assert.InRange(width, 0, 0.6);
    }

    private static int Seen(Random random, int alive) =>
        Enumerable.Range(0, alive).Count(_ => random.NextDouble() < 0.05);

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
