using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Recording;
using NodaTime;
using NodaTime.Testing;

namespace Broodtide.Workbench.Tests;

public sealed class FoodAskBackTests
{
    private static readonly Instant Now = Instant.FromUtc(2026, 3, 10, 20, 0);
    private static readonly VesselId Jar = new(new Guid("0195557c-0000-7000-8000-000000000001"));
    private static readonly VesselId Green = new(new Guid("0195557c-0000-7000-8000-000000000002"));
    private int _ids = 100;

    private Guid NewId() => new($"0195557c-0000-7000-8000-{++_ids:x12}");

    private House HouseOf(params Fact[] facts)
    {
        var clock = new FakeClock(Now - Duration.FromDays(2), Duration.FromHours(1));
        var keeper = new Keeper(new Author("Ada"), clock, DateTimeZone.Utc, NewId);
        var replica = new ReplicaId(NewId());
        var entries = new List<Entry>();
        foreach (var fact in facts)
        {
            var salt = Digest.Of(BitConverter.GetBytes(entries.Count)).ToBytes()[..16];
            entries.Add(
                keeper
                    .Write(fact)
                    .Seal(replica, entries.Count + 1, entries.Count > 0 ? entries[^1].Digest : null, salt)
            );
        }

        return new House(Account.Of(entries));
    }

    private House Kitchen() =>
        HouseOf(
            new VesselSetUp(Jar, "Jar A", VesselRole.LarvalVessel, TypedNumber.Of(6, "L")),
            new VesselSetUp(Green, "Green jar", VesselRole.AlgaeCulture, TypedNumber.Of(2, "L")),
            new CellsCounted(Green, ChamberKind.Neubauer, [new(121), new(118), new(130), new(109)])
        );

    private static TypedNumber Typed(double value, string unit) => TypedNumber.Of(value, unit);

    private static IReadOnlyList<Question> Ask(Fact fact, House house) =>
        AskBack.For(fact, Happened.At(Now), house, Now);

    [Fact]
    public void What_is_usual_is_not_asked_back()
    {
        var house = Kitchen();
        Assert.Empty(Ask(new ReadingTaken(Typed(1.5e6, "{cells}/mL"), Green), house));
        Assert.Empty(Ask(new VesselFed(Jar, FoodKind.Yeast, Mass: Typed(9, "mg")), house));
        Assert.Empty(Ask(new VesselFed(Jar, FoodKind.Yeast, Mass: Typed(0.3, "g")), house));
        Assert.Empty(Ask(new LightChanged(Green, true, 16, Typed(120, "umol/m2/s")), house));
        Assert.Empty(Ask(new LightChanged(Green, true, 16, Typed(9000, "lx")), house));
        Assert.Empty(
            Ask(
                new VesselFed(
                    Jar,
                    FoodKind.GreenWater,
                    Typed(80, "mL"),
                    Density: Typed(8e5, "{cells}/mL"),
                    From: Green
                ),
                house
            )
        );
    }

    // 1.2e6 cells in a millilitre are 1.2e9 in a litre.
    [Theory]
    [InlineData(1.2e9, 1.2e6)]
    [InlineData(1.2e3, 1.2e6)]
    public void Cells_a_thousand_times_off_are_asked_back_with_what_was_likelier_meant(
        double typed,
        double likelier
    )
    {
        Fact[] facts =
        [
            new ReadingTaken(Typed(typed, "{cells}/mL"), Green),
            new CultureHarvested(Green, Typed(100, "mL"), Typed(typed, "{cells}/mL")),
            new VesselFed(
                Jar,
                FoodKind.GreenWater,
                Typed(80, "mL"),
                Density: Typed(typed, "{cells}/mL"),
                From: Green
            ),
        ];
        Assert.All(
            facts,
            fact =>
            {
                var question = Assert.Single(Ask(fact, Kitchen()));
                Assert.Equal("cells-thousandfold", question.Remark.Code);
                Assert.Equal(
                    likelier,
                    question.Likelier!.Numbers().Single(n => n.Number?.Unit == "{cells}/mL").Number!.Value,
                    1e-6
                );
                Assert.Empty(Ask(question.Likelier!, Kitchen()));
            }
        );
    }

    [Fact]
    public void A_density_no_culture_holds_is_asked_back_also_where_nothing_was_counted_before() =>
        Assert.Equal(
            ("cells-thousandfold", 4e8 / 1000),
            Ask(new ReadingTaken(Typed(4e8, "{cells}/mL"), Jar), Kitchen())
                .Select(question => (question.Remark.Code, ((ReadingTaken)question.Likelier!).Value.Value))
                .Single()
        );

    [Theory]
    [InlineData(2500, "umol/m2/s", "lx")]
    [InlineData(150_000, "lx", null)]
    [InlineData(150_000, "umol/m2/s", null)]
    public void Light_above_the_sun_is_asked_back(double typed, string unit, string? likelier)
    {
        var question = Assert.Single(Ask(new LightChanged(Green, true, 16, Typed(typed, unit)), Kitchen()));
        Assert.Equal("light-above-the-sun", question.Remark.Code);
        Assert.Equal(likelier, ((LightChanged?)question.Likelier)?.Illuminance?.Unit);
        Assert.Single(Ask(new ReadingTaken(Typed(typed, unit), Green), Kitchen()));
    }

    [Fact]
    public void Grams_for_milligrams_of_food_are_asked_back()
    {
        var question = Assert.Single(Ask(new VesselFed(Jar, FoodKind.Yeast, Mass: Typed(9, "g")), Kitchen()));
        Assert.Equal("mass-improbable", question.Remark.Code);
        Assert.Equal("mg", ((VesselFed)question.Likelier!).Mass!.Unit);
    }

    [Fact]
    public void Salt_that_would_not_dissolve_is_asked_back() =>
        Assert.Equal(
            "mass-improbable",
            Assert.Single(Ask(new WaterMoved(To: Jar, Mix: Typed(3, "kg")), Kitchen())).Remark.Code
        );

    // Improved Neubauer: a large square is 1 mm2 under 0.1 mm, so one cell is 1e4 in a millilitre; 5 of the 25 middle
    // squares give 5e4; Fuchs-Rosenthal, 1 mm2 squares, 5000 (chamber geometry).
    [Theory]
    [InlineData(ChamberKind.Neubauer, 1, 1e4)]
    [InlineData(ChamberKind.NeubauerMiddle, 5, 5e4)]
    [InlineData(ChamberKind.FuchsRosenthal, 1, 5000)]
    [InlineData(ChamberKind.SedgewickRafter, 1000, 1)]
    public void One_cell_stands_for_the_density_that_the_chamber_gives(
        ChamberKind chamber,
        int squares,
        double perMillilitre
    )
    {
        var counted = new CellsCounted(Green, chamber, [new(1, squares)]);
        Assert.Equal(perMillilitre, CellsSeen.Density(counted)!.Value.PerMillilitre, 1e-9 * perMillilitre);
        Assert.Equal(
            2 * perMillilitre,
            CellsSeen.Density(counted with { Dilution = 2 })!.Value.PerMillilitre,
            1e-9 * perMillilitre
        );
    }

    [Fact]
    public void The_newest_density_of_a_culture_is_the_one_counted_last() =>
        Assert.Equal(1.195e6, CellsSeen.Last(Kitchen(), Green, Now)!.Value.PerMillilitre, 1e-3);
}
