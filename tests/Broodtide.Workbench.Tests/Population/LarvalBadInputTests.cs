using Broodtide.Domain.Larvae;
using static Broodtide.Workbench.Tests.KeptJournal;
using static Broodtide.Workbench.Tests.Population.LarvalStory;

namespace Broodtide.Workbench.Tests.Population;

/// <summary>What cannot be is kept and said; the estimate goes on.</summary>
public class LarvalBadInputTests
{
    private static void Said(LarvalStory story, string code, bool inEstimate = true)
    {
        var outlook = story.Outlook(15);
        var estimate = outlook.EstimateOf(outlook.Populations.Single());
        Sound.Check(estimate);
        Assert.Contains(outlook.Conflicts, conflict => conflict.Code == code);
        if (inEstimate)
        {
            Assert.Contains(estimate.Conflicts, conflict => conflict.Code == code);
        }
    }

    [Fact]
    public void More_given_away_or_returned_than_can_be_alive() =>
        Assert.All(
            new Domain.Journal.Fact[]
            {
                new JuvenilesGivenAway(JarA, 900),
                new JuvenilesReturned(JarA, Tank, 900),
                new CohortSplit(First, JarA, JarB, 900),
                new DeadRemoved(JarA, 900),
                new CohortsMoved(JarA, JarB, [First], 900),
            },
            fact => Said(Of200().Tell(10, fact), "more-than-can-live")
        );

    [Fact]
    public void A_count_before_the_first_crossing()
    {
        Said(Of200().Tell(-0.5, Full(30)), "count-before-any-crossing");
        Assert.Equal(Of200().Estimate(10).All.Alive, Of200().Tell(-0.5, Full(30)).Estimate(10).All.Alive);
    }

    [Fact]
    public void A_stage_the_species_does_not_have()
    {
        var story = Of200().Tell(10, Staged(("Z12", 4), ("Z3", 6)));

        Said(story, "stage-unknown-to-species");
        // Those of known stages count.
        Assert.NotEqual(
            Of200().Estimate(10.1).Settlement.Half.Middle,
            story.Estimate(10.1).Settlement.Half.Middle
        );
    }

    [Fact]
    public void An_aliquot_larger_than_the_vessel()
    {
        var story = Of200().Tell(10, Aliquots(9, 80));

        Said(story, "count-aliquots-exceed-water");
        Assert.Equal(Of200().Estimate(10.1).All.Alive, story.Estimate(10.1).All.Alive);
    }

    [Fact]
    public void An_aliquot_without_a_volume_and_one_of_water_nobody_knows()
    {
        Said(
            Of200().Tell(10, new CountMade(JarA, CountMethod.Aliquot, [new Aliquot(4)])),
            "count-aliquot-without-volume"
        );
        var jug = new Domain.VesselId(Fixed(60));
        Said(
            new LarvalStory()
                .Tell(0, Into(First, jug, 200))
                .Tell(3, new CountMade(jug, CountMethod.Aliquot, [new Aliquot(4, Litres(0.1))])),
            "count-water-unknown"
        );
    }

    [Fact]
    public void A_cohort_merged_into_itself() =>
        Said(
            Of200().Tell(2, new CohortsMerged(JarA, [First], First)),
            "merged-into-itself",
            inEstimate: false
        );

    [Fact]
    public void Cohorts_merged_into_each_other_in_a_ring_are_told_once_each_larva()
    {
        var story = Of200()
            .Tell(0.5, Into(Second, JarA, 120))
            .Tell(2, new CohortsMerged(JarA, [First, Second], First))
            .Tell(3, new CohortsMerged(JarA, [First, Second], Second));
        var estimate = story.Estimate(10);

        Sound.Check(estimate);
        Assert.Equal(estimate.All.Alive.Middle, estimate.Cohorts.Sum(cohort => cohort.Now.Alive.Middle), 2.0);
    }

    [Fact]
    public void A_move_into_the_same_vessel_and_a_move_from_where_nobody_was()
    {
        Sound.Check(Of200().Tell(2, new CohortsMoved(JarA, JarA)).Estimate(10));
        Said(
            Of200().Tell(2, new CohortsMoved(JarB, JarA, [First], 20)),
            "moved-from-where-it-was-not",
            inEstimate: false
        );
    }

    [Fact]
    public void Numbers_beyond_measure()
    {
        Sound.Check(new LarvalStory().Tell(0, Into(First, JarA, 0)).Tell(3, Full(50)).Estimate(10));
        Sound.Check(new LarvalStory().Tell(0, Into(First, JarA, int.MaxValue)).Estimate(10));
        Sound.Check(
            new LarvalStory()
                .Tell(0, Into(First, JarA, int.MaxValue))
                .Tell(1, Into(First, JarA, int.MaxValue))
                .Estimate(10)
        );
        Sound.Check(Of200().Tell(6, Glance(int.MaxValue)).Estimate(10));
        Sound.Check(Of200().Tell(6, Full(int.MaxValue)).Estimate(10));
        Sound.Check(Of200().Tell(6, Staged(("Z2", int.MaxValue))).Estimate(10));
    }

    [Fact]
    public void Salinity_that_nobody_read_or_wrote_is_not_held_against_the_larvae()
    {
        var jug = new Domain.VesselId(Fixed(60));
        var unknown = new LarvalStory().Tell(0, Into(First, jug, 200)).Estimate(10);

        Assert.Equal(
            Of200().Estimate(10).All.Alive.Middle,
            unknown.All.Alive.Middle,
            unknown.All.Alive.Width / 10
        );
    }
}
