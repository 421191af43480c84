using Broodtide.Science.Estimation.Larvae;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests.Estimation.Larvae;

/// <summary>The same entries give the same answer, whatever way they came and whatever else is asked.</summary>
public sealed class SameAnswerTests
{
    [Fact]
    public void The_order_in_which_entries_came_is_without_influence_to_the_last_bit() =>
        Gen.Select(Gen.OneOf(Scenes.Plausible, Scenes.Absurd), Gen.Int[0, 1000])
            .Sample(
                (run, seed) =>
                {
                    var shuffled = run.Events.ToArray();
                    new Random(seed).Shuffle(shuffled);
                    Assert.Equal(Everything(run), Everything(run with { Events = shuffled }));
                },
                iter: 30,
                threads: 1
            );

    [Fact]
    public void Entries_of_one_day_and_one_tag_may_be_shuffled_too()
    {
        LarvalEvent[] events =
        [
            new Arrived(0, 0, 0, 300, 0.5),
            new Arrived(0, 0, 1, 200, 0.5),
            new Counted(9, 0, 3, new FullEvidence(300, 0.1)),
            new Counted(9, 0, 3, new LookEvidence(80, 0, 8, true)),
            new Counted(9, 0, 1, new LookEvidence(40, 0, 8, true)),
            new Removed(12, 0, 3, 30),
            new Removed(12, 0, 1, 20),
        ];
        var answer = Everything(Scenes.Run(20, events));

        Assert.Equal(answer, Everything(Scenes.Run(20, [.. events.Reverse()])));
    }

    [Fact]
    public void Asking_for_more_days_changes_an_answer_by_rounding_at_most() =>
        Scenes.Plausible.Sample(
            run =>
            {
                var alone = Scenes.At(run, 15).Days[0].All.Alive;
                var among = Scenes
                    .At(run, [.. Enumerable.Range(0, 40).Select(day => (double)day)])
                    .Days[15]
                    .All.Alive;

                Near(alone.Low, among.Low);
                Near(alone.Middle, among.Middle);
                Near(alone.High, among.High);
            },
            iter: 20,
            threads: 1
        );

    [Fact]
    public void Pieces_of_any_size_give_the_answer_given_at_once()
    {
        var run = Scenes.Run(20, new Arrived(0, 0, 0, 300, 0.5), Scenes.Aliquots(8, 1, 0.02, 4, 5));
        var question = new LarvalQuestion { Days = [20] };

        foreach (var size in (int[])[1, 7, 1000])
        {
            var pieces = LarvalEstimator.InPieces(run, question, size).ToArray();
            Assert.Equal(LarvalEstimator.Of(run, question).Days[0].All.Alive, pieces[^1]!.Days[0].All.Alive);
            Assert.All(pieces[..^1], Assert.Null);
        }
    }

    private static void Near(double expected, double told) =>
        Assert.InRange(told, expected - 1 - (0.005 * expected), expected + 1 + (0.005 * expected));

    private static double[] Everything(LarvalRun run)
    {
        var estimate = LarvalEstimator.Of(run, new LarvalQuestion { Days = [3, 20, 60], Sets = [1] });
        return
        [
            .. estimate.Days.SelectMany(day =>
                day.Sets.Prepend(day.All)
                    .SelectMany(numbers => numbers.Stages.Prepend(numbers.Alive))
                    .Append(day.Survived)
                    .SelectMany(Points)
            ),
            .. Points(estimate.Settlement.First),
            .. Points(estimate.Settlement.Half),
            .. Points(estimate.DevelopmentDays),
            .. Points(estimate.BaseHazardPerDay),
            estimate.EffectiveSize,
        ];
    }

    private static double[] Points(Interval told) => [told.Low, told.Middle, told.High];
}
