using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;
using static Broodtide.Science.Estimation.Vessels.VesselQuantity;

namespace Broodtide.Science.Tests.Estimation.Vessels;

public sealed class VesselTwinTests
{
    // What a door prints of each: one in this place.
    private static readonly Dictionary<VesselQuantity, double> Digits = new()
    {
        [Tan] = 0.01,
        [Nitrite] = 0.01,
        [Nitrate] = 0.1,
        [Oxygen] = 0.1,
        [PHNbs] = 0.02,
        [UnionisedAmmonia] = 0.001,
        [FilmShare] = 0.01,
    };

    private static VesselTraces Run(
        VesselScene scene,
        VesselStart start,
        VesselPriors priors,
        int members = 2,
        int steps = 1
    ) =>
        VesselTwin
            .Forward(VesselEnsemble.Draw(scene, start, priors, members), scene, scene.Hours.Length, steps)
            .Traces;

    [Fact]
    public void The_green_reference_container_comes_to_the_printed_ammonia()
    {
        // Reference model of this project, Euler with 0.001 d: 0.00576102 mg/L on day 10; printed 0.006.
        var traces = Run(
            Scenes.Container(10, 0),
            Scenes.ContainerStart(0.415),
            Scenes.ContainerPriors(0.0225)
        );
        Assert.Equal(0.00576102, traces.Value(Tan, 240, 0), 5e-7);
    }

    [Fact]
    public void The_overfed_reference_container_comes_to_the_printed_ammonia()
    {
        // The same model: 6.21578 mg/L; the feed of a day is given in hours here, so a little of it is half an hour late.
        var traces = Run(Scenes.Container(10, 1.6 / 24), Scenes.ContainerStart(0), Scenes.ContainerPriors(0));
        Assert.Equal(6.21578, traces.Value(Tan, 240, 0), 0.05);
    }

    [Fact]
    public void Half_the_step_changes_no_printed_digit()
    {
        var scene = Scenes.Days(
            20,
            events:
            [
                new VesselEvent.AlgaeGiven(10, 6000 * 5e4),
                new VesselEvent.Fed(30, Mass.FromMilligrams(30), FeedComposition.Yeast),
                new VesselEvent.WaterMoved(
                    130,
                    Volume.FromLitres(2),
                    Volume.FromLitres(2),
                    new() { PHNbs = 8.4 }
                ),
                new VesselEvent.Fed(200, Mass.FromMilligrams(60), FeedComposition.Starch),
                new VesselEvent.AlgaeDied(300, Probability.FromFraction(0.7)),
                new VesselEvent.Siphoned(340, Probability.FromFraction(0.5)),
            ]
        );
        var ensemble = VesselEnsemble.Draw(scene, new(), VesselPriors.Usual, 200);
        var coarse = VesselTwin.Forward(ensemble, scene, scene.Hours.Length).Traces;
        var fine = VesselTwin.Forward(ensemble, scene, scene.Hours.Length, stepsPerHour: 2).Traces;
        for (var place = 0; place <= coarse.Hours; place++)
        {
            foreach (var (quantity, digit) in Digits)
            {
                var (one, other) = (coarse.Quantiles(quantity, place), fine.Quantiles(quantity, place));
                var worst = Math.Max(
                    Math.Abs(one.Middle - other.Middle),
                    Math.Max(Math.Abs(one.Low - other.Low), Math.Abs(one.High - other.High))
                );
                Assert.True(worst <= digit, $"{quantity} at hour {place}: {one} and {other}");
            }

            var (cells, finer) = (
                coarse.Quantiles(CellsPerMillilitre, place),
                fine.Quantiles(CellsPerMillilitre, place)
            );
            Assert.Equal(1, cells.Middle / finer.Middle, 0.01);
        }
    }

    [Fact]
    public void Yeast_in_still_water_takes_the_oxygen_of_the_night_and_air_keeps_it()
    {
        var fed = new VesselEvent.Fed(16, Mass.FromMilligrams(9 * 6), FeedComposition.Yeast);
        var still = Run(Scenes.Days(2, 0, AirFlow.None, 6, fed), new(), VesselPriors.Usual, 200);
        var airy = Run(Scenes.Days(2, 0, AirFlow.Gentle, 6, fed), new(), VesselPriors.Usual, 200);
        var clean = Run(Scenes.Days(2, 0), new(), VesselPriors.Usual, 200);
        Assert.True(still.Quantiles(Oxygen, 30).Middle < clean.Quantiles(Oxygen, 30).Middle - 1);
        Assert.True(airy.Quantiles(Oxygen, 30).Middle > still.Quantiles(Oxygen, 30).Middle + 0.5);
    }

    [Fact]
    public void Green_water_has_more_oxygen_and_a_higher_pH_in_the_evening_than_before_dawn()
    {
        var scene = Scenes.Days(3, events: new VesselEvent.AlgaeGiven(0, 6000 * 2e5));
        var traces = Run(scene, new() { Nitrate = new(5, 0.2) }, VesselPriors.Usual, 200);
        Assert.True(traces.Quantiles(Oxygen, 48 + 18).Middle > traces.Quantiles(Oxygen, 48 + 6).Middle + 0.3);
        Assert.True(traces.Quantiles(PHNbs, 48 + 18).Middle > traces.Quantiles(PHNbs, 48 + 6).Middle + 0.03);
    }

    [Fact]
    public void Pieces_come_to_the_same_as_one_run()
    {
        var scene = Scenes.Days(4, events: new VesselEvent.AlgaeGiven(30, 6000 * 5e4));
        var start = VesselEnsemble.Draw(scene, new(), VesselPriors.Usual, 30);
        var whole = VesselTwin.Forward(start, scene, 96).Traces;
        var now = start;
        for (var day = 0; day < 4; day++)
        {
            var (traces, end) = VesselTwin.Forward(now, scene, 24);
            now = end;
            foreach (var quantity in Enum.GetValues<VesselQuantity>())
            {
                Assert.Equal(whole.Value(quantity, 24 * (day + 1), 7), traces.Value(quantity, 24, 7));
            }
        }
    }

    // Two, and one more than two blocks, and parts of unequal size; the last part ends behind the last member.
    [Theory]
    [InlineData(2, 4)]
    [InlineData(17, 2)]
    [InlineData(30, 3)]
    [InlineData(41, 100)]
    public void Parts_run_at_the_same_time_come_to_the_same_as_one_run(int members, int hands)
    {
        var scene = Scenes.Days(
            3,
            events:
            [
                new VesselEvent.AlgaeGiven(30, 6000 * 5e4),
                new VesselEvent.Siphoned(40, Probability.FromFraction(0.5)),
            ]
        );
        var start = VesselEnsemble.Draw(scene, new(), VesselPriors.Usual, members);
        var (whole, end) = VesselTwin.Forward(start, scene, 60);
        var backwards = new BackwardHands(hands);
        var (traces, ended) = VesselTwin.Forward(start, scene, 60, hands: backwards);

        Assert.Equal(Math.Min(hands, (members + 7) / 8), backwards.Done);
        foreach (var quantity in Enum.GetValues<VesselQuantity>())
        {
            for (var hour = 0; hour <= 60; hour++)
            {
                for (var member = 0; member < members; member++)
                {
                    Assert.Equal(whole.Value(quantity, hour, member), traces.Value(quantity, hour, member));
                }
            }
        }

        // Where they ended they go on alike.
        var (next, other) = (VesselTwin.Forward(end, scene, 12), VesselTwin.Forward(ended, scene, 12));
        for (var member = 0; member < members; member++)
        {
            Assert.Equal(next.Traces.Value(Tan, 12, member), other.Traces.Value(Tan, 12, member));
            Assert.Equal(end.TakenOutMilligrams(member), ended.TakenOutMilligrams(member));
        }
    }

    [Fact]
    public void A_scene_that_differs_only_later_is_the_same_member_by_member_until_then()
    {
        var scene = Scenes.Days(3);
        var fed = Scenes.Days(
            3,
            events: new VesselEvent.Fed(48, Mass.FromMilligrams(20), FeedComposition.Yeast)
        );
        var start = VesselEnsemble.Draw(scene, new(), VesselPriors.Usual, 20);
        var (one, other) = (
            VesselTwin.Forward(start, scene, 72).Traces,
            VesselTwin.Forward(start, fed, 72).Traces
        );
        for (var member = 0; member < 20; member++)
        {
            Assert.Equal(one.Value(Oxygen, 48, member), other.Value(Oxygen, 48, member));
            Assert.True(one.Value(Oxygen, 60, member) > other.Value(Oxygen, 60, member));
        }
    }

    [Theory]
    [InlineData(2600)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    public void Light_above_the_sun_or_below_the_dark_is_refused(double light)
    {
        var scene = Scenes.Days(1) with { Hours = [Scenes.Hour(light: light)] };
        var start = VesselEnsemble.Draw(scene, new(), VesselPriors.Usual, 4);
        Assert.Throws<ArgumentOutOfRangeException>(() => VesselTwin.Forward(start, scene, 1));
    }
}
