using Broodtide.Science.Estimation.Larvae;

namespace Broodtide.Science.Tests.Estimation.Larvae;

/// <summary>Each kind of entry moves the answer the way it should.</summary>
public sealed class WhatCountsTellTests
{
    private static readonly LarvalRun Start = Scenes.Run(10, new Arrived(0, 0, 0, 400, 0.6));

    public static TheoryData<string, CountEvidence, CountEvidence> FewAndMany() =>
        new()
        {
            {
                "aliquots",
                new AliquotEvidence([new(1, 0.02), new(0, 0.02)]),
                new AliquotEvidence([new(14, 0.02), new(11, 0.02)])
            },
            { "their sum", new AliquotSumEvidence(1, 0.04, 2), new AliquotSumEvidence(25, 0.04, 2) },
            { "known chance", new KnownChanceEvidence(15, 0.2), new KnownChanceEvidence(120, 0.2) },
            {
                "known clumping",
                new KnownClumpingEvidence(2, 0.05, 4),
                new KnownClumpingEvidence(35, 0.05, 4)
            },
            { "a photo", new TrialledEvidence(40, 17, 5), new TrialledEvidence(420, 17, 5) },
            { "a full count", new FullEvidence(60, 0.05), new FullEvidence(600, 0.05) },
            { "two full counts that agree", new ExactEvidence(60), new ExactEvidence(600) },
            { "a beam", new LookEvidence(5, 0, 8, true), new LookEvidence(400, 0, 8, true) },
            { "a glance", new LookEvidence(1, 1, 3, true), new LookEvidence(200, 1, 3, true) },
        };

    [Theory]
    [MemberData(nameof(FewAndMany))]
    public void Few_seen_lower_the_answer_and_many_raise_it(
        string kind,
        CountEvidence few,
        CountEvidence many
    )
    {
        var before = Scenes.Alive(Start, 8);

        Assert.True(Scenes.Alive(With(few), 8).Middle < 0.8 * before.Middle, kind);
        Assert.True(Scenes.Alive(With(many), 8).Middle > 1.15 * before.Middle, kind);
    }

    [Fact]
    public void Zero_seen_in_an_aliquot_narrows()
    {
        var before = Scenes.Alive(Start, 8);
        var after = Scenes.Alive(With(new AliquotEvidence([new(0, 0.02)])), 8);

        Assert.True(after.High < 0.8 * before.High);
        Assert.True(after.Width < 0.85 * before.Width);
        Assert.True(after.Low > 0);
    }

    [Fact]
    public void Four_aliquots_tell_more_than_one_of_four_times_the_volume()
    {
        var four = Scenes.Alive(
            With(new AliquotEvidence([.. Enumerable.Repeat(new SampledShare(3, 0.01), 4)])),
            8
        );
        var one = Scenes.Alive(With(new AliquotEvidence([new(12, 0.04)])), 8);

        Assert.True(four.Width < 0.9 * one.Width, $"{four} against {one}");
    }

    [Fact]
    public void An_exact_count_leaves_that_number()
    {
        var told = Scenes.Alive(With(new ExactEvidence(123)), 8);

        Assert.InRange(told.Low, 122, 123);
        Assert.InRange(told.High, 123, 124);
    }

    [Fact]
    public void A_detection_learned_beside_full_counts_narrows_later_glances()
    {
        // A later crossing of unknown number makes a later glance worth something.
        LarvalEvent[] counted =
        [
            new Arrived(0, 0, 0, 400, 0.6),
            new Counted(1, 10, 1, new FullEvidence(300, 0.04)),
            new Counted(3, 20, 1, new FullEvidence(240, 0.04)),
            new Counted(5, 30, 1, new FullEvidence(210, 0.04)),
            new Arrived(7, 1, 0, 300, 1),
        ];
        LarvalEvent[] beside =
        [
            new Counted(1, 11, 1, new LookEvidence(42, 1, 30, true)),
            new Counted(3, 21, 1, new LookEvidence(35, 1, 30, true)),
            new Counted(5, 31, 1, new LookEvidence(28, 1, 30, true)),
        ];
        var glance = new Counted(13, 40, 1, new LookEvidence(40, 1, 30, true));
        var unlearned = Scenes.Run(13, [.. counted, glance]);
        var learned = Scenes.Run(13, [.. counted, .. beside, glance]);

        var (wide, narrow) = (Scenes.Alive(unlearned, 13), Scenes.Alive(learned, 13));
        Assert.True(
            narrow.Width / narrow.Middle < 0.8 * wide.Width / wide.Middle,
            $"{narrow} against {wide}"
        );
        var detection = Scenes.At(learned, 13).Detection[1];
        Assert.InRange(detection.Middle, 0.11, 0.18);
        Assert.True(detection.Width < Scenes.At(Scenes.Run(13, counted), 13).Detection[1].Width / 3);
    }

    [Fact]
    public void The_dead_that_are_found_lower_the_answer_and_settled_ones_seen_move_the_day_nearer()
    {
        // With a number that is well known; else many dead also say that many came.
        var known = Scenes.Run(10, new Arrived(0, 0, 0, 400, 0.05));
        var before = Scenes.Alive(known, 10);
        var dead = Scenes.Alive(known with { Events = [.. known.Events, new DeadFound(9, 1, 250)] }, 10);
        Assert.True(dead.Middle < before.Middle);

        var late = Start with { Now = 30 };
        var seen = late with { Events = [.. late.Events, new SettledSeen(30, 1, 1, 20)] };
        Assert.True(
            Scenes.At(seen, 30).Settlement.Half.Middle < Scenes.At(late, 30).Settlement.Half.Middle - 2
        );
    }

    [Fact]
    public void A_stage_sample_tells_how_quick_development_is()
    {
        var run = Start with { Now = 20 };
        var slow = run with
        {
            Events = [.. run.Events, new Staged(20, 1, 1, [0, 2, 9, 8, 1, 0, 0, 0, 0, 0])],
        };
        var quick = run with
        {
            Events = [.. run.Events, new Staged(20, 1, 1, [0, 0, 0, 0, 2, 9, 8, 1, 0, 0])],
        };

        Assert.True(Scenes.At(quick, 20).Settlement.Half.High < Scenes.At(slow, 20).Settlement.Half.Low);
        Assert.True(
            Scenes.At(quick, 20).DevelopmentDays.Middle < Scenes.At(slow, 20).DevelopmentDays.Middle - 8
        );
    }

    [Fact]
    public void Larvae_removed_are_missing()
    {
        var run = With(new FullEvidence(200, 0.03));
        var less = run with { Events = [.. run.Events, new Removed(8, 2, 1, 80)] };

        Assert.InRange(Scenes.Alive(run, 8.01).Middle - Scenes.Alive(less, 8.01).Middle, 74, 86);
    }

    [Fact]
    public void A_filter_whose_cells_move_and_split_keeps_mean_and_variance_of_the_sum()
    {
        var filter = new NumberFilter(3);
        filter.Add(0, 300, 900);
        filter.Add(1, 100, 200);
        var before = filter.Total(7);
        filter.Move(0, 1, 0.4);
        filter.MoveNumber(1, 2, 30);
        filter.Move(2, 0, 1);

        Assert.Equal(before.Mean, filter.Total(7).Mean, 1e-9);
        Assert.Equal(before.Variance, filter.Total(7).Variance, 1e-9);
    }

    [Fact]
    public void Cells_that_move_and_split_keep_the_sum()
    {
        var still = Scenes.Run(
            15,
            new Arrived(0, 0, 0, 300, 0.3),
            new Counted(3, 1, 1, new FullEvidence(250, 0.05))
        );
        var moved = still with
        {
            Cells = [new(0, 0), new(1, 0), new(2, 0)],
            Courses = [VesselCourse.Plain, VesselCourse.Plain, VesselCourse.Plain],
            Events =
            [
                .. still.Events,
                new Moved(4, 2, 0, 1, Share: 0.4),
                new Moved(6, 3, 1, 2, Number: 30),
                new Moved(9, 4, 2, 0),
            ],
            // Bad days strike each vessel by itself, so a split run is a little surer.
            Priors = still.Priors with
            {
                BadDays = new(1e-6, 1e-3),
                DailyShock = 1e-4,
            },
        };
        var alone = still with { Priors = moved.Priors };

        foreach (var day in (double[])[4, 7, 15])
        {
            var (one, split) = (Scenes.Alive(alone, day), Scenes.Alive(moved, day));
            Assert.True(Math.Abs(split.Middle - one.Middle) <= 1, $"{day}: {split} for {one}");
            // Points far out also tell which suppositions were taken.
            Assert.Equal(one.Low, split.Low, 0.03 * one.Middle);
            Assert.Equal(one.High, split.High, 0.03 * one.Middle);
        }

        var told = LarvalEstimator.Of(moved, new LarvalQuestion { Days = [15], Sets = [1, 2, 4] }).Days[0];
        Assert.InRange(told.Sets.Sum(set => set.Alive.Middle) - told.All.Alive.Middle, -3, 3);
    }

    private static LarvalRun With(CountEvidence evidence) =>
        Start with
        {
            Events = [.. Start.Events, new Counted(8, 1, 1, evidence)],
        };
}
