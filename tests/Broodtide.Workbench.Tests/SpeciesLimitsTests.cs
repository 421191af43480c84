using System.Globalization;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Tests;

public sealed class SpeciesLimitsTests
{
    private static SpeciesProfile Profile => SpeciesProfiles.Reference;

    private static double Limit(LimitedQuantity quantity, LifeStage stage, bool danger = false) =>
        Profile
            .LimitsFor(stage)
            .Single(limit =>
                limit.Quantity == quantity
                && limit.IsDanger == danger
                && limit.IsUpper == (quantity is not LimitedQuantity.Oxygen)
            )
            .Value;

    // The authors take a tenth of the LC50 of the youngest as safe; the same share of the others is taken here.
    [Theory]
    [InlineData("Z2 20 ppt", LifeStage.EarlyZoea)]
    [InlineData("Z5 20 ppt", LifeStage.MiddleZoea)]
    [InlineData("Z8 20 ppt", LifeStage.LateZoea)]
    public void Limits_of_larvae_are_a_tenth_of_what_killed_half(string condition, LifeStage stage)
    {
        double Killed(string parameter) =>
            double.Parse(
                SpeciesFiles
                    .Rows("species.csv")
                    .Single(row =>
                        row["species"] == "Macrobrachium carcinus"
                        && row["parameter"] == parameter
                        && row["condition"] == condition
                    )["value"],
                CultureInfo.InvariantCulture
            );

        Assert.Equal(Killed("NH3N_LC50_96h") / 10, Limit(LimitedQuantity.UnionisedAmmonia, stage), 1e-9);
        Assert.Equal(Killed("NO2N_LC50_96h") / 10, Limit(LimitedQuantity.Nitrite, stage), 1e-9);
    }

    // 72 h LC50 of post-larvae at pH 9.0 in the reference: a tenth of it.
    [Fact]
    public void The_limit_of_the_settled_is_a_tenth_of_what_killed_half_of_post_larvae() =>
        Assert.Equal(
            double.Parse(
                SpeciesFiles
                    .Rows("species.csv")
                    .Single(row =>
                        row["parameter"] == "NH3N_LC50_72h" && row["condition"] == "PL pH 9.0 29 C"
                    )["value"],
                CultureInfo.InvariantCulture
            ) / 10,
            Limit(LimitedQuantity.UnionisedAmmonia, LifeStage.Settled),
            1e-9
        );

    [Fact]
    public void The_settled_stand_more_ammonia_than_the_last_zoeae() =>
        Assert.True(
            Limit(LimitedQuantity.UnionisedAmmonia, LifeStage.Settled)
                > Limit(LimitedQuantity.UnionisedAmmonia, LifeStage.LateZoea)
        );

    [Fact]
    public void Where_harm_is_near_lies_beyond_what_is_advised()
    {
        Assert.Equal(5, Limit(LimitedQuantity.Oxygen, LifeStage.EarlyZoea));
        Assert.Equal(4, Limit(LimitedQuantity.Oxygen, LifeStage.EarlyZoea, danger: true));
        Assert.Equal(8.5, Limit(LimitedQuantity.Acidity, LifeStage.EarlyZoea));
        Assert.Equal(9, Limit(LimitedQuantity.Acidity, LifeStage.EarlyZoea, danger: true));
    }

    [Fact]
    public void Every_limit_names_a_number_of_the_profile_with_its_source() =>
        Assert.All(
            Enum.GetValues<LifeStage>().SelectMany(stage => Profile.LimitsFor(stage)),
            limit =>
            {
                Assert.NotEmpty(limit.From.Source);
                Assert.Same(Profile.Quantity(limit.From.Code), limit.From);
            }
        );

    [Fact]
    public void The_keepers_own_limit_stands_in_for_the_profiles()
    {
        var chosen = Profile.With([
            new ProfileChoice(
                "ammonia-nitrogen-limit",
                null,
                null,
                0.02,
                "mg/L",
                "mine are tender",
                "Ada",
                Instant.FromUtc(2026, 3, 1, 8, 0)
            ),
        ]);
        var limit = chosen
            .LimitsFor(LifeStage.EarlyZoea)
            .Single(it => it.Quantity is LimitedQuantity.UnionisedAmmonia);
        Assert.Equal(0.02, limit.Value);
        Assert.NotNull(limit.From.Chosen);
        Assert.Equal(0.05, limit.From.Original.High);
    }

    [Fact]
    public void Stages_are_parted_into_thirds_and_the_settled() =>
        Assert.Equal(
            [0, 0, 0, 1, 1, 1, 2, 2, 2, 3],
            Profile.Stages.Select(stage => (int)Profile.LifeStageOf(stage.Order))
        );
}
