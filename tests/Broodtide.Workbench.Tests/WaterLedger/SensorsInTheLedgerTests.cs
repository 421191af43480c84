using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Sensors;
using Broodtide.Workbench.WaterLedger;
using NodaTime;

namespace Broodtide.Workbench.Tests.WaterLedger;

/// <summary>
/// A salinity sensor beside a ledger. The worlds are invented by arithmetic of their own: grams of salt in kilograms of water,
/// a sensor off by one number that wanders, a scale read by hand.
/// </summary>
public sealed class SensorsInTheLedgerTests
{
    private const int Worlds = 300;
    private const int Days = 14;

    // Four a day treated as four witnesses: what the ledger must not do.
    private static readonly LedgerErrors EachAWitness = LedgerErrors.Usual with
    {
        SensorOffsetSd = 0.001,
        SensorWanderSd = 0,
    };

    [Fact]
    public void Intervals_hold_the_truth_nine_times_in_ten_with_a_sensor_in_the_water()
    {
        var (covered, width) = Coverage(LedgerErrors.Usual, withSensor: true);
        var (_, without) = Coverage(LedgerErrors.Usual, withSensor: false);

        Assert.InRange(covered, 0.85, 0.97);
        Assert.True(width < without, $"{width:F3} ppt with it, {without:F3} without");
    }

    [Fact]
    public void To_take_each_mean_for_a_witness_of_its_own_would_lose_the_truth()
    {
        var (covered, _) = Coverage(EachAWitness, withSensor: true);

        Assert.True(covered < 0.6, $"{covered:P0}");
    }

    [Fact]
    public void A_sensor_tells_the_course_at_once_and_the_height_only_as_far_as_it_is_right_itself()
    {
        // The jar loses salt water nobody wrote of: none. It evaporates 200 mL a day of 8 L, and nobody reads by hand.
        var world = new World(1) { LossLitres = 0.2, OffPpt = 0.8 };
        var ledger = world.Tell(LedgerErrors.Usual, Days);
        var loss = ledger.EvaporationMillilitresPerDay;

        Assert.InRange(200, loss.Low, loss.High);
        Assert.True(loss.High - loss.Low < 120, $"{loss}");
        Assert.True(ledger.SalinityPpt.High - ledger.SalinityPpt.Low > 1, $"{ledger.SalinityPpt}");
        var sensor = Assert.Single(ledger.Sensors);
        Assert.Equal(4 * Days, sensor.Count);
    }

    [Fact]
    public void A_reading_by_hand_tells_what_the_sensor_is_off_by()
    {
        var world = new World(2) { OffPpt = 1.5, WanderSd = 0 };
        for (var day = 1; day <= 12; day++)
        {
            world.ReadByHand(day);
        }

        var off = Assert.Single(world.Tell(LedgerErrors.Usual, 13).Sensors).OffPpt;
        Assert.InRange(1.5, off.Low, off.High);
        Assert.True(off.Low > 0.5, $"{off}");
    }

    [Fact]
    public void Water_that_nobody_wrote_down_asks_for_a_reading_and_is_not_taken_from_the_sensor_alone()
    {
        var world = new World(3) { WanderSd = 0 };
        world.ReadByHand(1);
        world.PourUnseen(6, 1.5);
        var ledger = world.Tell(LedgerErrors.Usual, 8);

        var jumped = Assert.Single(ledger.Remarks, remark => remark.Code == "sensor-jumped");
        Assert.True(jumped["offPpt"] is < -3.0, $"{jumped}");
        Assert.InRange(ledger.SalinityPpt.Middle, 31, 34);
        // What it is off by is what became uncertain.
        Assert.True(Assert.Single(ledger.Sensors).OffPpt.Low < -2);

        world.ReadByHand(7.9);
        Assert.DoesNotContain(
            world.Tell(LedgerErrors.Usual, 8).Remarks,
            remark => remark.Code == "sensor-jumped"
        );
    }

    [Fact]
    public void A_sensor_begins_no_water_and_is_not_heard_after_the_water_is_gone()
    {
        var world = new World(4);
        world.Story.At(3, new VesselEmptied(LedgerStory.Jar));
        var ledger = world.Tell(LedgerErrors.Usual, Days);

        Assert.True(ledger.Ended);
        Assert.True(Assert.Single(ledger.Sensors).Count <= 12);

        var empty = new LedgerStory().Jars();
        Assert.Empty(empty.All(5, means: world.Means));
    }

    [Fact]
    public void Temperature_is_the_one_the_sensor_showed_last()
    {
        var story = new LedgerStory().Jars().Filled(0, 8, 32);
        var at = LedgerStory.Start + Duration.FromDays(1);
        WaterMean[] means = [new("a/warm", LedgerStory.Jar, at, 78.8, 0.1, "[degF]", IsOpen: false)];

        Assert.Equal(26, story.Tell(2, means: means).Temperature.Celsius, 6);
        Assert.Equal(24, story.Tell(0.5, means: means).Temperature.Celsius, 6);
    }

    private static (double Covered, double Width) Coverage(LedgerErrors errors, bool withSensor)
    {
        var (covered, asked, width) = (0, 0, 0.0);
        for (var seed = 0; seed < Worlds; seed++)
        {
            var world = World.Random(seed);
            foreach (var day in new[] { 5.0, 9.5, Days })
            {
                var told = world.Tell(errors, day, withSensor).SalinityPpt;
                var truth = world.TruthAt(day);
                covered += told.Low <= truth && truth <= told.High ? 1 : 0;
                width += told.High - told.Low;
                asked++;
            }
        }

        return ((double)covered / asked, width / asked);
    }

    /// <summary>One jar of 8 litres and what was written, read and shown of it.</summary>
    private sealed class World
    {
        private const double StepDays = 0.25;
        private const double KilogramsPerLitre = 1.023;

        // Dry salt of a kilogram of practical salinity 1, g/kg.
        private const double GramsPerUnit = 1.0047154;

        private readonly Random _chance;
        private readonly List<(double Day, double Ppt, double Off)> _course = [];
        private readonly List<(double Day, double Litres)> _unseen = [];
        private readonly int _seed;
        private readonly double _litres;
        private readonly double _ppt;
        private List<WaterMean>? _means;

        public World(int seed, double litres = 8, double ppt = 32)
        {
            _seed = seed;
            _chance = new Random(seed);
            (_litres, _ppt) = (litres, ppt);
            Story.Jars().Filled(0, 8, 32);
        }

        public LedgerStory Story { get; } = new();

        public double LossLitres { get; init; } = 0.05;

        public double OffPpt { get; init; }

        public double WanderSd { get; init; } = 0.1;

        public IReadOnlyList<WaterMean> Means => _means ??= Run();

        public static World Random(int seed)
        {
            var chance = new Random(7919 * (seed + 1));
            // The filling is off as jugs and scales are, the loss as unknown as the ledger says.
            var usual = 0.01 * 1.3 * Math.Pow(8, 2.0 / 3);
            var world = new World(
                seed + 100_000,
                8 * (1 + (0.03 * Normal(chance))),
                32 + (0.4 * Normal(chance))
            )
            {
                LossLitres = Math.Max(0, usual * (1 + Normal(chance))),
                OffPpt = Normal(chance),
            };
            _ = world.Means;
            foreach (var day in new[] { 4.0, 8.0, 12.0 })
            {
                world.ReadByHand(day);
            }

            return world;
        }

        public void PourUnseen(double day, double litres) => _unseen.Add((day, litres));

        public void ReadByHand(double day)
        {
            _ = Means;
            Story.Reads(day, TruthAt(day) + (0.4 * Normal(_chance)));
        }

        public double TruthAt(double day) => _course.Last(point => point.Day <= day + 1e-9).Ppt;

        public VesselLedger Tell(LedgerErrors errors, double day, bool withSensor = true) =>
            Story.Tell(day, errors: errors, means: withSensor ? Run(again: true) : []);

        // Told anew when water was poured in since: the same chances, another course.
        private List<WaterMean> Run(bool again = false)
        {
            if (_means is not null && !(again && _unseen.Count > 0))
            {
                return _means;
            }

            var chance = new Random(_seed ^ 17);
            var kilograms = _litres * KilogramsPerLitre;
            var saltGrams = _ppt * GramsPerUnit * kilograms;
            var off = OffPpt;
            var means = new List<WaterMean>();
            _course.Clear();
            for (var step = 0; step * StepDays <= Days; step++)
            {
                var day = step * StepDays;
                _course.Add((day, saltGrams / kilograms / GramsPerUnit, off));
                var middle = day + (StepDays / 2);
                kilograms -= LossLitres * StepDays / 2;
                var shown = (saltGrams / kilograms / GramsPerUnit) + off + (0.05 * Normal(chance));
                means.Add(
                    new(
                        "shelf-1/salt",
                        LedgerStory.Jar,
                        LedgerStory.Start + Duration.FromDays(middle),
                        shown,
                        0.05,
                        UnitCode.PracticalSalinity,
                        IsOpen: false
                    )
                );
                kilograms -= LossLitres * StepDays / 2;
                kilograms += _unseen
                    .Where(poured => poured.Day >= day && poured.Day < day + StepDays)
                    .Sum(poured => poured.Litres);
                off += WanderSd * Math.Sqrt(StepDays) * Normal(chance);
            }

            means.RemoveAt(means.Count - 1);
            return _means = means;
        }

        private static double Normal(Random chance) =>
            Math.Sqrt(-2 * Math.Log(1 - chance.NextDouble())) * Math.Cos(2 * Math.PI * chance.NextDouble());
    }
}
