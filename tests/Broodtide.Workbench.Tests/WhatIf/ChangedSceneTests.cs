using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.WhatIf;
using CsCheck;

namespace Broodtide.Workbench.Tests.WhatIf;

public sealed class ChangedSceneTests
{
    private const int Now = Grounds.Past;
    private static readonly WhatIfGround Ground = Grounds.Of(members: 4);

    private static VesselScene With(params WhatIfChange[] changes) => ChangedScene.Of(Ground, changes);

    private static List<T> Coming<T>(VesselScene scene)
        where T : VesselEvent => [.. scene.Events.OfType<T>().Where(done => done.Hour >= Now)];

    [Fact]
    public void Another_salinity_at_once_takes_fresh_water_for_the_share_that_dilutes_it()
    {
        var scene = With(new WhatIfChange.SalinityTo(25));
        Assert.Equal(35, scene.Hours[Now - 1].Salinity.Practical);
        Assert.All(scene.Hours[Now..], hour => Assert.Equal(25, hour.Salinity.Practical, 9));
        var moved = Assert.Single(Coming<VesselEvent.WaterMoved>(scene));
        // 35 (1 - x) = 25.
        Assert.Equal(6 * 10.0 / 35, moved.Taken.Litres, 9);
        Assert.Equal(moved.Taken, moved.Added);
    }

    [Fact]
    public void Over_days_it_goes_in_equal_steps_and_the_shares_multiply_to_the_whole()
    {
        var scene = With(new WhatIfChange.SalinityTo(30, 5));
        Assert.Equal(34, scene.Hours[Now].Salinity.Practical, 9);
        Assert.Equal(33, scene.Hours[Now + 24].Salinity.Practical, 9);
        Assert.Equal(30, scene.Hours[^1].Salinity.Practical, 9);
        var kept = Coming<VesselEvent.WaterMoved>(scene)
            .Aggregate(1.0, (left, moved) => left * (1 - (moved.Taken.Litres / 6)));
        Assert.Equal(30.0 / 35, kept, 9);
    }

    [Fact]
    public void Salt_dissolved_moves_no_water()
    {
        var scene = With(new WhatIfChange.SalinityTo(38));
        Assert.Empty(Coming<VesselEvent.WaterMoved>(scene));
        Assert.Equal(38, scene.Hours[^1].Salinity.Practical, 9);
    }

    [Fact]
    public void Warmth_goes_evenly_and_stays()
    {
        var scene = With(new WhatIfChange.TemperatureTo(27, 3));
        Assert.Equal(24 + (3.0 / 72), scene.Hours[Now].Temperature.Celsius, 9);
        Assert.Equal(27, scene.Hours[Now + 71].Temperature.Celsius, 9);
        Assert.Equal(27, scene.Hours[^1].Temperature.Celsius, 9);
    }

    [Fact]
    public void Light_keeps_the_middle_of_its_day()
    {
        var scene = With(new WhatIfChange.LightFor(6));
        var lit = Enumerable.Range(0, 24).Where(hour => scene.Hours[Now + hour].LightMicromoles > 0).ToList();
        // The clock starts at midnight and it was lit from 7 to 19.
        Assert.Equal([10, 11, 12, 13, 14, 15], lit);
        Assert.All(
            With(new WhatIfChange.LightFor(0)).Hours[Now..],
            hour => Assert.Equal(0, hour.LightMicromoles)
        );
        Assert.All(
            With(new WhatIfChange.LightFor(24, 120)).Hours[Now..],
            hour => Assert.Equal(120, hour.LightMicromoles)
        );
    }

    [Fact]
    public void Feeding_twice_none_or_for_some_days_changes_the_food_of_those_days_alone()
    {
        Assert.All(
            Coming<VesselEvent.Fed>(With(new WhatIfChange.FeedTimes(2))),
            fed => Assert.Equal(40, fed.DryMass.Milligrams, 9)
        );
        Assert.Empty(Coming<VesselEvent.Fed>(With(new WhatIfChange.FeedTimes(0))));
        var some = Coming<VesselEvent.Fed>(With(new WhatIfChange.FeedTimes(0, 2)));
        Assert.Equal(4, some.Count);
        Assert.All(some, fed => Assert.True(fed.Hour >= Now + 48));
    }

    [Fact]
    public void Food_each_day_stands_in_place_of_what_was_fed()
    {
        var fed = Coming<VesselEvent.Fed>(
            With(new WhatIfChange.FoodEachDay(5, FeedComposition.Powder(Probability.FromFraction(0.5))))
        );
        Assert.Equal(Ground.Days, fed.Count);
        Assert.All(fed, one => Assert.Equal(5, one.DryMass.Milligrams, 9));
        var scene = With(new WhatIfChange.AlgaeEachDay(10_000));
        Assert.Empty(Coming<VesselEvent.Fed>(scene));
        Assert.All(Coming<VesselEvent.AlgaeGiven>(scene), one => Assert.Equal(6e7, one.Cells, 3));
    }

    [Fact]
    public void Split_leaves_half_of_the_water_the_larvae_and_the_food()
    {
        var scene = With(new WhatIfChange.Split());
        Assert.Equal(3, scene.Hours[^1].Water.Litres, 9);
        Assert.Equal(75, scene.Hours[^1].Larvae.Middle, 9);
        Assert.All(Coming<VesselEvent.Fed>(scene), fed => Assert.Equal(10, fed.DryMass.Milligrams, 9));
        Assert.Equal(Ground.AsItIs.Site.DepthMetres / 2, scene.Site.DepthMetres, 9);
    }

    [Fact]
    public void Nobody_there_means_no_food_and_less_and_saltier_water_until_the_top_up()
    {
        var scene = With(new WhatIfChange.Skipped(2));
        Assert.All(Coming<VesselEvent.Fed>(scene), fed => Assert.True(fed.Hour >= Now + 48));
        var last = scene.Hours[Now + 47];
        Assert.Equal(6 - 0.24, last.Water.Litres, 9);
        Assert.Equal(35 * 6 / (6 - 0.24), last.Salinity.Practical, 9);
        Assert.Equal(6, scene.Hours[Now + 48].Water.Litres, 9);
        Assert.Equal(35, scene.Hours[Now + 48].Salinity.Practical, 9);
        // The lamp has a clock.
        Assert.Equal(80, scene.Hours[Now + 12].LightMicromoles);
    }

    [Fact]
    public void What_is_done_by_hand_waits_until_somebody_is_there()
    {
        var scene = With(
            new WhatIfChange.SalinityTo(30),
            new WhatIfChange.Siphoned(0.5),
            new WhatIfChange.WaterChanged(0.2, 2),
            new WhatIfChange.LightFor(0),
            new WhatIfChange.Skipped(2)
        );
        Assert.All(
            scene.Events.Where(done => done.Hour >= Now),
            done => Assert.True(done.Hour >= Now + 48, done.ToString())
        );
        Assert.True(scene.Hours[Now + 47].Salinity.Practical > 35);
        Assert.Equal(30, scene.Hours[Now + 48].Salinity.Practical, 9);
        Assert.Equal(0, scene.Hours[Now + 12].LightMicromoles);
    }

    [Fact]
    public void A_water_change_comes_every_so_many_days_or_once()
    {
        Assert.Equal(
            [Now, Now + 72],
            Coming<VesselEvent.WaterMoved>(With(new WhatIfChange.WaterChanged(0.2, 3)))
                .Select(moved => moved.Hour)
        );
        Assert.Equal(
            1.2,
            Assert
                .Single(Coming<VesselEvent.WaterMoved>(With(new WhatIfChange.WaterChanged(0.2))))
                .Added.Litres,
            9
        );
    }

    [Fact]
    public void Larvae_by_number_are_as_many_as_said_now()
    {
        Assert.Equal(450, With(new WhatIfChange.LarvaeNumber(450)).Hours[Now].Larvae.Middle, 9);
        Assert.Equal(0, With(new WhatIfChange.LarvaeTimes(0)).Hours[Now].Larvae.High);
    }

    private static readonly Gen<WhatIfChange[]> Any = Gen.Select(
            Gen.Double[0, 42]
                .Select(Gen.Int[0, 6], (to, over) => (WhatIfChange)new WhatIfChange.SalinityTo(to, over)),
            Gen.Double[5, 40]
                .Select(Gen.Int[0, 6], (to, over) => (WhatIfChange)new WhatIfChange.TemperatureTo(to, over)),
            Gen.Double[0, 24].Select(hours => (WhatIfChange)new WhatIfChange.LightFor(hours)),
            Gen.Double[0, 10]
                .Select(
                    Gen.Int[1, 6],
                    (times, days) => (WhatIfChange)new WhatIfChange.FeedTimes(times, days)
                ),
            Gen.Double[0, 0.9]
                .Select(
                    Gen.Int[0, 6],
                    (share, every) => (WhatIfChange)new WhatIfChange.WaterChanged(share, every)
                ),
            Gen.Double[0, 10].Select(times => (WhatIfChange)new WhatIfChange.LarvaeTimes(times)),
            Gen.Int[1, 6].Select(days => (WhatIfChange)new WhatIfChange.Skipped(days)),
            Gen.Int[0, 255]
        )
        .Select(
            (salt, warm, light, feed, water, larvae, skip, which) =>
                new[] { salt, warm, light, feed, water, larvae, skip, new WhatIfChange.Split() }
                    .Where((_, place) => (which >> place & 1) != 0)
                    .ToArray()
        )
        .Where(changes => changes.Length > 0);

    [Fact]
    public void Whatever_is_allowed_runs_stays_possible_and_never_touches_the_past()
    {
        Any.Sample(
            changes =>
            {
                Assert.Empty(WhatIfRules.Refusals(Ground, changes));
                var scene = ChangedScene.Of(Ground, changes);
                Assert.Equal(Ground.AsItIs.Hours[..Now], scene.Hours[..Now]);
                Assert.Equal(
                    Ground.AsItIs.Events.Where(done => done.Hour < Now),
                    scene.Events.Where(done => done.Hour < Now)
                );
                Assert.Equal(scene.Events, ChangedScene.Of(Ground, [.. changes.Reverse()]).Events);
                var (traces, _) = VesselTwin.Forward(Ground.Members, scene, 24 * Ground.Days);
                for (var place = 0; place <= traces.Hours; place += 12)
                {
                    Assert.InRange(traces.Value(VesselQuantity.Oxygen, place, 0), 0, 50);
                    Assert.True(traces.Value(VesselQuantity.Tan, place, 0) >= 0);
                }
            },
            iter: 60
        );
    }
}
