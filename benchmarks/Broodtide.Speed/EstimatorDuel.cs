using System.Diagnostics;
using Broodtide.Benchmarks;
using Broodtide.Science.Estimation.Larvae;

namespace Broodtide.Speed;

/// <summary>
/// The estimate of larvae alive: suppositions in step against the same one by one, which is the plain twin, and whole
/// answers. Six cohorts, 45 days, 40 entries.
/// </summary>
internal static class EstimatorDuel
{
    private const int Suppositions = 448;
    private const int WarmUp = 40;

    public static void Run(int rounds)
    {
        Told.Title("ESTIMATOR: larvae alive, 6 cohorts, 45 days, 40 entries");
        var run = LarvaeAlive.Invent(1);
        var program = LarvalProgram.Of(run, [], withRaising: false);
        var (plain, lanes) = (new LarvalPass(program), new LanePass(program));
        var prior = NormalProposal.Prior(LarvalPoint.PlainUnknowns + run.Priors.Detection.Count);
        double[][] points = [.. Enumerable.Range(1, Suppositions).Select(prior.Draw)];
        var (alone, inStep) = (new SuppositionResult[Suppositions], new SuppositionResult[Suppositions]);
        OneByOne();
        InStep();
        Check(alone, inStep);
        Duel.Run(
            $"{Suppositions} suppositions gone through",
            rounds,
            new($"ours, {Lanes.Count} in step", InStep),
            new("one by one, the plain twin", OneByOne)
        );
        // Code is compiled anew a few times before it stays as it is.
        for (var i = 0; i < WarmUp; i++)
        {
            Answer(LarvaeAlive.Today);
            Answer(LarvaeAlive.Line);
        }

        Duel.Run("an answer for one day", rounds, new Runner("ours", () => Answer(LarvaeAlive.Today)));
        Duel.Run(
            "an answer for 60 days, each cohort apart",
            Math.Max(3, rounds / 3),
            new Runner("ours", () => Answer(LarvaeAlive.Line))
        );

        void Answer(LarvalQuestion question) => LarvalEstimator.Of(run, question);

        void OneByOne()
        {
            for (var i = 0; i < points.Length; i++)
            {
                var likely = plain.Forward(LarvalPoint.At(run.Priors, points[i]), withRaising: false);
                alone[i] = new(likely, plain.Filter.Total(run.All).Mean);
            }
        }

        void InStep()
        {
            for (var i = 0; i < points.Length; i += Lanes.Count)
            {
                var some = Math.Min(Lanes.Count, points.Length - i);
                lanes.Forward(points.AsSpan(i, some), inStep.AsSpan(i, some));
            }
        }
    }

    // A race between two that do not do the same work says nothing. By some few suppositions next to nobody lives, and
    // rounding decides there whether a cell stands at nothing.
    private static void Check(SuppositionResult[] alone, SuppositionResult[] inStep)
    {
        var apart = alone
            .Zip(inStep)
            .Where(pair => pair.First.Alive >= 1)
            .Max(pair =>
                Math.Abs(pair.First.LogLikelihood - pair.Second.LogLikelihood)
                / Math.Abs(pair.First.LogLikelihood)
            );
        if (!(apart <= 1e-11))
        {
            throw new UnreachableException($"In step and one by one differ by {apart:E1}.");
        }

        Told.Line($"both give the same, {apart:E1} of a logarithm of a probability apart at most");
    }
}
