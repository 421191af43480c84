using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Trials;
using Broodtide.Units;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.Species;
using Broodtide.Workbench.Trials;
using NodaTime;
using NodaTime.Testing;

namespace Broodtide.Workbench.Tests.Trials;

public sealed class TrialPlanningTests
{
    private static readonly TrialWishes Eight = new()
    {
        Vessels = 8,
        Larvae = 400,
        Usual = Probability.FromFraction(0.3),
        Wished = Probability.FromFraction(0.9),
    };

    [Fact]
    public void One_vessel_each_allows_no_test_and_says_so()
    {
        var proposal = Of(Eight with { Vessels = 2 });
        Assert.Null(proposal.Power);
        Assert.Null(proposal.Found);
        Assert.Contains(proposal.Remarks, remark => remark.Code == "trial-no-test");
    }

    [Fact]
    public void Three_against_three_cannot_reach_five_in_a_hundred()
    {
        // 6! / (3! 3!) = 20 arrangements, two of them as extreme: p is 0.1 at the least.
        var proposal = Of(Eight with { Vessels = 7 });
        Assert.Equal(3, proposal.PerTreatment);
        Assert.Equal(1, proposal.VesselsOver);
        Assert.Equal(0.1, proposal.SmallestP.Value, 1e-12);
        Assert.Null(proposal.Power);
        Assert.Contains(proposal.Remarks, remark => remark.Code == "trial-p-out-of-reach");
        Assert.Contains(proposal.Remarks, remark => remark.Code == "trial-vessels-over");
    }

    [Fact]
    public void Four_against_four_find_a_great_difference_and_no_small_one()
    {
        var proposal = Of(Eight);
        // 8! / (4! 4!) = 70 arrangements: 2 / 70.
        Assert.Equal(2 / 70.0, proposal.SmallestP.Value, 1e-12);
        Assert.InRange(proposal.Power!.Power.Value, 0.8, 1);
        Assert.Equal(1000, proposal.Power.Trials);
        Assert.InRange(proposal.Found!.Value.Value, 0.5, 0.9);
        var small = Of(Eight with { Wished = Probability.FromFraction(0.35) });
        Assert.InRange(small.Power!.Power.Value, 0, 0.25);
        Assert.Contains(small.Remarks, remark => remark.Code == "trial-rather-missed");
    }

    [Fact]
    public void More_larvae_do_not_stand_for_vessels()
    {
        // Shares 0.3 and 0.5, correlation 0.1: nine vessels each whatever the number of larvae (Donner and Klar 2000, by hand
        // with 0.3 x 0.7 + 0.5 x 0.5 = 0.46, (1.96 + 0.8416)^2 / 0.04 x 0.46 x 0.1 = 9.03).
        var wishes = Eight with
        {
            Wished = Probability.FromFraction(0.5),
            Larvae = 100_000,
        };
        var proposal = Of(wishes);
        Assert.Equal(10, proposal.VesselsAtLeast);
        Assert.Contains(proposal.Remarks, remark => remark.Code == "trial-larvae-are-no-vessels");
    }

    [Fact]
    public void Several_treatments_share_the_level_and_each_block_holds_all_of_them()
    {
        var proposal = Of(Eight with { Vessels = 24, Treatments = 3, Blocks = 2, Seed = 5 });
        Assert.Equal(0.025, proposal.Level.Value, 1e-12);
        Assert.Equal(4, proposal.Replicates);
        Assert.All(
            proposal.Layout.GroupBy(vessel => (vessel.Block, vessel.Treatment)),
            group => Assert.Equal(4, group.Count())
        );
        Assert.Equal(TrialLayout.Deal(3, 2, 4, 5), proposal.Layout);
        Assert.Contains(proposal.Remarks, remark => remark.Code == "trial-several-comparisons");
    }

    [Fact]
    public void A_crowded_vessel_and_one_with_few_larvae_are_told()
    {
        Assert.Contains(
            Of(Eight with { Water = Volume.FromLitres(1) }).Remarks,
            remark => remark.Code == "trial-crowded"
        );
        Assert.Contains(Of(Eight with { Larvae = 40 }).Remarks, remark => remark.Code == "trial-few-larvae");
        Assert.DoesNotContain(
            Of(Eight with { Water = Volume.FromLitres(4) }).Remarks,
            remark => remark.Code is "trial-crowded" or "trial-few-larvae"
        );
    }

    [Theory]
    [InlineData(1, 100, 2, 1)]
    [InlineData(101, 1000, 2, 1)]
    [InlineData(8, 7, 2, 1)]
    [InlineData(8, 100, 1, 1)]
    [InlineData(8, 100, 3, 3)]
    public void What_cannot_be_planned_is_said_first(int vessels, int larvae, int treatments, int blocks)
    {
        var wishes = Eight with
        {
            Vessels = vessels,
            Larvae = larvae,
            Treatments = treatments,
            Blocks = blocks,
        };
        Assert.NotNull(wishes.Impossible());
        Assert.Throws<ArgumentException>(() => Of(wishes));
    }

    [Fact]
    public void Laying_out_makes_vessels_whose_names_do_not_tell_and_one_trial()
    {
        var ids = 0;
        Guid NewId() => new(++ids, 1, 1, [0x80, 0, 0, 0, 0, 0, 0, 1]);
        var now = Instant.FromUtc(2026, 5, 1, 12, 0);
        var keeper = new Keeper(
            new Author("a keeper (invented)"),
            new FakeClock(now),
            DateTimeZone.Utc,
            NewId
        );
        var jar = new VesselId(NewId());
        var house = new House(Account.Of([]));
        var laid = TrialLayingOut.Of(
            house,
            Of(Eight),
            new(
                "Trial A",
                "salinity",
                [
                    new("as always", TypedNumber.Of(30, "sal:practical"), true),
                    new("20", TypedNumber.Of(20, "sal:practical")),
                ],
                "share settled by day 45",
                null,
                Volume.FromLitres(4),
                [jar]
            ),
            keeper,
            NewId,
            now
        );
        Assert.Equal(8, laid.Vessels.Count);
        Assert.Equal(jar, laid.Vessels[0].Vessel);
        Assert.Equal(7, laid.Vessels.Count(vessel => vessel.IsNew));
        Assert.Equal(8, laid.Vessels.Select(vessel => vessel.Name).Distinct().Count());
        Assert.DoesNotContain(
            laid.Vessels.Skip(1),
            vessel => vessel.Name.Contains("20", StringComparison.Ordinal)
        );
        Assert.Equal(8, laid.Drafts.Count);
        Assert.All(laid.Drafts, draft => Assert.Null(draft.Impossible()));
        var trial = Assert.IsType<TrialLaidOut>(laid.Drafts[^1].Fact);
        Assert.Equal(4, trial.Vessels.Count(vessel => vessel.Treatment == 1));
        Assert.Equal(7, laid.Drafts.Count(draft => draft.Fact is VesselSetUp));
    }

    [Fact]
    public void The_next_round_keeps_the_control_and_does_not_try_one_point_twice()
    {
        var belief = new SurfaceBelief(Probability.FromFraction(0.3), 1.5, 6, 3, 0.5);
        var round = NextTreatments.Of(
            [new(30, 25, new(12, 40)), new(20, 25, new(25, 40))],
            belief,
            new(17, 34, 17),
            new(20, 32, 12),
            (30, 25),
            4,
            40
        );
        Assert.Equal(4, round.Treatments.Count);
        Assert.True(round.Treatments[0].IsControl);
        Assert.Equal(30, round.Treatments[0].First);
        Assert.Equal(4, round.Treatments.Select(it => (it.First, it.Second)).Distinct().Count());
        Assert.True(round.WorthAnother);
        // It goes to the side that did better.
        Assert.True(round.Best.First < 25);
    }

    [Fact]
    public void Where_all_was_tried_often_another_round_is_not_worth_it()
    {
        var belief = new SurfaceBelief(Probability.FromFraction(0.3), 1.5, 6, 3, 0.1);
        List<TriedPoint> tried =
        [
            .. from s in Enumerable.Range(0, 6)
            from t in Enumerable.Range(0, 5)
            select new TriedPoint(17 + (3.4 * s), 20 + (3 * t), new(s == 2 && t == 2 ? 900 : 300, 1000)),
        ];
        var round = NextTreatments.Of(tried, belief, new(17, 34, 5), new(20, 32, 4), (30.6, 26), 3, 1000);
        Assert.False(round.WorthAnother);
        Assert.Contains(round.Remarks, remark => remark.Code == "trial-stop");
        Assert.Equal(23.8, round.Best.First, 1e-9);
    }

    private static TrialProposal Of(TrialWishes wishes) =>
        TrialPlanning.Of(wishes, SpeciesProfiles.Reference);
}
