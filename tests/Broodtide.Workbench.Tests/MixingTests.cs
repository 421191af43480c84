using Broodtide.Units;
using Broodtide.Workbench.Mixing;
using CsCheck;
using static Broodtide.Workbench.Tests.CrossingTests;

namespace Broodtide.Workbench.Tests;

public class MixingTests
{
    private static readonly SaltProduct Dry = SaltProduct.FromWaterShare(0, 0);

    // Dry salt in a litre of finished water at 25 degC: S 35 35.99 g, S 30 30.73, S 17 17.25 (reference code of
    // TEOS-10); for each kilogram of fresh water 36.45, 31.08, 17.38 g.
    [Theory]
    [InlineData(35, 35.99, 36.45)]
    [InlineData(30, 30.73, 31.08)]
    [InlineData(17, 17.25, 17.38)]
    public void A_litre_of_sea_water_takes_the_published_salt(
        double salinity,
        double perLitre,
        double perKilogram
    )
    {
        var recipe = Made(
            new()
            {
                Finished = Litres(1),
                Target = ScaledSalinity.Practical(salinity),
                Temperature = Celsius(25),
                Product = Dry,
            }
        );

        Assert.Equal(perLitre, recipe.Mix.Grams, 0.01);
        // Density of pure water at 25 degC, 997.047 kg/m3 (EOS-80).
        Assert.Equal(perKilogram, recipe.Mix.Grams / (recipe.Water.Litres * 0.997047), 0.01);
    }

    [Fact]
    public void A_moist_mix_is_weighed_heavier_and_makes_the_salinity_doubtful()
    {
        var order = new MakeOrder
        {
            Finished = Litres(4),
            Target = ScaledSalinity.Practical(32),
            Temperature = Celsius(25),
            Product = Dry,
        };
        var dry = Made(order);
        var moist = Made(order with { Product = SaltProduct.FromWaterShare(0.08, 0.015) });

        Assert.Equal(dry.Mix.Grams, 0.92 * moist.Mix.Grams, 1e-6);
        Assert.True(moist.Expected.Width > dry.Expected.Width);
        Assert.Equal(32, moist.Expected.Middle);
        Assert.Contains(moist.Doubts, d => d.Source == DoubtSource.WaterInTheMix && d.Sd is > 0.5 and < 0.54);
        Assert.Equal(
            DoubtSource.WaterInTheMix,
            Made(order with { Product = SaltProduct.Unmeasured }).Doubts[0].Source
        );
    }

    [Fact]
    public void The_interval_covers_the_batches_that_errors_make()
    {
        var order = new MakeOrder
        {
            Finished = Litres(4),
            Target = ScaledSalinity.Practical(32),
            Temperature = Celsius(25),
            Product = SaltProduct.FromWaterShare(0.08, 0.03),
        };
        var recipe = Made(order);
        var chance = new Random(7);
        var inside = 0;
        const int Batches = 20_000;
        for (var i = 0; i < Batches; i++)
        {
            var mix = recipe.Mix.Grams + (Normal(chance) * 1) + (Normal(chance) * 0.005 * recipe.Mix.Grams);
            var water = recipe.Water.Litres * 997.047 * (1 + (0.02 * Normal(chance)));
            var salt = mix * (1 - (0.08 + (0.03 * Normal(chance))));
            inside += recipe.Expected.Contains(1000 * salt / (mix + water) / 1.0047154) ? 1 : 0;
        }

        Assert.InRange(inside / (double)Batches, 0.89, 0.91);
    }

    [Theory]
    [InlineData("sal:practical", 35)]
    [InlineData("sal:g/kg", 35.165)]
    [InlineData("sal:percent-sea", 100)]
    [InlineData("sal:chlorinity", 19.374)]
    [InlineData("sal:mS/cm-25", 53.07)]
    [InlineData("sal:sg-25/25", 1.02637)]
    [InlineData("sal:sg-20/20", 1.0266)]
    [InlineData("sal:sg-15/15", 1.0269)]
    [InlineData("sal:mix-g/L", 35.99)]
    [InlineData("sal:mix-g/L-water", 36.34)]
    public void The_same_sea_water_is_ordered_on_any_scale(string unit, double value)
    {
        // S = 35 on each scale at 25 degC: specific gravities and conductivity from EOS-80 and the reference code of
        // TEOS-10, chlorinity 35 / 1.80655, 36.45 g per kg of water times 0.99705 kg/L.
        var recipe = Made(
            new()
            {
                Finished = Litres(1),
                Target = ScaledSalinity.FromUnit(value, unit)!.Value,
                Temperature = Celsius(25),
                Product = Dry,
            }
        );

        Assert.Equal(35, recipe.Finished.Salinity.Practical, 0.15);
    }

    [Fact]
    public void Sea_water_is_ordered_as_a_brine_refractometer_shall_show_it()
    {
        // S = 30 shows 31.3 on a scale in g NaCl/kg at 20 degC (CRC Handbook; Quan and Fry 1995), doubt 0.15 to 0.3.
        var recipe = Made(
            new()
            {
                Finished = Litres(1),
                Target = new(31.3, SalinityScale.BrineGramsPerKilogram),
                Temperature = Celsius(20),
            }
        );

        Assert.Equal(30, recipe.Finished.Salinity.Practical, 0.15);
    }

    [Fact]
    public void Every_scale_leads_back_to_the_same_water() =>
        Gen.Double[2, 34.9]
            .Select(Gen.Double[5, 29])
            .Sample(
                (s, t) =>
                {
                    foreach (
                        var on in OtherScales.All(
                            Salinity.FromPractical(s),
                            Celsius(t),
                            SaltProduct.Unmeasured
                        )
                    )
                    {
                        var back = OtherScales.ToPractical(
                            new(on.Value!.Value, on.Scale, on.Reference),
                            Celsius(t),
                            SaltProduct.Unmeasured
                        );
                        Assert.Equal(s, back!.Value.Value.Practical, 1e-6);
                    }
                },
                iter: 300
            );

    [Fact]
    public void A_specific_gravity_without_reference_is_no_order()
    {
        var answer = MakingWater.Plan(
            new()
            {
                Finished = Litres(1),
                Target = new(1.025, SalinityScale.SpecificGravity),
                Temperature = Celsius(25),
            }
        );

        Assert.Equal(MixingRefusalCode.ReferenceNeeded, Refused(answer).Code);
    }

    [Theory]
    [InlineData(1, 60, 25, MixingRefusalCode.SalinityOutsideRange, 42)]
    [InlineData(1, 30, 90, MixingRefusalCode.TemperatureOutsideRange, 39.98)]
    [InlineData(0, 30, 25, MixingRefusalCode.VolumeOutsideRange, 0.001)]
    public void What_no_formula_covers_is_refused_with_the_nearest(
        double litres,
        double salinity,
        double celsius,
        MixingRefusalCode code,
        double nearest
    )
    {
        var refusal = Refused(
            MakingWater.Plan(
                new()
                {
                    Finished = Litres(litres),
                    Target = ScaledSalinity.Practical(salinity),
                    Temperature = Celsius(celsius),
                }
            )
        );

        Assert.Equal(code, refusal.Code);
        Assert.Equal(nearest, refusal.Nearest);
    }

    [Fact]
    public void Raising_a_vessel_keeps_the_water_and_adds_the_salt()
    {
        var plan = Corrected(
            new()
            {
                Vessel = Water(10, 28, 25),
                Target = ScaledSalinity.Practical(31),
                Product = Dry,
            }
        );

        Assert.Equal(CorrectionMeans.SaltMix, plan.Means);
        Assert.Equal(3, plan.Steps.Count);
        var before = Bucket.From(Water(10, 28, 25));
        var after = Bucket.From(plan.Steps[^1].After);
        Assert.Equal(plan.Mix.Grams, after.Grams - before.Grams, 1e-6);
        Assert.Equal(plan.Mix.Grams, (after.Salt - before.Salt) * 1.0047154 / 1000, 1e-4);
    }

    [Fact]
    public void Lowering_a_vessel_takes_the_fresh_water_of_the_balance()
    {
        // m (S0 / S1 - 1), the balance of salt.
        var plan = Corrected(new() { Vessel = Water(10, 36, 25), Target = ScaledSalinity.Practical(32) });

        var grams = Bucket.From(Water(10, 36, 25)).Grams * ((36.0 / 32) - 1);
        Assert.Equal(grams / 997.047, plan.Water.Litres, 1e-5);
        Assert.Equal(4, plan.Steps.Count);
        Assert.Equal(default, plan.DrawnOff);
    }

    [Fact]
    public void A_full_vessel_is_drawn_off_before_fresh_water_goes_in()
    {
        var plan = Corrected(
            new()
            {
                Vessel = Water(10, 36, 25),
                Target = ScaledSalinity.Practical(32),
                KeepVolume = true,
            }
        );

        Assert.True(plan.DrawnOff.Litres > 1.1);
        Assert.All(plan.Steps, s => Assert.InRange(s.After.Volume.Litres, 9.98, 10));
        Assert.Equal(32, plan.Steps[^1].After.Salinity.Practical, 1e-6);
    }

    [Fact]
    public void What_the_water_at_hand_cannot_do_is_refused_with_what_it_can()
    {
        var tooSalt = Refused(
            CorrectingWater.Plan(
                new()
                {
                    Vessel = Water(10, 36, 25),
                    Target = ScaledSalinity.Practical(20),
                    Fresh = Water(50, 25, 25),
                }
            )
        );
        Assert.Equal((MixingRefusalCode.NotBetweenTheWaters, 25.1), (tooSalt.Code, tooSalt.Nearest!.Value));

        var tooLittle = Refused(
            CorrectingWater.Plan(
                new()
                {
                    Vessel = Water(10, 36, 25),
                    Target = ScaledSalinity.Practical(30),
                    Fresh = Water(1, 0, 25),
                }
            )
        );
        Assert.Equal(MixingRefusalCode.NotEnoughWater, tooLittle.Code);
        Corrected(
            new()
            {
                Vessel = Water(10, 36, 25),
                Target = ScaledSalinity.Practical(30),
                Fresh = Water(tooLittle.Nearest!.Value * 1.0001, 0, 25),
            }
        );
    }

    [Fact]
    public void No_correction_changes_a_vessel_by_more_than_one_ppt_or_degree_at_once() =>
        (
            from litres in Gen.Double[1, 60]
            from start in Gen.Double[5, 41]
            from to in Gen.Double[5, 41]
            from vessel in Gen.Double[15, 30]
            from water in Gen.Double[15, 30]
            from brine in Gen.Bool
            select new CorrectOrder
            {
                Vessel = Water(litres, start, vessel),
                Target = ScaledSalinity.Practical(to),
                Capacity = Litres(litres * 1.05),
                Brine = brine ? Water(1000, 42, water) : null,
                Fresh = Water(1000, 0.2, water),
            }
        ).Sample(
            order =>
            {
                if (
                    CorrectingWater.Plan(order) is not MixingAnswer<WaterCorrection>.Found { Value: var plan }
                )
                {
                    return;
                }

                var before = order.Vessel;
                foreach (var step in plan.Steps)
                {
                    Assert.True(
                        Math.Abs(step.After.Salinity.Practical - before.Salinity.Practical) <= 1 + 1e-6
                    );
                    Assert.True(
                        Math.Abs(step.After.Temperature.Celsius - before.Temperature.Celsius) <= 1 + 1e-6
                    );
                    Assert.True(step.After.Volume <= order.Capacity!.Value);
                    before = step.After;
                }

                Assert.Equal(order.Target.Value, before.Salinity.Practical, 1e-6);
            },
            iter: 500
        );

    [Fact]
    public void A_blend_gives_volume_and_salinity_and_uses_no_more_than_is_there() =>
        (
            from salinities in Gen.Double[0, 42].Array[2, 4]
            from litres in Gen.Double[0.1, 20].Array[4]
            from degrees in Gen.Double[10, 30].Array[4]
            from wanted in Gen.Double[0.1, 15]
            from target in Gen.Double[0, 42]
            select new BlendOrder
            {
                Waters = [.. salinities.Select((s, i) => Water(litres[i], s, degrees[i]))],
                Wanted = Litres(wanted),
                Target = ScaledSalinity.Practical(target),
            }
        ).Sample(
            order =>
            {
                switch (BlendingWater.Plan(order))
                {
                    case MixingAnswer<WaterBlend>.Found { Value: var blend }:
                        var poured = order
                            .Waters.Zip(blend.Amounts, (w, a) => Bucket.From(w with { Volume = a }))
                            .Aggregate((left, right) => left.Plus(right));
                        Assert.Equal(order.Target.Value, poured.Salinity, 1e-4);
                        Assert.Equal(order.Wanted.Litres, poured.Litres, 1e-5);
                        Assert.All(
                            order.Waters.Zip(blend.Amounts),
                            p => Assert.True(p.Second.Litres <= p.First.Volume.Litres * (1 + 1e-9))
                        );
                        break;
                    case MixingAnswer<WaterBlend>.Refused
                    {
                        Refusal: { Code: MixingRefusalCode.NotEnoughWater, Nearest: > 0.01 } refusal
                    }:
                        var less = order with { Wanted = Litres(refusal.Nearest.Value * 0.9999) };
                        Assert.IsType<MixingAnswer<WaterBlend>.Found>(BlendingWater.Plan(less));
                        break;
                    case MixingAnswer<WaterBlend>.Refused
                    {
                        Refusal: { Code: MixingRefusalCode.NotBetweenTheWaters } refusal
                    }:
                        Assert.Contains(
                            order.Waters,
                            w => Math.Abs(w.Salinity.Practical - refusal.Nearest!.Value) < 1e-9
                        );
                        break;
                }
            },
            iter: 400
        );

    [Fact]
    public void The_first_water_is_used_as_far_as_it_goes()
    {
        var blend = Assert
            .IsType<MixingAnswer<WaterBlend>.Found>(
                BlendingWater.Plan(
                    new()
                    {
                        Waters = [Water(3, 35, 25), Water(10, 40, 25), Water(10, 0, 25)],
                        Wanted = Litres(6),
                        Target = ScaledSalinity.Practical(30),
                    }
                )
            )
            .Value;

        Assert.Equal(3, blend.Amounts[0].Litres, 1e-6);
        Assert.InRange(blend.Amounts[1].Litres, 1.8, 2);
    }

    [Fact]
    public void Thiosulfate_follows_a_measured_residual_only_and_never_with_animals_inside()
    {
        // 7 g of pentahydrate for a gram of chlorine (rule of a test-kit maker): 2 mg/L in 10 L take 140 mg.
        var residual = Concentration.FromMilligramsPerLitre(2);
        var found = Assert.IsType<MixingAnswer<Mass>.Found>(
            Sterilising.Thiosulfate(Litres(10), residual, animalsInside: false)
        );
        Assert.Equal(140, found.Value.Milligrams, 1e-9);

        Assert.Equal(
            MixingRefusalCode.ResidualNotMeasured,
            Refused(Sterilising.Thiosulfate(Litres(10), null, animalsInside: false)).Code
        );
        Assert.Equal(
            MixingRefusalCode.AnimalsInside,
            Refused(Sterilising.Thiosulfate(Litres(10), residual, animalsInside: true)).Code
        );
        Assert.Equal(
            MixingRefusalCode.AnimalsInside,
            Refused(
                Sterilising.Bleach(
                    Litres(10),
                    residual,
                    Concentration.FromGramsPerLitre(40),
                    animalsInside: true
                )
            ).Code
        );
    }

    [Fact]
    public void A_test_that_shows_zero_is_the_gate_to_animals()
    {
        Assert.Equal(MixingRefusalCode.ResidualNotMeasured, Sterilising.GateToAnimals(null)!.Code);
        Assert.Equal(
            MixingRefusalCode.ChlorineLeft,
            Sterilising.GateToAnimals(Concentration.FromMilligramsPerLitre(0.1))!.Code
        );
        Assert.Null(Sterilising.GateToAnimals(default(Concentration)));
    }

    [Fact]
    public void Bleach_follows_its_strength()
    {
        // Dose times volume over strength: 5 mg/L in 20 L from 40 g/L are 2.5 mL.
        var bleach = Assert.IsType<MixingAnswer<Volume>.Found>(
            Sterilising.Bleach(
                Litres(20),
                Sterilising.UsualDose,
                Concentration.FromGramsPerLitre(40),
                animalsInside: false
            )
        );
        Assert.Equal(2.5, bleach.Value.Millilitres, 1e-9);
    }

    [Fact]
    public void The_35_ppt_standard_is_36_5_grams_of_salt_in_963_5_of_water()
    {
        // R. Holmes-Farley from the CRC Handbook, 57th edition: 3.65 % by mass.
        var standard = RefractometerStandard.Of35(Mass.FromGrams(1000));

        Assert.Equal(36.5, standard.DrySodiumChloride.Grams, 0.1);
        Assert.Equal(963.5, standard.Water.Grams, 0.1);
    }

    [Theory]
    [InlineData(false, 275.862)]
    [InlineData(true, 268.456)]
    public void A_dose_follows_the_balance_of_cells(bool replaces, double millilitres)
    {
        // 10 L from 1e4 to 5e4 cells/mL with a culture of 1.5e6: exact balance.
        var dose = Dosed(Dose(1e4, 5e4, 1.5e6) with { Replaces = replaces });

        Assert.Equal(millilitres, dose.Dose.Millilitres, 1e-3);
        Assert.Equal(replaces ? 10 : 10.275862, dose.After.Volume.Litres, 1e-3);
        Assert.Equal(replaces ? dose.Dose : default, dose.DrawOff);
        Assert.Equal(DoseWarning.None, dose.Warning);
        Assert.InRange(dose.SalinityChange!.Value, 0.05, 0.2);
    }

    [Fact]
    public void A_dose_is_never_negative_and_a_thin_culture_is_refused()
    {
        Assert.Equal(default, Dosed(Dose(6e4, 5e4, 1.5e6)).Dose);
        var refusal = Refused(CultureDose.Plan(Dose(1e4, 5e4, 4e4)));
        Assert.Equal(MixingRefusalCode.CultureTooThin, refusal.Code);
        Dosed(Dose(1e4, refusal.Nearest!.Value, 4e4));
    }

    [Fact]
    public void Cells_said_a_litre_are_asked_back_with_what_they_would_be_a_millilitre()
    {
        var refusal = Refused(CultureDose.Plan(Dose(0, 5e7, 1.5e9)));
        Assert.Equal(MixingRefusalCode.CellsPerLitreLikely, refusal.Code);
        Assert.Equal(5e4, refusal.Nearest!.Value, 1e-6);
    }

    [Fact]
    public void Much_culture_at_once_is_warned_of()
    {
        Assert.Equal(DoseWarning.Large, Dosed(Dose(0, 5e4, 7e5)).Warning);
        Assert.Equal(DoseWarning.VeryLarge, Dosed(Dose(0, 5e4, 4e5)).Warning);
    }

    private static DoseOrder Dose(double present, double target, double culture) =>
        new()
        {
            Vessel = Water(10, 30, 25),
            Present = CellDensity.FromPerMillilitre(present),
            Target = CellDensity.FromPerMillilitre(target),
            Culture = CellDensity.FromPerMillilitre(culture),
            CultureSalinity = Salinity.FromPractical(35),
        };

    private static FoodDose Dosed(DoseOrder order) =>
        Assert.IsType<MixingAnswer<FoodDose>.Found>(CultureDose.Plan(order)).Value;

    private static SeaWaterRecipe Made(MakeOrder order) =>
        Assert.IsType<MixingAnswer<SeaWaterRecipe>.Found>(MakingWater.Plan(order)).Value;

    private static WaterCorrection Corrected(CorrectOrder order) =>
        Assert.IsType<MixingAnswer<WaterCorrection>.Found>(CorrectingWater.Plan(order)).Value;

    private static MixingRefusal Refused<T>(MixingAnswer<T> answer) =>
        Assert.IsType<MixingAnswer<T>.Refused>(answer).Refusal;

    private static Volume Litres(double litres) => Volume.FromLitres(litres);

    private static Temperature Celsius(double celsius) => Temperature.FromCelsius(celsius);

    private static double Normal(Random chance) =>
        Math.Sqrt(-2 * Math.Log(1 - chance.NextDouble())) * Math.Cos(2 * Math.PI * chance.NextDouble());
}
