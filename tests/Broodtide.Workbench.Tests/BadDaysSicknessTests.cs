using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.BadDays;
using Broodtide.Workbench.Planning;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests;

public sealed class BadDaysSicknessTests
{
    [Fact]
    public void Every_vessel_that_shared_water_or_animals_within_a_month_is_named()
    {
        var box = Box;
        var kept = WithBrood()
            .Write(At(4, 10), new WaterMoved(Tank, Culture, TypedNumber.Of(1, "L")))
            .Write(At(5, 10), new WaterMoved(Tank, Jar, TypedNumber.Of(1, "L")))
            .Write(At(5, 15), new AnimalMoved(Female, box));

        var shared = Sickness.SharedWith(kept.House(), Tank, At(5, 20));

        Assert.Equal([Box, Jar], shared.Select(one => one.Vessel));
        Assert.Empty(Sickness.SharedWith(kept.House(), Tank, At(7, 20)));
    }

    [Fact]
    public void A_jar_and_the_mothers_tank_name_each_other_after_a_crossing()
    {
        var kept = WithBrood()
            .Write(At(5, 20), new AnimalMoved(Female, Box))
            .Write(At(5, 29, 22), new CollectionMade(Collection1, Brood1, From: Culture, Number: 90))
            .Write(At(5, 30), new CrossingMade(Cohort1, Brood1, Jar, [Collection1], 90));
        var house = kept.House();

        Assert.Equal([Box, Culture], Shared(house, Jar).OrderBy(one => one.Value));
        Assert.Contains(Jar, Shared(house, Box));
        Assert.Contains(Jar, Shared(house, Culture));
        Assert.DoesNotContain(Jar, Sickness.SharedWith(house, Box, At(7, 20)).Select(one => one.Vessel));
    }

    private static IEnumerable<VesselId> Shared(House house, VesselId vessel) =>
        Sickness.SharedWith(house, vessel, At(6, 2)).Select(one => one.Vessel);

    [Fact]
    public void Signs_have_sources_and_the_water_comes_first_where_it_is_the_likelier_cause()
    {
        var outlook = Outlook.Of(WithBrood().Account(), At(5, 20), Zone);

        Assert.All(Sickness.Signs, sign => Assert.NotEmpty(sign.Source));
        Assert.All(
            Sickness.Signs.Where(sign => sign.Footing is SignFooting.Practice),
            sign => Assert.Matches("practice|keeper", sign.Source)
        );
        var water = Sickness.Of(outlook, Tank, ["all-at-once"]);
        Assert.Equal("badday-sick-water-now", water.First[0].Code);
        var tail = Sickness.Of(outlook, Tank, ["milky-tail"]);
        Assert.Equal("badday-sick-stop", tail.First[0].Code);
        Assert.Equal("milky-tail", Assert.Single(tail.Signs).Code);
        Assert.Contains(CautionCode.Disease, tail.Cautions);
        // Samples are taken before anything is decided.
        var order = tail.First.Select(remark => remark.Code).ToList();
        Assert.True(order.IndexOf("badday-sick-samples") < order.IndexOf("badday-sick-decide"));
    }
}
