using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Larvae;
using Broodtide.Workbench.Population;
using static Broodtide.Workbench.Tests.KeptJournal;
using static Broodtide.Workbench.Tests.Population.LarvalStory;

namespace Broodtide.Workbench.Tests.Population;

public class LarvalPopulationTests
{
    private static T Event<T>(LarvalStory story, double now = 30)
        where T : LarvalEvent => story.Population(now).Run.Events.OfType<T>().Last();

    [Fact]
    public void A_crossing_that_was_counted_comes_in_with_its_number_and_a_small_error()
    {
        var counted = Event<Arrived>(Of200());
        var guessed = Event<Arrived>(new LarvalStory().Tell(0, Into(First, JarA, 200, CountMethod.Glance)));

        Assert.Equal(200, counted.Number);
        Assert.Equal(0, counted.Day);
        Assert.True(guessed.ErrorCv > 5 * counted.ErrorCv);
    }

    [Fact]
    public void A_crossing_without_a_number_takes_it_from_its_collections_or_from_what_is_usual()
    {
        var collection = new CollectionMade(Collection1, Brood1, Number: 90, Method: CountMethod.Full);
        var gathered = new CrossingMade(First, Brood1, JarA, [Collection1]);

        Assert.Equal(90, Event<Arrived>(new LarvalStory().Tell(-0.2, collection).Tell(0, gathered)).Number);
        var usual = Event<Arrived>(new LarvalStory().Tell(0, Into(First, JarA, null)));
        Assert.InRange(usual.Number, 100, 3000);
        Assert.True(usual.ErrorCv > 0.5);
    }

    [Fact]
    public void Larvae_that_waited_in_fresh_water_or_stood_brackish_come_in_strained()
    {
        var plain = Event<Arrived>(Of200()).Strain;
        var waited = Event<Arrived>(
            new LarvalStory()
                .Tell(-3, new CollectionMade(Collection1, Brood1, Number: 90))
                .Tell(0, new CrossingMade(First, Brood1, JarA, [Collection1]))
        );
        var brackish = Event<Arrived>(
            new LarvalStory().Tell(
                0,
                Into(First, JarA, 200) with
                {
                    BrackishMinutes = TypedNumber.Of(120, "min"),
                }
            )
        );

        Assert.Equal(1, plain);
        Assert.True(waited.Strain > 1.5 && waited.AgeDays > 1);
        Assert.True(brackish.Strain > 1.3);
    }

    [Fact]
    public void A_full_count_is_trusted_exactly_only_where_a_second_one_of_the_same_water_agrees()
    {
        Assert.IsType<FullEvidence>(Event<Counted>(Of200().Tell(10, Full(150))).Evidence);
        Assert.IsType<FullEvidence>(
            Event<Counted>(Of200().Tell(10, Full(150)).Tell(10.05, Full(148) with { Again = true })).Evidence
        );
        Assert.IsType<ExactEvidence>(
            Event<Counted>(Of200().Tell(10, Full(150)).Tell(10.05, Full(150) with { Again = true })).Evidence
        );
    }

    [Fact]
    public void Each_aliquot_stays_its_own_with_its_share_of_the_water()
    {
        var evidence = Assert.IsType<AliquotEvidence>(
            Event<Counted>(Of200().Tell(10, Aliquots(0.3, 7, 11, 8))).Evidence
        );

        Assert.Equal([7, 11, 8], evidence.Samples.Select(sample => sample.Seen));
        Assert.All(evidence.Samples, sample => Assert.InRange(sample.Share, 0.05, 0.056));
    }

    [Fact]
    public void Looks_of_one_keeper_and_way_share_a_chance_to_see()
    {
        var run = Of200()
            .Tell(5, Glance(60))
            .Tell(6, Glance(50))
            .Tell(7, Glance(40), "helper")
            .Tell(8, new CountMade(JarA, CountMethod.Beam, [new Aliquot(90)], InDark: true))
            .Population(30)
            .Run;
        int[] classes =
        [
            .. run
                .Events.OfType<Counted>()
                .Select(count => Assert.IsType<LookEvidence>(count.Evidence).Class),
        ];

        Assert.Equal(classes[0], classes[1]);
        Assert.Equal(3, classes.Distinct().Count());
        Assert.Equal(3, run.Priors.Detection.Count);
    }

    [Fact]
    public void Other_facts_become_what_they_say()
    {
        Assert.Equal(
            [0, 4, 6, 0, 0, 0, 0, 0, 0, 0],
            Event<Staged>(Of200().Tell(9, Staged(("Z2", 4), ("Z3", 6)))).Tallies
        );
        Assert.Equal(12, Event<DeadFound>(Of200().Tell(9, new DeadRemoved(JarA, 12))).Number);
        Assert.Equal(3, Event<SettledSeen>(Of200().Tell(29, new SettlementSeen(JarA, 3))).AtLeast);
        Assert.True(Event<SettledSeen>(Of200().Tell(29, new SettlementSeen(JarA))).AtLeast == 1);
        var home = Event<Removed>(Of200().Tell(29, new JuvenilesReturned(JarA, Tank, 5)));
        Assert.True(home is { Settled: true, Number: 5 });
        Assert.Null(Event<Removed>(Of200().Tell(20, new VesselEmptied(JarA))).Number);
        Assert.Equal(0.5, Event<Moved>(Of200().Tell(5, new CohortSplit(First, JarA, JarB))).Share);
        Assert.Equal(80, Event<Moved>(Of200().Tell(5, new CohortSplit(First, JarA, JarB, 80))).Number);
        var moved = Event<Moved>(Of200().Tell(5, new CohortsMoved(JarA, JarB)));
        Assert.True(moved is { Number: null, Share: null });
    }

    [Fact]
    public void What_is_later_than_now_is_passed_over()
    {
        var story = Of200().Tell(5, Full(150)).Tell(12, Full(90));

        Assert.Single(story.Population(10).Run.Events.OfType<Counted>());
        Assert.Empty(story.Outlook(-1).Populations);
    }

    [Fact]
    public void The_same_entries_give_the_same_estimate_in_whatever_order_they_arrive()
    {
        var story = Of200()
            .Tell(0.5, Into(Second, JarA, 120))
            .Tell(4, Aliquots(0.3, 7, 11, 8))
            .Tell(5, Glance(60))
            .Tell(6, new CohortSplit(Second, JarA, JarB, 40))
            .Tell(9, Staged(("Z2", 4), ("Z3", 6)))
            .Tell(9, Full(190))
            .Tell(12, new DeadRemoved(JarA, 12));
        var expected = Text(story.Estimate(15, 3, 40));
        var random = new Random(7);
        for (var i = 0; i < 6; i++)
        {
            var arrived = story.Entries.ToArray();
            random.Shuffle(arrived);
            var shuffled = Outlook.Of(Account.Of(arrived), Day(15), Zone).Populations.Single();
            Assert.Equal(expected, Text(shuffled.Estimate([Day(3), Day(40)])));
        }
    }

    [Fact]
    public void Cohorts_that_were_joined_are_told_under_the_name_they_bear()
    {
        var story = Of200().Tell(0.5, Into(Second, JarA, 120));
        var apart = story.Estimate(10);
        var joined = story.Tell(2, new CohortsMerged(JarA, [First, Second], First)).Estimate(10);

        Assert.Equal([First, Second], apart.Cohorts.Select(cohort => cohort.Id));
        Assert.Equal(First, Assert.Single(joined.Cohorts).Id);
        Assert.Equal(joined.All.Alive, joined.Cohorts[0].Now.Alive);
        Assert.Equal(apart.All.Alive, joined.All.Alive);
    }

    [Fact]
    public void What_is_moved_or_split_is_neither_lost_nor_won()
    {
        var still = Of200().Estimate(10);
        var halved = Of200().Tell(5, new CohortSplit(First, JarA, JarB)).Estimate(10);
        var split = Of200().Tell(5, new CohortSplit(First, JarA, JarB, 60)).Estimate(10);
        var moved = Of200().Tell(5, new CohortsMoved(JarA, JarB)).Estimate(10);

        Assert.Equal(still.All.Alive.Middle, halved.All.Alive.Middle, still.All.Alive.Width / 10);
        Assert.Equal(still.All.Alive.Middle, moved.All.Alive.Middle, still.All.Alive.Width / 10);
        Assert.Equal(
            split.All.Alive.Middle,
            split.Vessels.Sum(vessel => vessel.Now.Alive.Middle),
            split.All.Alive.Width / 10
        );
        Assert.InRange(split.Vessels.Single(vessel => vessel.Id == JarB).Now.Alive.Middle, 40, 60);
        Assert.Equal(0, moved.Vessels.Single(vessel => vessel.Id == JarA).Now.Alive.High);
    }

    [Fact]
    public void A_vessel_that_serves_one_brood_after_another_holds_two_populations()
    {
        var brood = new Domain.BroodId(Fixed(70));
        LarvalStory Both() =>
            Of200()
                .Tell(10, Full(120))
                .Tell(40, new VesselEmptied(JarA))
                .Tell(45, Filled(JarA, 71))
                .Tell(50, new CrossingMade(Second, brood, JarA, Number: 90, Method: CountMethod.Full))
                .Tell(55, Full(80));
        var outlook = Both().Outlook(60);

        Assert.Equal(2, outlook.Populations.Count);
        Assert.Equal(brood, Assert.Single(outlook.PopulationIn(JarA)!.Broods));
        Assert.DoesNotContain(outlook.Conflicts, conflict => conflict.Code == "count-before-any-crossing");
        Assert.All(outlook.Populations, population => Assert.Single(population.Run.Events.OfType<Counted>()));
        Assert.Equal(0, outlook.EstimateOf(outlook.Populations[0]).All.Alive.High);
        Assert.InRange(outlook.EstimateOf(outlook.Populations[1]).All.Alive.High, 60, 90);
    }

    [Fact]
    public void Broods_that_share_a_vessel_at_one_time_are_one_population()
    {
        var brood = new Domain.BroodId(Fixed(70));
        var outlook = Of200()
            .Tell(10, new CrossingMade(Second, brood, JarA, Number: 90, Method: CountMethod.Full))
            .Outlook(20);

        Assert.Equal([Brood1, brood], Assert.Single(outlook.Populations).Broods);
    }

    [Fact]
    public void Broods_that_never_met_are_one_population_once_a_third_has_met_both()
    {
        var (second, third) = (new Domain.BroodId(Fixed(70)), new Domain.BroodId(Fixed(71)));
        var between = new Domain.CohortId(Fixed(72));
        LarvalStory Apart() =>
            Of200()
                .Tell(10, new CrossingMade(Second, second, JarB, Number: 90, Method: CountMethod.Full))
                .Tell(12, new CrossingMade(between, third, JarA, Number: 40, Method: CountMethod.Full));
        var apart = Apart().Outlook(20);
        var joined = Apart().Tell(15, new CohortsMoved(JarA, JarB, [between])).Outlook(20);

        Assert.Equal(
            [
                [Brood1, third],
                [second],
            ],
            apart.Populations.Select(population => population.Broods.ToArray())
        );
        Assert.Equal([Brood1, second, third], Assert.Single(joined.Populations).Broods);
    }

    [Fact]
    public void More_parts_than_can_be_followed_are_said()
    {
        var story = Of200();
        for (var cohort = 0; cohort < 70; cohort++)
        {
            story.Tell(1, Into(new Domain.CohortId(Fixed(200 + cohort)), JarA, 10));
        }

        Assert.Contains(story.Population(5).Conflicts, conflict => conflict.Code == "alive-too-many-parts");
    }

    [Fact]
    public void A_run_that_ended_leaves_none_and_says_so_without_a_word_of_death()
    {
        var estimate = Of200().Tell(20, new RunEnded(Run1, RunEnd.GivenUp)).Estimate(25, 19);

        Assert.Equal(0, estimate.All.Alive.High);
        Assert.True(estimate.Asked[0].All.Alive.Low > 10);
        Assert.Equal("alive-none-left", Assert.Single(estimate.Remarks).Code);
    }

    [Fact]
    public void A_day_that_is_asked_for_is_told_exactly_and_knows_what_came_later()
    {
        var story = Of200().Tell(12, Full(60)).Tell(12.05, Full(60) with { Again = true });
        var estimate = story.Estimate(20, 20, 6.3, 40, -3, 1e5);

        Assert.Equal(estimate.All.Alive, estimate.Asked[0].All.Alive);
        Assert.Equal(Day(6.3), estimate.Asked[1].At);
        // Not less than what was counted later.
        Assert.InRange(estimate.Asked[1].All.Alive.Low, 60, 200);
        Assert.True(estimate.Asked[1].All.Alive.Middle < Of200().Estimate(6.3).All.Alive.Middle - 20);
        Assert.True(estimate.Asked[2].All.Alive.Middle < estimate.All.Alive.Middle);
        Assert.Equal(0, estimate.Asked[3].All.Alive.High);
        Assert.Equal(0, estimate.Asked[4].All.Alive.High);
        Assert.All(
            estimate.Asked.Skip(1).Take(2),
            moment =>
            {
                Assert.Equal(1, moment.Stages.Sum(stage => stage.Share), 1e-9);
                Assert.Equal(moment.All.Alive, moment.Vessels.Single(v => v.Id == JarA).Point.Alive);
            }
        );
    }

    [Fact]
    public void Each_entry_is_weighed_by_what_the_answer_would_be_without_it()
    {
        var population = Of200()
            .Tell(5, Staged(("Z1", 9), ("Z2", 1)))
            .Tell(12, Full(60))
            .Tell(13, Glance(20))
            .Population(20);
        var estimate = population.Estimate();
        var weights = population.WithoutEach(estimate);

        Assert.Equal(3, weights.Count);
        Assert.IsType<CountMade>(weights[0].Entry.Fact);
        Assert.Equal(CountMethod.Full, ((CountMade)weights[0].Entry.Fact).Method);
        Assert.True(weights[0].AliveWithout.Width > 3 * estimate.All.Alive.Width);
        Assert.Equal(weights.OrderByDescending(weight => weight.Weight), weights);
    }

    private static string Text(PopulationEstimate estimate) =>
        string.Join(
            '\n',
            estimate
                .Track.Select(point => $"{point.At} {point.Alive} {string.Join(' ', point.StageShares)}")
                .Concat(
                    estimate.Asked.Select(moment => $"{moment.At} {moment.All.Alive} {moment.SurvivedShare}")
                )
                .Concat(estimate.Cohorts.Select(cohort => $"{cohort.Id} {cohort.Now.Alive}"))
                .Concat(estimate.Vessels.Select(vessel => $"{vessel.Id} {vessel.Now.Alive}"))
                .Append($"{estimate.Settlement} {estimate.Juveniles} {estimate.SurvivedShare}")
                .Concat(estimate.WhatHelps.Select(help => help.ToString()))
        );
}
