using Broodtide.Science.Estimation.Larvae;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests.Estimation.Larvae;

/// <summary>Whatever is written down, the answer is finite, never negative, and its points ascend.</summary>
public sealed class AbsurdRunsTests
{
    [Fact]
    public void The_answer_to_any_run_is_sound() =>
        Scenes.Absurd.Sample(run => Sound(run, Ask(run)), iter: 150, threads: 1);

    [Fact]
    public void The_answer_to_a_plausible_run_is_sound() =>
        Scenes.Plausible.Sample(run => Sound(run, Ask(run)), iter: 40, threads: 1);

    [Fact]
    public void More_removed_than_there_can_be_leaves_nobody_or_few()
    {
        var run = Scenes.Run(20, new Arrived(0, 0, 0, 100, 0.2), new Removed(5, 1, 1, 5000));

        Sound(run, Ask(run));
        Assert.True(Scenes.Alive(run, 20).Middle < 20);
    }

    [Fact]
    public void Everything_removed_leaves_nobody()
    {
        var run = Scenes.Run(20, new Arrived(0, 0, 0, 100, 0.2), new Removed(5, 1, 1, null));

        Sound(run, Ask(run));
        Assert.Equal(Interval.Exactly(0), Scenes.Alive(run, 6));
    }

    [Fact]
    public void Counts_before_the_first_crossing_are_borne()
    {
        var run = Scenes.Run(20, new Arrived(5, 0, 0, 100, 0.2), Scenes.Aliquots(1, 1, 0.1, 7, 9));

        Sound(run, Ask(run));
        Assert.InRange(Scenes.Alive(run, 5).Middle, 50, 150);
    }

    [Fact]
    public void Stages_beyond_the_list_are_borne()
    {
        var run = Scenes.Run(
            20,
            new Arrived(0, 0, 0, 100, 0.2),
            new Staged(10, 1, 1, [0, 0, 3, 0, 0, 0, 0, 0, 0, 0, 0, 5, 90])
        );

        Sound(run, Ask(run));
    }

    [Fact]
    public void One_arrival_and_nothing_else_is_an_answer()
    {
        var run = Scenes.Run(0, new Arrived(0, 0, 0, 100, 0.3));

        Sound(run, Ask(run));
        Assert.InRange(Scenes.Alive(run, 0).Middle, 85, 105);
    }

    [Fact]
    public void A_move_into_itself_changes_nothing()
    {
        var without = Scenes.Run(20, new Arrived(0, 0, 0, 300, 0.3), Scenes.Aliquots(8, 1, 0.02, 4, 5));
        var with = without with { Events = [.. without.Events, new Moved(4, 2, 0, 0, Number: 50)] };

        Assert.Equal(Scenes.Alive(without, 20), Scenes.Alive(with, 20));
    }

    [Fact]
    public void Huge_counts_are_borne()
    {
        var run = Scenes.Run(
            30,
            new Arrived(0, 0, 0, 100, 0.3),
            Scenes.Aliquots(8, 1, 0.02, 100_000, 100_000, 0),
            new Counted(9, 2, 1, new FullEvidence(100_000, 0.03)),
            new Counted(30, 3, 1, new LookEvidence(100_000, 0, 8, true)),
            new DeadFound(12, 4, 100_000)
        );

        Sound(run, Ask(run));
    }

    [Fact]
    public void Sixty_two_cells_are_followed_and_one_more_is_refused()
    {
        Arrived[] each =
        [
            .. Enumerable.Range(0, 62).Select(cell => new Arrived(cell / 10.0, cell, cell, 20, 0.5)),
        ];
        var run = Scenes.Run(20, [.. each, Scenes.Aliquots(10, 99, 0.01, 6, 9)]);

        Sound(run, Ask(run));
        Assert.Throws<ArgumentException>(() =>
            Scenes.At(Scenes.Run(20, [.. each, new Arrived(1, 62, 62, 5, 0.5)]), 20)
        );
    }

    [Fact]
    public void Days_long_before_and_long_after_are_answered()
    {
        var run = Scenes.Run(20, new Arrived(0, 0, 0, 300, 0.3), Scenes.Aliquots(8, 1, 0.02, 4, 5));
        var told = Scenes.At(run, -1000, 5000);

        Assert.Equal(Interval.Exactly(0), told.Days[0].All.Alive);
        Assert.True(told.Days[1].All.Alive.Low < 5);
    }

    [Fact]
    public void An_answer_takes_as_many_suppositions_whatever_is_written()
    {
        // Four rounds, two more at most, and the telling from 128 at most: bounded whatever the entries say.
        Scenes.Absurd.Sample(
            run =>
            {
                var pauses = LarvalEstimator.InPieces(run, new LarvalQuestion { Days = [40] }, 1).Count();
                Assert.InRange(pauses, 4 * 128, (6 * 128) + 128 + 10);
            },
            iter: 20,
            threads: 1
        );
    }

    private static LarvalEstimate Ask(LarvalRun run) =>
        LarvalEstimator.Of(
            run,
            new LarvalQuestion { Days = [-5, 0, 12.5, run.Now, 200], Sets = [1, run.All] }
        );

    private static void Sound(LarvalRun run, LarvalEstimate estimate)
    {
        foreach (var day in estimate.Days)
        {
            foreach (var numbers in day.Sets.Prepend(day.All))
            {
                Ascends(numbers.Alive);
                Assert.All(numbers.Stages, Ascends);
                Assert.All(numbers.StageShares, share => Assert.InRange(share, 0, 1 + 1e-9));
                var sum = numbers.StageShares.Sum();
                Assert.True(sum == 0 || Math.Abs(sum - 1) < 1e-9, $"{sum}");
                Assert.Equal(run.Stages.Count, numbers.StageShares.Length);
            }

            Ascends(day.Survived);
            Assert.InRange(day.Survived.High, 0, 1);
        }

        Assert.All(
            (Interval[])
                [
                    estimate.Juveniles,
                    estimate.DevelopmentDays,
                    estimate.BaseHazardPerDay,
                    .. estimate.Detection,
                ],
            Ascends
        );
        Assert.All(
            (Interval[])
                [
                    estimate.Settlement.First,
                    estimate.Settlement.Tenth,
                    estimate.Settlement.Half,
                    estimate.Settlement.NineTenths,
                ],
            Finite
        );
        Assert.True(double.IsFinite(estimate.JuvenilesDay));
        Assert.InRange(estimate.EffectiveSize, 0.999, 769);
    }

    private static void Ascends(Interval told)
    {
        Finite(told);
        Assert.True(told.Low >= 0, $"{told}");
    }

    private static void Finite(Interval told)
    {
        Assert.True(double.IsFinite(told.Low) && double.IsFinite(told.High), $"{told}");
        Assert.True(told.Low <= told.Middle && told.Middle <= told.High, $"{told}");
    }
}
