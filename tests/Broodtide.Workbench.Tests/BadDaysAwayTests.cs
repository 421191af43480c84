using Broodtide.Domain;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.BadDays;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;
using static Broodtide.Workbench.Tests.Lives.Household;

namespace Broodtide.Workbench.Tests;

/// <summary>Who is told to need no food while nobody is there, and for how long.</summary>
public sealed class BadDaysAwayTests
{
    private static readonly VesselId Nursery = new(Fixed(70));

    private static AwayPlan Away(int days) =>
        AwayPlanning
            .Of(
                WithBrood()
                    .Filled(Tank, 40)
                    .SetUp(Nursery, VesselRole.Nursery)
                    .Filled(Nursery, 20)
                    .SetUp(Culture, VesselRole.AlgaeCulture)
                    .Filled(Culture, 2)
                    .SetUp(Jar, VesselRole.LarvalVessel)
                    .Filled(Jar, 8)
                    .Seen(At(5, 14, 9)),
                new LocalDate(2026, 5, 15),
                days
            )
            .Value;

    private static string Said(AwayPlan plan, VesselId vessel) =>
        plan.Vessels.Single(one => one.Vessel == vessel).Remarks.Single().Code;

    [Fact]
    public void Grown_animals_need_no_food_for_a_week_and_little_after_it()
    {
        Assert.Equal("badday-away-adults", Said(Away(7), Tank));
        Assert.Equal("badday-away-feed-little", Said(Away(8), Tank));
        Assert.Contains(Away(7).First, remark => remark.Code == "badday-away-adults-fast");
        Assert.DoesNotContain(Away(30).First, remark => remark.Code == "badday-away-adults-fast");
        Assert.Contains(Away(30).First, remark => remark.Code == "badday-away-adults-long");
    }

    [Fact]
    public void Juveniles_and_water_that_nobody_advises_on_are_never_told_to_need_nothing()
    {
        foreach (var days in new[] { 2, 7, 30 })
        {
            var plan = Away(days);
            Assert.Equal("badday-away-feed-not-known", Said(plan, Nursery));
            Assert.Equal("badday-away-feed-not-known", Said(plan, Jar));
            Assert.Contains(plan.First, remark => remark.Code == "badday-away-helper");
            Assert.True(plan.Vessels.Single(one => one.Vessel == Nursery).FoodNotKnown);
        }
    }

    [Fact]
    public void A_culture_is_not_told_to_bear_a_month()
    {
        Assert.Equal("badday-away-culture", Said(Away(7), Culture));
        Assert.Equal("badday-away-culture-long", Said(Away(30), Culture));
    }
}
