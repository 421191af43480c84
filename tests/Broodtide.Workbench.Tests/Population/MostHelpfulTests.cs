using Broodtide.Domain.Larvae;
using Broodtide.Science.Estimation.Larvae;
using Broodtide.Workbench.Population;
using static Broodtide.Workbench.Tests.Population.LarvalStory;

namespace Broodtide.Workbench.Tests.Population;

/// <summary>Which single look would tell most depends on what is known: each one wins somewhere.</summary>
public class MostHelpfulTests
{
    private static HelpfulLook Most(LarvalStory story, double day)
    {
        var estimate = story.Estimate(day);
        Assert.True(
            estimate.WhatHelps.Count >= 2,
            string.Join('\n', estimate.WhatHelps.Select(help => help.ToString()))
        );
        return estimate.WhatHelps[0];
    }

    [Fact]
    public void Few_larvae_staged_but_never_counted_are_best_counted_one_by_one()
    {
        var story = Of200().Tell(11, Staged(("Z3", 20), ("Z4", 20))).Tell(12, Staged(("Z3", 15), ("Z4", 25)));
        var most = Most(story, 12.1);

        Assert.Equal(HelpfulKind.FullCount, most.Kind);
        Assert.Equal(HelpfulQuestion.Alive, most.Narrows);
    }

    [Fact]
    public void More_than_anybody_counts_one_by_one_and_staged_already_are_best_sampled_by_aliquots()
    {
        var story = new LarvalStory()
            .Tell(0, Into(First, JarA, 3000, CountMethod.Glance))
            .Tell(11, Staged(("Z3", 20), ("Z4", 20)))
            .Tell(12, Staged(("Z3", 15), ("Z4", 25)));
        var most = Most(story, 12.1);

        Assert.Equal(HelpfulKind.FourAliquots, most.Kind);
        Assert.Equal(HelpfulQuestion.Alive, most.Narrows);
    }

    [Fact]
    public void Larvae_just_counted_and_never_staged_are_best_staged()
    {
        var story = Of200().Tell(20, Full(90)).Tell(20.05, Full(90) with { Again = true });
        var most = Most(story, 20.1);

        Assert.Equal(HelpfulKind.TenStaged, most.Kind);
        Assert.Equal(HelpfulQuestion.Settlement, most.Narrows);
    }

    [Fact]
    public void Many_looked_at_often_with_eyes_nobody_checked_are_best_served_by_a_check()
    {
        var story = new LarvalStory().Tell(0, Into(First, JarA, 3000, CountMethod.Glance));
        for (var day = 1; day <= 12; day++)
        {
            story.Tell(day, new CountMade(JarA, CountMethod.Photo, [new Aliquot(1200 - (20 * day))]));
        }

        story.Tell(11, Staged(("Z3", 20), ("Z4", 20))).Tell(12, Staged(("Z3", 10), ("Z4", 30)));
        var most = Most(story, 12.1);

        Assert.Equal(HelpfulKind.DetectionCheck, most.Kind);
    }
}
