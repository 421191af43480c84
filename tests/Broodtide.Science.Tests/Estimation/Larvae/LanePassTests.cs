using Broodtide.Science.Estimation.Larvae;
using CsCheck;

namespace Broodtide.Science.Tests.Estimation.Larvae;

/// <summary>Several suppositions in step say what each says alone; the plain pass is the twin.</summary>
public sealed class LanePassTests
{
    // A cell that stands at nothing by a hair in one of the two and not in the other goes on otherwise, so suppositions by
    // which next to nobody lives are left out.
    private const double LeastAlive = 1;

    [Fact]
    public void A_keepers_run_is_the_same_in_step_and_alone() =>
        Scenes.Plausible.Sample(
            run => Compare(run, (alone, inStep) => Same(alone, inStep, 1e-10)),
            iter: 60,
            threads: 1
        );

    // Such runs stand at nothing more often, so not every one is held, but nearly all of many.
    [Fact]
    public void What_no_keeper_would_write_is_nearly_always_the_same_too()
    {
        var (all, same) = (0, 0);
        Scenes.Absurd.Sample(
            run =>
                Compare(
                    run,
                    (alone, inStep) =>
                    {
                        all++;
                        same += IsSame(alone, inStep, 1e-8) ? 1 : 0;
                    }
                ),
            iter: 150,
            threads: 1
        );
        Assert.InRange(same, all * 0.95, all);
    }

    [Fact]
    public void Lanes_that_are_left_over_are_without_influence()
    {
        var run = Scenes.Run(30, new Arrived(0, 0, 0, 300, 0.5), Scenes.Aliquots(8, 1, 0.02, 4, 5));
        var pass = new LanePass(LarvalProgram.Of(run, [], withRaising: false));
        var points = Points(run, 1, Lanes.Count);
        var together = new SuppositionResult[Lanes.Count];
        pass.Forward(points, together);
        for (var lane = 0; lane < Lanes.Count; lane++)
        {
            var alone = new SuppositionResult[1];
            pass.Forward(points.AsSpan(lane, 1), alone);
            Assert.Equal(together[lane], alone[0]);
        }
    }

    [Fact]
    public void Totals_told_on_the_way_back_are_those_of_the_covariance_multiplied_out() =>
        Gen.Select(Scenes.Plausible, Gen.Bool)
            .Sample(
                (run, withRaising) =>
                    CompareBackward(run with { Events = [.. run.Events, .. More(run)] }, withRaising),
                iter: 60,
                threads: 1
            );

    // Arrivals of one error, a move, settled ones taken out, and a look that can only raise.
    private static IEnumerable<LarvalEvent> More(LarvalRun run) =>
        [
            new Arrived(3, 90, 0, 80, 0.3, 0.2),
            new Arrived(4, 91, 1, 60, 0.3, 0.2),
            new Moved(6, 92, 0, 1, Share: 0.3),
            new Removed(run.Now - 1, 93, Scenes.Both, null, Settled: true),
            new Counted(run.Now - 0.5, 94, Scenes.Both, new AtLeastEvidence(30)),
        ];

    private static void CompareBackward(LarvalRun run, bool withRaising)
    {
        double[] days = [1, 5, 12, run.Now, run.Now + 9];
        var program = LarvalProgram.Of(run, days, withRaising: true);
        var pass = new LarvalPass(program);
        var trace = new LaneTrace(program);
        var lanes = new LanePass(program, trace);
        ulong[] sets = [run.All, 1, 2];
        var totals = new LaneTotals(program.CellCount + 2, days.Length, sets, _ => sets.Length);
        for (var first = 1; first < 17; first += Lanes.Count)
        {
            LarvalPoint[] points =
            [
                .. Points(run, first, Lanes.Count).Select(z => LarvalPoint.At(run.Priors, z)),
            ];
            var told = lanes.Forward(points, withRaising);
            trace.Backward(totals);
            for (var lane = 0; lane < points.Length; lane++)
            {
                var alone = pass.Forward(points[lane], withRaising);
                if (pass.Filter.Total(run.All).Mean < LeastAlive)
                {
                    continue;
                }

                pass.Backward();
                Assert.Equal(alone, told[lane], 1e-10 * (1 + Math.Abs(alone)));
                for (var telling = 0; telling < days.Length; telling++)
                {
                    Compare(pass, totals, telling, lane, sets);
                }
            }
        }
    }

    private static void Compare(LarvalPass pass, LaneTotals totals, int telling, int lane, ulong[] sets)
    {
        var mean = pass.MeanAt(telling);
        var covariance = pass.CovarianceAt(telling);
        var ever = mean.Length - 2;
        for (var set = 0; set < sets.Length; set++)
        {
            var (sum, variance, with) = (0.0, 0.0, 0.0);
            for (var i = 0; i < ever; i++)
            {
                var here = (sets[set] >> i) & 1;
                sum += here * mean[i];
                with += here * covariance[(i * mean.Length) + ever];
                for (var j = 0; j < ever; j++)
                {
                    variance += here * ((sets[set] >> j) & 1) * covariance[(i * mean.Length) + j];
                }
            }

            var told = totals.Total(telling, set);
            Near(Math.Max(0, sum), told.Mean[lane], sum);
            Near(Math.Max(0, variance), told.Variance[lane], variance);
            if (set == 0)
            {
                var everVariance = covariance[(ever * mean.Length) + ever];
                Near(with, totals.Ever(telling).WithAll[lane], everVariance);
                Near(everVariance, totals.Ever(telling).Variance[lane], everVariance);
            }
        }
    }

    private static void Near(double expected, double told, double scale) =>
        Assert.Equal(expected, told, 1e-9 * (1 + Math.Abs(scale)));

    private static void Compare(LarvalRun run, Action<SuppositionResult, SuppositionResult> held)
    {
        var program = LarvalProgram.Of(run, [], withRaising: false);
        var (pass, lanes) = (new LarvalPass(program), new LanePass(program));
        var results = new SuppositionResult[Lanes.Count];
        for (var first = 1; first < 60; first += Lanes.Count)
        {
            var points = Points(run, first, Lanes.Count);
            lanes.Forward(points, results);
            for (var lane = 0; lane < Lanes.Count; lane++)
            {
                var logLikelihood = pass.Forward(
                    LarvalPoint.At(run.Priors, points[lane]),
                    withRaising: false
                );
                var alone = new SuppositionResult(logLikelihood, pass.Filter.Total(run.All).Mean);
                if (!(alone.Alive < LeastAlive))
                {
                    held(alone, results[lane]);
                }
            }
        }
    }

    private static double[][] Points(LarvalRun run, int first, int count)
    {
        var prior = NormalProposal.Prior(LarvalPoint.PlainUnknowns + run.Priors.Detection.Count);
        return [.. Enumerable.Range(first, count).Select(prior.Draw)];
    }

    private static void Same(SuppositionResult alone, SuppositionResult inStep, double tolerance)
    {
        Assert.Equal(
            alone.LogLikelihood,
            inStep.LogLikelihood,
            tolerance * (1 + Math.Abs(alone.LogLikelihood))
        );
        Assert.Equal(alone.Alive, inStep.Alive, tolerance * alone.Alive);
    }

    private static bool IsSame(SuppositionResult alone, SuppositionResult inStep, double tolerance) =>
        IsSame(alone.LogLikelihood, inStep.LogLikelihood, tolerance)
        && IsSame(alone.Alive, inStep.Alive, tolerance);

    private static bool IsSame(double one, double other, double tolerance) =>
        double.IsNaN(one) ? double.IsNaN(other)
        : double.IsInfinity(one) ? one == other
        : Math.Abs(one - other) <= tolerance * (1 + Math.Abs(one));
}
