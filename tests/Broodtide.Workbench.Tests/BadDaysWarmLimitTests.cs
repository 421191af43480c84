using Broodtide.Domain;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.BadDays;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Species;
using static Broodtide.Workbench.Tests.KeptJournal;
using static Broodtide.Workbench.Tests.Lives.Household;

namespace Broodtide.Workbench.Tests;

/// <summary>Every animal has a warm limit, and water read at it is told though nobody read the room.</summary>
public sealed class BadDaysWarmLimitTests
{
    [Fact]
    public void Adults_and_juveniles_of_every_species_have_a_warm_limit_that_says_where_it_is_from() =>
        Assert.All(
            SpeciesProfiles.All,
            profile =>
                Assert.All(
                    new[] { LifeStage.Settled, LifeStage.Adult },
                    stage =>
                    {
                        var limit = profile
                            .LimitsFor(stage)
                            .Single(one => one.Quantity is LimitedQuantity.Temperature && one.IsUpper);
                        // 30 degC and over are dangerous for adults as several keepers report; nobody measured it.
                        Assert.InRange(limit.Value, 30, 32);
                        Assert.NotEqual(Provenance.Measured, limit.From.Provenance);
                    }
                )
        );

    [Fact]
    public void Water_read_too_warm_is_in_the_list_though_the_room_was_never_read()
    {
        var kept = WithBrood().Filled(Tank, 40).Warmth(At(5, 20, 14), Tank, 31);

        var cool = kept.Due(At(5, 20, 14, 30)).Items.Single(it => it.Action.Code == ActionCodes.CoolVessel);
        Assert.Equal("due-too-warm-now", cool.Action.Reason.Code);
        Assert.DoesNotContain(
            WithBrood().Filled(Tank, 40).Warmth(At(5, 20, 14), Tank, 29).Due(At(5, 20, 14, 30)).Items,
            it => it.Action.Code == ActionCodes.CoolVessel
        );
    }

    [Fact]
    public void A_nursery_of_another_species_is_told_when_it_comes_to_its_limit()
    {
        var nursery = new VesselId(Fixed(71));
        var outlook = WithBrood()
            .SetUp(nursery, VesselRole.Nursery, "Caridina typus")
            .Filled(nursery, 20)
            .Warmth(At(5, 20, 8), nursery, 28)
            .Seen(At(5, 20, 9));

        var told = HeatWave.Of(outlook, new() { HottestCelsius = 36, CoolestCelsius = 30 }).Value;
        var heat = told.Vessels.Single(one => one.Vessel == nursery);
        Assert.Equal(30, heat.Limit!.Value);
        Assert.NotNull(heat.ToLimit!.EarlyHours);
        Assert.DoesNotContain(heat.Assumed, remark => remark.Code == "badday-no-warm-limit");
    }
}
