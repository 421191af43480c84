using Broodtide.Domain;
using Broodtide.Domain.Larvae;
using Broodtide.Science.Estimation.Larvae;
using static Broodtide.Workbench.Tests.KeptJournal;
using static Broodtide.Workbench.Tests.Population.LarvalStory;

namespace Broodtide.Workbench.Tests.Population;

public class DoubleCountsTests
{
    private static readonly VesselId Cup = new(Fixed(40));

    // Jar A's population with one glance of its own, so that there is a chance to believe in.
    private static LarvalStory Glanced() => Of200().Tell(3, Glance(50));

    private static ShareBelief Belief(LarvalStory story, double now = 20) =>
        Assert.Single(story.Population(now).Run.Priors.Detection);

    private static LarvalStory Checked(
        LarvalStory story,
        int times,
        int seen,
        int there,
        string keeper = "keeper"
    )
    {
        for (var time = 0; time < times; time++)
        {
            story.Tell(4 + time, Full(there, Cup), keeper).Tell(4.1 + time, Glance(seen, Cup), keeper);
        }

        return story;
    }

    [Fact]
    public void A_look_beside_a_full_count_elsewhere_teaches_what_the_keepers_looks_see()
    {
        var practice = Belief(Glanced());
        var few = Belief(Checked(Glanced(), 1, 4, 40));
        var many = Belief(Checked(Glanced(), 6, 4, 40));

        Assert.InRange(practice.Median, 0.2, 0.35);
        Assert.True(few.Median < practice.Median && many.Median < few.Median);
        Assert.InRange(many.Median, 0.08, 0.17);
        Assert.True(many.LogitSd < few.LogitSd && few.LogitSd < practice.LogitSd + 0.05);
        // What is learned elsewhere stays wide.
        Assert.True(many.LogitSd > 0.35);
    }

    [Fact]
    public void Aliquots_of_the_same_larvae_teach_too()
    {
        var taught = Glanced().Tell(3.9, Filled(Cup, 41));
        for (var time = 0; time < 4; time++)
        {
            taught
                .Tell(
                    4 + time,
                    new CountMade(
                        Cup,
                        CountMethod.Aliquot,
                        [.. Enumerable.Repeat(new Aliquot(10, Litres(0.3)), 4)]
                    )
                )
                .Tell(4.1 + time, Glance(120, Cup));
        }

        Assert.True(Belief(taught).Median > 0.4);
    }

    [Fact]
    public void Another_keepers_or_another_way_of_looking_teaches_nothing_of_this_one()
    {
        var practice = Belief(Glanced());

        Assert.Equal(practice, Belief(Checked(Glanced(), 5, 4, 40, "helper")));
        Assert.Equal(
            practice,
            Belief(
                Glanced()
                    .Tell(4, Full(40, Cup))
                    .Tell(4.1, new CountMade(Cup, CountMethod.Beam, [new Aliquot(4)], InDark: true))
            )
        );
    }

    [Fact]
    public void Counts_that_lie_more_than_six_hours_apart_are_no_pair()
    {
        Assert.Equal(Belief(Glanced()), Belief(Glanced().Tell(4, Full(40, Cup)).Tell(4.3, Glance(4, Cup))));
    }

    [Fact]
    public void The_pairs_of_the_population_itself_are_left_to_its_own_estimate()
    {
        var own = Glanced().Tell(3.1, Full(180)).Tell(6, Glance(20)).Tell(6.1, Full(170));

        Assert.Equal(Belief(Glanced()), Belief(own));
    }

    [Fact]
    public void Later_pairs_are_passed_over()
    {
        Assert.Equal(Belief(Glanced(), 3.5), Belief(Checked(Glanced(), 3, 4, 40), 3.5));
    }

    [Fact]
    public void Larvae_past_the_attraction_to_light_teach_nothing_of_younger_ones()
    {
        var other = new BroodIdentity();
        LarvalStory Raised(double day) =>
            Glanced()
                .Tell(
                    0.1,
                    new CrossingMade(other.Cohort, other.Brood, Cup, Number: 60, Method: CountMethod.Full)
                )
                .Tell(day, Full(40, Cup))
                .Tell(day + 0.1, Glance(2, Cup));

        LarvalPriors Priors(LarvalStory story) => story.Outlook(60).PopulationIn(JarA)!.Run.Priors;

        Assert.NotEqual(Belief(Glanced()), Priors(Raised(5)).Detection[0]);
        Assert.Equal(Belief(Glanced()), Priors(Raised(40)).Detection[0]);
        Assert.Equal(
            Belief(Glanced()),
            Priors(
                Raised(10)
                    .Tell(9, new StageSampleTaken(Cup, [new StageTally("Z9", 6), new StageTally("Z6", 4)]))
            ).Detection[0]
        );
    }

    [Fact]
    public void What_was_learned_elsewhere_moves_the_estimate()
    {
        var practice = Glanced().Tell(6, Glance(20)).Estimate(7);
        var seesFew = Checked(Glanced().Tell(6, Glance(20)), 8, 3, 40).Estimate(7);

        Assert.True(seesFew.All.Alive.Middle > practice.All.Alive.Middle);
    }

    // Keepers drawn from practice, pairs by the law of such looks: what is learned must hold the truth at least as
    // often as it says, since it is discounted.
    [Fact]
    public void What_is_learned_of_a_hundred_invented_keepers_holds_what_they_see()
    {
        var random = new Random(20260525);
        var practice = Belief(Glanced());
        var held = 0;
        var narrower = 0.0;
        for (var keeper = 0; keeper < 100; keeper++)
        {
            var logit = Logit(practice.Median) + (practice.LogitSd * Normal(random));
            var chance = 1 / (1 + Math.Exp(-logit));
            var story = Glanced();
            for (var pair = 0; pair < 4; pair++)
            {
                var there = random.Next(30, 300);
                // Gamma of shape 3 is the sum of three exponentials: a scatter of size 3.
                var factor = -Math.Log(random.NextDouble() * random.NextDouble() * random.NextDouble()) / 3;
                var seen = Poisson(random, chance * there * factor);
                story.Tell(4 + pair, Full(there, Cup)).Tell(4.1 + pair, Glance(seen, Cup));
            }

            var learned = Belief(story);
            held += Math.Abs(Logit(learned.Median) - logit) <= 1.6449 * learned.LogitSd ? 1 : 0;
            narrower += learned.LogitSd / practice.LogitSd / 100;
        }

        Assert.True(held >= 85, $"{held} of 100");
        Assert.InRange(narrower, 0.4, 0.9);
    }

    private static double Logit(double share) => Math.Log(share / (1 - share));

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private static int Poisson(Random random, double mean)
    {
        var number = 0;
        for (var time = -Math.Log(1 - random.NextDouble()); time < mean; number++)
        {
            time -= Math.Log(1 - random.NextDouble());
        }

        return number;
    }

    private sealed record BroodIdentity
    {
        public CohortId Cohort { get; } = new(Fixed(42));

        public BroodId Brood { get; } = new(Fixed(43));
    }
}
