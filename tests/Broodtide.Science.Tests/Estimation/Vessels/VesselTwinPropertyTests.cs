using Broodtide.Science.Estimation.Vessels;
using Broodtide.Science.Waste;
using Broodtide.Science.Water;
using Broodtide.Units;
using CsCheck;

namespace Broodtide.Science.Tests.Estimation.Vessels;

public sealed class VesselTwinPropertyTests
{
    private const int Days = 4;
    private const int Hours = 24 * Days;

    private static readonly Gen<VesselEvent> Events = Gen.OneOf(
        Gen.Select(
            Gen.Int[0, Hours - 1],
            Gen.Double[0, 3],
            Gen.Double[0, 3],
            Gen.Double[0, 20],
            VesselEvent (hour, taken, added, nitrate) =>
                new VesselEvent.WaterMoved(
                    hour,
                    Volume.FromLitres(Math.Min(taken, added)),
                    Volume.FromLitres(added),
                    new()
                    {
                        Nitrate = Concentration.FromMilligramsPerLitre(nitrate),
                        Tan = Concentration.FromMilligramsPerLitre(nitrate / 10),
                        CellsPerMillilitre = nitrate * 1e4,
                    }
                )
        ),
        Gen.Select(
            Gen.Int[0, Hours - 1],
            Gen.Double[0, 3000],
            VesselEvent (hour, milligrams) =>
                new VesselEvent.Fed(hour, Mass.FromMilligrams(milligrams), FeedComposition.Yeast)
        ),
        Gen.Select(
            Gen.Int[0, Hours - 1],
            Gen.Double[0, 1e10],
            VesselEvent (hour, cells) => new VesselEvent.AlgaeGiven(hour, cells)
        ),
        Gen.Select(
            Gen.Int[0, Hours - 1],
            Gen.Double[0, 1],
            VesselEvent (hour, share) => new VesselEvent.Siphoned(hour, Probability.FromFraction(share))
        ),
        Gen.Select(
            Gen.Int[0, Hours - 1],
            Gen.Double[0, 1],
            VesselEvent (hour, share) => new VesselEvent.AlgaeDied(hour, Probability.FromFraction(share))
        ),
        Gen.Select(
            Gen.Int[0, Hours - 1],
            Gen.Double[0, 1],
            VesselEvent (hour, share) => new VesselEvent.FilmWiped(hour, Probability.FromFraction(share))
        ),
        Gen.Select(
            Gen.Int[0, Hours - 1],
            Gen.Double[0, 1],
            VesselEvent (hour, share) =>
                new VesselEvent.FilterDisturbed(hour, Probability.FromFraction(share))
        )
    );

    private static readonly Gen<VesselScene> AnyScene = Gen.Select(
        Gen.Double[0, 40],
        Gen.Double[0.5, 40],
        Gen.Double[0, 2500],
        Gen.Int[0, 2],
        Gen.Double[0, 5000],
        Gen.Double[0, 2000],
        Events.Array[0, 8],
        (salinity, celsius, light, air, larvae, filter, events) =>
            Scenes.Days(Days) with
            {
                Site = new() { FilterSquareCentimetres = filter, RipeDays = filter / 50 },
                Events = [.. events],
                Hours =
                [
                    .. Enumerable
                        .Range(0, Hours)
                        .Select(hour =>
                            Scenes.Hour(
                                6 - (0.002 * hour),
                                salinity,
                                celsius,
                                hour % 24 < 12 ? light : 0,
                                (AirFlow)air
                            ) with
                            {
                                Larvae = Interval.FromPoints(larvae / 2, larvae, 2 * larvae),
                                LarvaDryMicrograms = 60,
                            }
                        ),
                ],
            }
    );

    [Fact]
    public void Nitrogen_is_what_was_there_and_came_less_what_went() =>
        AnyScene.Sample(
            scene =>
            {
                var start = VesselEnsemble.Draw(scene, new(), VesselPriors.Usual, 9);
                var end = VesselTwin.Forward(start, scene, Hours).End;
                for (var member = 0; member < 9; member++)
                {
                    var came = start.NitrogenMilligrams(member) + end.BroughtInMilligrams(member);
                    Assert.Equal(
                        came - end.TakenOutMilligrams(member),
                        end.NitrogenMilligrams(member),
                        1e-9 * came
                    );
                }
            },
            iter: 150
        );

    [Fact]
    public void Nothing_leaves_its_physical_bounds_with_readings_or_without() =>
        Gen.Select(AnyScene, Gen.Enum<VesselQuantity>(), Gen.Double[0, 1], Gen.Enum<WaterColour>())
            .Sample(
                (scene, quantity, share, colour) =>
                {
                    var start = VesselEnsemble.Draw(scene, new(), VesselPriors.Usual, 9);
                    var (traces, end) = VesselTwin.Forward(start, scene, Hours / 2);
                    Bounded(traces, scene);
                    VesselReading reading = quantity switch
                    {
                        VesselQuantity.CellsPerMillilitre => VesselReading.Measured.AtHome(
                            Hours / 2,
                            quantity,
                            1e8 * share
                        ),
                        VesselQuantity.Tan
                        or VesselQuantity.Nitrite
                        or VesselQuantity.Nitrate
                        or VesselQuantity.Oxygen => VesselReading.Measured.AtHome(
                            Hours / 2,
                            quantity,
                            100 * share * share
                        ),
                        VesselQuantity.PHNbs => VesselReading.Measured.AtHome(
                            Hours / 2,
                            quantity,
                            14 * share
                        ),
                        _ => new VesselReading.ColourSeen(Hours / 2, colour),
                    };
                    var read = VesselUpdating.With(end, reading, scene).Members;
                    Bounded(VesselTwin.Forward(read, scene, Hours / 2).Traces, scene);
                    foreach (var prior in read.Priors.Rows)
                    {
                        var values = new double[9];
                        read.Read(prior.Parameter, values);
                        Assert.All(values, value => Assert.InRange(value, prior.Lowest, prior.Highest));
                    }
                },
                iter: 150
            );

    [Fact]
    public void With_all_else_switched_off_it_is_the_simple_container_step_by_step() =>
        Gen.Select(Gen.Double[0, 2], Gen.Double[0, 0.2], Gen.Int[1, 20])
            .Sample(
                (algae, grazing, days) =>
                {
                    var scene = Scenes.Container(days, 0);
                    var start = VesselEnsemble.Draw(
                        scene,
                        Scenes.ContainerStart(algae),
                        Scenes.ContainerPriors(grazing),
                        2
                    );
                    var traces = VesselTwin.Forward(start, scene, 24 * days).Traces;
                    var simple = SimpleContainer.After(
                        new(algae, 0, 0.05, 0),
                        new() { GrazingPerDay = grazing },
                        days,
                        24
                    );
                    Assert.Equal(simple.Tan, traces.Value(VesselQuantity.Tan, 24 * days, 1), 1e-9);
                    Assert.Equal(simple.Detritus, traces.Value(VesselQuantity.Suspended, 24 * days, 1), 1e-9);
                },
                iter: 40
            );

    private static void Bounded(VesselTraces traces, VesselScene scene)
    {
        for (var place = 0; place <= traces.Hours; place++)
        {
            var hour = scene.Hours[Math.Max(0, traces.FromHour + place - 1)];
            var most =
                3
                * OxygenSaturation.At(hour.Salinity, hour.Temperature).Value.MilligramsPerLitre
                * (1 + 1e-12);
            for (var member = 0; member < traces.Members; member++)
            {
                foreach (var quantity in Enum.GetValues<VesselQuantity>())
                {
                    var value = traces.Value(quantity, place, member);
                    Assert.True(double.IsFinite(value) && value >= 0, $"{quantity} {value}");
                }

                Assert.InRange(traces.Value(VesselQuantity.Oxygen, place, member), 0, most);
                Assert.InRange(traces.Value(VesselQuantity.PHNbs, place, member), 5, 11.3);
                Assert.True(
                    traces.Value(VesselQuantity.UnionisedAmmonia, place, member)
                        <= traces.Value(VesselQuantity.Tan, place, member)
                );
            }
        }
    }
}
