using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Food;
using Broodtide.Units;
using Broodtide.Workbench.Feeding;
using Broodtide.Workbench.Mixing;
using NodaTime;

namespace Broodtide.Workbench.Tests.Feeding;

public sealed class RationAndScaleUpTests
{
    private static readonly WaterBody Vessel = new(
        Volume.FromLitres(6),
        Salinity.FromPractical(30),
        Temperature.FromCelsius(25)
    );

    private static FeedingAnswer<Ration> Plan(double dryMilligramsPerLitre, bool aerated) =>
        Ration.Plan(
            new()
            {
                Vessel = Vessel,
                Kind = DryFoodKind.DryYeast,
                Food = DryFood.FromPack(Probability.FromFraction(0.5), default),
                Given = Mass.FromMilligrams(dryMilligramsPerLitre * 6),
                Aerated = aerated,
            }
        );

    [Theory]
    [InlineData(1, false, null)]
    [InlineData(4, false, "ration-much-without-air")]
    [InlineData(4, true, null)]
    [InlineData(12, true, "ration-much-with-air")]
    public void Much_food_is_warned_of(double dry, bool aerated, string? warning)
    {
        var found = Assert.IsType<FeedingAnswer<Ration>.Found>(Plan(dry, aerated)).Value;
        Assert.Equal(
            warning,
            found
                .Remarks.Select(remark => remark.Code)
                .FirstOrDefault(code => code.StartsWith("ration-much", StringComparison.Ordinal))
        );
    }

    // A yeast of which 30 % is no water holds 0.3 mg of dry mass a milligram: 2 mg/L in 6 L are 40 mg of it.
    [Fact]
    public void A_feed_that_was_described_goes_by_what_its_pack_says()
    {
        var feed = new FeedDescribed(
            "cube",
            FoodKind.Yeast,
            Protein: TypedNumber.Of(14, "%"),
            Moisture: TypedNumber.Of(70, "%")
        );
        Assert.Equal(DryFoodKind.FreshYeast, DryFood.KindOf(feed));
        Assert.Null(DryFood.KindOf(feed with { Food = FoodKind.Rotifers }));
        var ration = Assert
            .IsType<FeedingAnswer<Ration>.Found>(
                Ration.Plan(
                    new()
                    {
                        Vessel = Vessel,
                        Kind = DryFoodKind.FreshYeast,
                        Food = DryFood.Described(feed, DryFoodKind.FreshYeast),
                    }
                )
            )
            .Value;
        Assert.Equal(40, ration.Given.Milligrams, 1e-9);
        // 14 % protein, a sixteenth of a hundred of it nitrogen (6.25): 40 mg bring 0.896 mg, 0.149 mg/L.
        Assert.Equal(0.1493, ration.NitrogenMilligramsPerLitre.Middle, 1e-3);
        Assert.DoesNotContain(ration.Remarks, remark => remark.Code == "ration-composition-assumed");
    }

    [Theory]
    [InlineData(5.1, false, "ration-uses-the-oxygen")]
    [InlineData(20.5, true, "ration-fouls-with-air")]
    public void Too_much_food_is_refused_with_the_most_that_can_be(double dry, bool aerated, string code)
    {
        var why = Assert.IsType<FeedingAnswer<Ration>.Refused>(Plan(dry, aerated)).Why;
        Assert.Equal(code, why.Code);
        Assert.Equal((aerated ? 20 : 5) * 6e-3, (double)why["mostGrams"]!, 1e-9);
    }

    [Fact]
    public void Five_milligrams_of_dry_yeast_use_about_all_oxygen_of_warm_sea_water()
    {
        // food-and-growth.md 3.4: 1.36 g of oxygen a g ash-free; about 5 mg/L can use all that is dissolved.
        var found = Assert.IsType<FeedingAnswer<Ration>.Found>(Plan(5, false)).Value;
        Assert.Equal(5 * 0.92 * 1.36, found.OxygenDemand.MilligramsPerLitre, 0.03);
        Assert.InRange(found.OxygenShare!.Value, 0.8, 1.1);
    }

    [Fact]
    public void Ten_milligrams_give_up_to_eight_tenths_of_nitrogen()
    {
        // food-and-growth.md 3.4: 10 mg/L gives up to 0.8 mg N/L: 50 % protein, 16 % of it nitrogen.
        var found = Assert.IsType<FeedingAnswer<Ration>.Found>(Plan(10, true)).Value;
        Assert.Equal(0.8, found.NitrogenMilligramsPerLitre.Middle, 1e-9);
    }

    [Fact]
    public void Twenty_milligrams_for_ten_days_give_the_ammonia_of_the_reference_container()
    {
        // food-and-growth.md 4.6: 20 mg/L a day at 8 % N, no algae: TAN 6.2 on day ten, 0.33 of it from larvae and the
        // 0.05 it began with.
        var found = Assert.IsType<FeedingAnswer<Ration>.Found>(Plan(20, true)).Value;
        Assert.Equal(6.2 - 0.33, found.TanAfterTenDays.Middle, 0.1);
    }

    private static ScaleUpOrder Order(double starterLitres) =>
        new()
        {
            Alga = AlgaKind.Find("tetraselmis")!,
            LarvalWater = Volume.FromLitres(7),
            Target = CellDensity.FromPerMillilitre(5e4),
            Starter = Volume.FromLitres(starterLitres),
        };

    [Fact]
    public void A_smaller_starter_takes_longer_and_steps_reach_the_standing_culture()
    {
        var small = Assert.IsType<FeedingAnswer<ScaleUp>.Found>(ScaleUp.Plan(Order(0.02))).Value;
        var large = Assert.IsType<FeedingAnswer<ScaleUp>.Found>(ScaleUp.Plan(Order(0.3))).Value;
        Assert.True(small.Days.Middle > large.Days.Middle);
        Assert.True(small.Steps[^1].To >= small.Standing);
        Assert.All(small.Steps, step => Assert.InRange(step.To / step.From, 1, 5.001));
        Assert.Equal(small.Steps.Sum(step => step.Days.High), small.Days.High, 1e-9);
        Assert.Equal(
            new LocalDate(2026, 4, 20).PlusDays(-(int)Math.Ceiling(small.Days.High)),
            small.StartBy(new LocalDate(2026, 4, 20))
        );
    }

    [Fact]
    public void Standing_culture_is_need_over_density_and_share()
    {
        // food-and-growth.md 2.1: V = demand / (C f), and 3.1: demand Vt Ct (1 - e^-(g+s)).
        var order = Order(0.1) with
        {
            Harvest = CellDensity.FromPerMillilitre(1e6),
            SharePerDay = Probability.FromFraction(0.2),
            LarvaePerLitre = 30,
        };
        var plan = Assert.IsType<FeedingAnswer<ScaleUp>.Found>(ScaleUp.Plan(order)).Value;
        var need = 7000 * 5e4 * (1 - Math.Exp(-((30 * 10 / 1000.0) + 0.3)));
        Assert.Equal(need, plan.CellsPerDay.High, 1);
        Assert.Equal(need / (1e6 * 0.2) / 1000, plan.Standing.Litres, 1e-6);
    }

    [Fact]
    public void Cells_said_a_litre_are_asked_back()
    {
        var refused = Assert.IsType<FeedingAnswer<ScaleUp>.Refused>(
            ScaleUp.Plan(Order(0.1) with { StarterDensity = CellDensity.FromPerMillilitre(1e9) })
        );
        Assert.Equal("cells-per-litre-likely", refused.Why.Code);
        Assert.Equal(1e6, refused.Why["likelierPerMillilitre"]);
    }
}
