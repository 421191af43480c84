using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.WhatIf;

namespace Broodtide.Workbench.Tests.WhatIf;

public sealed class GoingOnTests
{
    private static VesselScene Told(params VesselEvent[] events) =>
        Grounds.Told() with
        {
            Hours = [.. Enumerable.Range(0, 240).Select(hour => Grounds.Told().Hours[hour % 48])],
            Events = [.. events],
        };

    private static List<VesselEvent> Coming(params VesselEvent[] events) =>
        [.. GoingOn.Of(Told(events), 240, 10).Scene.Events.Where(done => done.Hour >= 240)];

    [Fact]
    public void Food_of_the_last_week_goes_on_as_its_mean_a_day_at_the_hour_it_came_last()
    {
        var coming = Coming(
            new VesselEvent.Fed(10, Mass.FromMilligrams(700), FeedComposition.Yeast),
            new VesselEvent.Fed(100, Mass.FromMilligrams(70), FeedComposition.Yeast),
            new VesselEvent.Fed(201, Mass.FromMilligrams(70), FeedComposition.Starch)
        );
        Assert.Equal(10, coming.Count);
        var first = Assert.IsType<VesselEvent.Fed>(coming[0]);
        Assert.Equal(20, first.DryMass.Milligrams, 9);
        Assert.Equal(240 + 9, first.Hour);
        Assert.Equal(FeedComposition.Yeast.NitrogenShare / 2, first.Composition.NitrogenShare, 9);
    }

    [Fact]
    public void Green_water_that_was_poured_in_goes_on_as_cells()
    {
        var green = new IncomingWater { CellsPerMillilitre = 1e6 };
        var coming = Coming(
            new VesselEvent.WaterMoved(120, default, Volume.FromMillilitres(70), green),
            new VesselEvent.WaterMoved(220, default, Volume.FromMillilitres(70), green)
        );
        Assert.All(coming, one => Assert.Equal(2e7, Assert.IsType<VesselEvent.AlgaeGiven>(one).Cells, 1));
        Assert.Equal(10, coming.Count);
    }

    [Fact]
    public void Changes_of_water_are_a_habit_from_the_second_on()
    {
        Assert.Empty(
            Coming(new VesselEvent.WaterMoved(100, Volume.FromLitres(1), default, IncomingWater.Clean))
        );
        var coming = Coming(
            new VesselEvent.WaterMoved(30, Volume.FromLitres(1), default, IncomingWater.Clean),
            new VesselEvent.WaterMoved(150, Volume.FromLitres(2), default, IncomingWater.Clean)
        );
        var moved = Assert.IsType<VesselEvent.WaterMoved>(Assert.Single(coming));
        Assert.Equal(240 + (5 * 24), moved.Hour);
        Assert.Equal(1.5, moved.Taken.Litres, 9);
        Assert.Equal(moved.Taken, moved.Added);
    }

    [Fact]
    public void Light_air_water_and_salt_go_on_and_larvae_follow_what_is_given()
    {
        var (scene, _) = GoingOn.Of(Told(), 240, 3, [Interval.Exactly(90), Interval.Exactly(80)]);
        Assert.Equal(240 + 72, scene.Hours.Length);
        Assert.Equal(80, scene.Hours[240 + 12].LightMicromoles);
        Assert.Equal(0, scene.Hours[240 + 22].LightMicromoles);
        Assert.Equal(AirFlow.Gentle, scene.Hours[^1].Air);
        Assert.Equal(6, scene.Hours[^1].Water.Litres);
        Assert.Equal(90, scene.Hours[240].Larvae.Middle);
        Assert.Equal(80, scene.Hours[^1].Larvae.Middle);
    }

    [Fact]
    public void Nothing_fed_is_said()
    {
        Assert.Contains(GoingOn.Of(Told(), 240, 3).Assumed, remark => remark.Code == "whatif-fed-nothing");
    }
}
