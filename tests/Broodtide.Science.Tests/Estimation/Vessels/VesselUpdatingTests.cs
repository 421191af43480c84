using Broodtide.Science.Estimation.Vessels;
using Broodtide.Scoring;
using Broodtide.Units;

namespace Broodtide.Science.Tests.Estimation.Vessels;

public sealed class VesselUpdatingTests
{
    private static (VesselEnsemble Members, VesselScene Scene) Green(int days = 3)
    {
        var scene = Scenes.Days(days + 2, events: new VesselEvent.AlgaeGiven(0, 6000 * 5e4));
        var start = VesselEnsemble.Draw(scene, new(), VesselPriors.Usual, 200);
        return (VesselTwin.Forward(start, scene, 24 * days).End, scene);
    }

    private static Interval Now(VesselEnsemble members, VesselScene scene, VesselQuantity quantity) =>
        VesselTwin.Forward(members, scene, 1).Traces.Quantiles(quantity, 0);

    [Theory]
    [InlineData(VesselQuantity.Tan, 0.1, 0.02)]
    [InlineData(VesselQuantity.CellsPerMillilitre, 9e4, 2e4)]
    [InlineData(VesselQuantity.Oxygen, 6.2, 0.2)]
    [InlineData(VesselQuantity.PHNbs, 8.3, 0.05)]
    [InlineData(VesselQuantity.Nitrate, 0.8, 0.3)]
    [InlineData(VesselQuantity.Nitrite, 0.01, 0.003)]
    public void A_reading_draws_the_members_towards_it_and_narrows_them(
        VesselQuantity quantity,
        double value,
        double sd
    )
    {
        var (members, scene) = Green();
        var before = Now(members, scene, quantity);
        var update = VesselUpdating.With(
            members,
            new VesselReading.Measured(members.Hour, quantity, value, sd),
            scene
        );
        var after = Now(update.Members, scene, quantity);
        Assert.True(Math.Abs(after.Middle - value) < Math.Abs(before.Middle - value));
        Assert.True(after.Width < before.Width, $"{before} {after}");
    }

    [Theory]
    [InlineData(VesselQuantity.Tan, 80)]
    [InlineData(VesselQuantity.CellsPerMillilitre, 1e10)]
    [InlineData(VesselQuantity.Oxygen, 60)]
    [InlineData(VesselQuantity.PHNbs, 2)]
    public void A_reading_that_no_member_explains_is_told_and_hardly_moves_them(
        VesselQuantity quantity,
        double value
    )
    {
        var (members, scene) = Green();
        var before = Now(members, scene, quantity);
        var update = VesselUpdating.With(
            members,
            VesselReading.Measured.AtHome(members.Hour, quantity, value),
            scene
        );
        var after = Now(update.Members, scene, quantity);
        Assert.False(update.IsExplained);
        Assert.True(update.Weight.Value < 0.3);
        Assert.True(after.Width > 0.5 * before.Width, $"{before} {after}");
        Assert.InRange(after.Middle, before.Middle - (2 * before.Width), before.Middle + (2 * before.Width));
    }

    [Fact]
    public void A_reading_as_it_was_expected_is_explained_and_fully_believed()
    {
        var (members, scene) = Green();
        var expected = Now(members, scene, VesselQuantity.Oxygen).Middle;
        var update = VesselUpdating.With(
            members,
            VesselReading.Measured.AtHome(members.Hour, VesselQuantity.Oxygen, expected),
            scene
        );
        Assert.True(update.IsExplained);
        Assert.Equal(1, update.Weight.Value, 1e-12);
        Assert.True(update.Tail.Value > 0.5);
    }

    [Fact]
    public void Deep_green_water_means_more_algae_than_clear_water()
    {
        var (members, scene) = Green();
        var cells = Enum.GetValues<WaterColour>()
            .Select(colour =>
                Now(
                    VesselUpdating
                        .With(members, new VesselReading.ColourSeen(members.Hour, colour), scene)
                        .Members,
                    scene,
                    VesselQuantity.CellsPerMillilitre
                ).Middle
            )
            .ToList();
        Assert.Equal(cells.Order(), cells);
        Assert.True(cells[^1] > 1.2 * cells[0]);
    }

    [Fact]
    public void Thick_film_means_more_film_than_none()
    {
        var (members, scene) = Green();
        var film = Enum.GetValues<FilmCover>()
            .Select(cover =>
                Now(
                    VesselUpdating
                        .With(members, new VesselReading.FilmSeen(members.Hour, cover), scene)
                        .Members,
                    scene,
                    VesselQuantity.FilmShare
                ).Middle
            )
            .ToList();
        Assert.Equal(film.Order(), film);
        Assert.True(film[^1] > 1.5 * film[0]);
    }

    [Fact]
    public void Counts_that_rise_fast_teach_that_the_algae_grow_fast()
    {
        var (members, scene) = Green(1);
        var growth = new double[200];
        members.Read(VesselParameter.AlgalGrowthPerDay, growth);
        var before = MemberQuantiles.Of(growth).Middle;
        foreach (var (hour, cells) in new[] { (24, 6e4), (48, 1e5), (72, 1.7e5) })
        {
            if (members.Hour < hour)
            {
                members = VesselTwin.Forward(members, scene, hour - members.Hour).End;
            }

            members = VesselUpdating
                .With(
                    members,
                    new VesselReading.Measured(hour, VesselQuantity.CellsPerMillilitre, cells, 300, 0.1),
                    scene
                )
                .Members;
        }

        members.Read(VesselParameter.AlgalGrowthPerDay, growth);
        Assert.True(MemberQuantiles.Of(growth).Middle > 1.15 * before);
    }

    [Fact]
    public void The_nitrogen_that_a_reading_put_in_is_told()
    {
        var (members, scene) = Green();
        var update = VesselUpdating.With(
            members,
            VesselReading.Measured.AtHome(members.Hour, VesselQuantity.Tan, 1),
            scene
        );
        for (var member = 0; member < 200; member += 17)
        {
            Assert.Equal(
                members.NitrogenMilligrams(member) + update.Members.CorrectedMilligrams(member),
                update.Members.NitrogenMilligrams(member),
                1e-9
            );
        }
    }

    [Fact]
    public void Members_at_another_hour_are_refused()
    {
        var (members, scene) = Green();
        Assert.Throws<ArgumentException>(() =>
            VesselUpdating.With(members, new VesselReading.FilmSeen(5, FilmCover.Thin), scene)
        );
    }

    [Theory]
    [InlineData(VesselQuantity.UnionisedAmmonia, 1)]
    [InlineData(VesselQuantity.Tan, -0.1)]
    [InlineData(VesselQuantity.PHNbs, 15)]
    [InlineData(VesselQuantity.Oxygen, double.NaN)]
    public void What_nobody_can_read_is_refused(VesselQuantity quantity, double value) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => VesselReading.Measured.AtHome(0, quantity, value));

    // The same is measured over 100 vessels of 30 days by eng/vessel-coverage.
    [Fact]
    public void Intervals_of_invented_vessels_hold_the_truth_and_a_planted_belief_turns_that_red()
    {
        var right = new VesselBoard();
        var wrong = new VesselBoard { Believed = PlantedVessels.Find("growth")! };
        for (var vessel = 0; vessel < 12; vessel++)
        {
            right.Take(vessel, 14);
            wrong.Take(vessel, 14);
        }

        Assert.InRange(right.Covered, 0.82, 0.97);
        Assert.True(wrong.Covered < 0.8, $"{wrong.Covered}");
    }
}
