using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Tests.Kit;
using Broodtide.Domain.Vessels;

namespace Broodtide.Domain.Tests;

public class FoodFactTests
{
    private static readonly VesselId Jar = new(Pen.Uuid(0xe4));

    [Fact]
    public void A_feed_is_no_more_than_the_whole_of_itself()
    {
        TypedNumber Percent(double value) => TypedNumber.Of(value, "%");
        Assert.Null(
            new FeedDescribed("dust", FoodKind.Powder, Percent(60), Percent(28), Percent(12)).Impossible()
        );
        Assert.Equal(
            "feed-more-than-whole",
            new FeedDescribed("dust", FoodKind.Powder, Percent(60), Percent(30), Percent(12))
                .Impossible()
                ?.Code
        );
        Assert.Null(new FeedDescribed("no figures on it", FoodKind.Yeast).Impossible());
    }

    [Fact]
    public void A_ration_below_nothing_cannot_be()
    {
        Assert.Equal(
            "number-impossible",
            new VesselFed(Jar, FoodKind.Yeast, Mass: new("-9", "mg", -9)).Impossible()?.Code
        );
        Assert.Equal(
            "number-impossible",
            new VesselFed(Jar, FoodKind.GreenWater, Volume: new("-10", "mL", -10)).Impossible()?.Code
        );
    }

    [Fact]
    public void A_look_looks_at_something() =>
        Assert.Equal("nothing-looked-at", new VesselLookedAt(Jar).Impossible()?.Code);

    [Fact]
    public void Cells_are_counted_in_squares_whose_volume_is_known()
    {
        TypedNumber drop = new("50", "mL", 0.05);
        Assert.Null(new CellsCounted(Jar, ChamberKind.FuchsRosenthal, [new(0)]).Impossible());
        Assert.Null(new CellsCounted(Jar, ChamberKind.Drops, [new(3, 20)], SquareVolume: drop).Impossible());
        Assert.Equal(
            "square-volume-needed",
            new CellsCounted(Jar, ChamberKind.Drops, [new(3, 20)]).Impossible()?.Code
        );
        Assert.Equal("no-square-counted", new CellsCounted(Jar, ChamberKind.Neubauer, []).Impossible()?.Code);
        Assert.Equal(
            "no-square-counted",
            new CellsCounted(Jar, ChamberKind.Neubauer, [new(3, 0)]).Impossible()?.Code
        );
        Assert.Equal(
            "count-negative",
            new CellsCounted(Jar, ChamberKind.Neubauer, [new(-3)]).Impossible()?.Code
        );
    }

    [Fact]
    public void Light_is_said_in_lux_or_in_photons_and_in_nothing_else()
    {
        Assert.Null(new LightChanged(Jar, true, 16, TypedNumber.Of(120, "umol/m2/s")).Impossible());
        Assert.Equal(
            "unit-of-another-kind",
            new LightChanged(Jar, true, 16, TypedNumber.Of(120, "L")).Impossible()?.Code
        );
    }
}
