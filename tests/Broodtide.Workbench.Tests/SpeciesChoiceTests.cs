using Broodtide.Workbench.Species;
using CsCheck;
using NodaTime;

namespace Broodtide.Workbench.Tests;

public sealed class SpeciesChoiceTests
{
    private static readonly Instant Monday = Instant.FromUtc(2026, 3, 2, 19, 0);

    private static SpeciesProfile Profile => SpeciesProfiles.Reference;

    [Fact]
    public void A_choice_stands_in_for_the_original_which_stays_beside_it()
    {
        var choice = Choose(QuantityCodes.LarvalSalinityTarget, value: 28);
        var chosen = Profile.With([choice]);

        Assert.Equal(28, chosen.LarvalSalinityTarget.Practical);
        var quantity = chosen.Quantity(QuantityCodes.LarvalSalinityTarget);
        Assert.Equal(30, quantity.Original.Value);
        Assert.Same(choice, quantity.Chosen?.Choice);
        Assert.False(quantity.Chosen!.OutsidePublished);
        Assert.Equal(30, Profile.LarvalSalinityTarget.Practical);
    }

    [Fact]
    public void A_choice_left_out_is_undone()
    {
        var chosen = Profile.With([Choose(QuantityCodes.LarvalSalinityTarget, value: 28)]);
        var undone = chosen.With([]);
        Assert.Equal(30, undone.LarvalSalinityTarget.Practical);
        Assert.Null(undone.Quantity(QuantityCodes.LarvalSalinityTarget).Chosen);
    }

    [Fact]
    public void A_choice_outside_the_published_range_is_kept_and_marked()
    {
        var chosen = Profile.With([Choose(QuantityCodes.LarvalSalinityTarget, value: 36)]);
        Assert.Equal(36, chosen.LarvalSalinityTarget.Practical);
        Assert.True(chosen.Quantity(QuantityCodes.LarvalSalinityTarget).Chosen!.OutsidePublished);
        Assert.Empty(chosen.Conflicts);
    }

    [Fact]
    public void A_band_inside_the_completing_range_is_not_marked_though_wider_than_the_default()
    {
        var chosen = Profile.With([Choose(QuantityCodes.LarvalSalinityBand, low: 20, high: 33)]);
        Assert.Equal(20, chosen.LarvalSalinityBand.Low.Practical);
        Assert.False(chosen.Quantity(QuantityCodes.LarvalSalinityBand).Chosen!.OutsidePublished);
    }

    [Fact]
    public void A_limit_raised_above_the_published_one_is_marked_and_one_lowered_is_not()
    {
        bool Marked(double high) =>
            Profile
                .With([Choose(QuantityCodes.AmmoniaNitrogenLimit, high: high, unit: "mg/L")])
                .Quantity(QuantityCodes.AmmoniaNitrogenLimit)
                .Chosen!.OutsidePublished;
        Assert.True(Marked(0.1));
        Assert.False(Marked(0.02));
    }

    [Fact]
    public void A_choice_in_another_unit_of_the_kind_is_converted()
    {
        var chosen = Profile.With([
            Choose(QuantityCodes.LarvalTemperatureLosses, value: 82.4, unit: "[degF]"),
            Choose(QuantityCodes.BrackishLimit, high: 0.1, unit: "h"),
        ]);
        Assert.Equal(28, chosen.Quantity(QuantityCodes.LarvalTemperatureLosses).Value!.Value, 9);
        Assert.Equal(6, chosen.Quantity(QuantityCodes.BrackishLimit).High!.Value, 9);
    }

    [Fact]
    public void Parts_not_chosen_stay_and_give_way_only_to_what_passes_them()
    {
        ProfileAmount After(double? value, double? low, double? high) =>
            Profile
                .With([Choose(QuantityCodes.EmbryoBaseTemperature, value, low, high, "Cel")])
                .Quantity(QuantityCodes.EmbryoBaseTemperature)
                .Current;
        Assert.Equal(ProfileAmount.FromParts(4, -0.76, 10.76), After(4, null, null));
        Assert.Equal(ProfileAmount.FromParts(12, -0.76, 12), After(12, null, null));
        Assert.Equal(ProfileAmount.FromParts(6, 6, 10.76), After(null, 6, null));
        Assert.Equal(ProfileAmount.FromParts(-5, -5, -5), After(null, null, -5));
    }

    [Fact]
    public void Of_two_choices_the_later_stands_in_whatever_order_they_come()
    {
        var first = Choose(QuantityCodes.LarvalSalinityTarget, value: 28);
        var second = first with { Value = 32, When = Monday + Duration.FromHours(1) };
        Assert.Equal(32, Profile.With([first, second]).LarvalSalinityTarget.Practical);
        Assert.Equal(32, Profile.With([second, first]).LarvalSalinityTarget.Practical);
        Assert.Equal(28, Profile.With([first]).LarvalSalinityTarget.Practical);
    }

    public static TheoryData<string, string, double?, double?, double?, string, string> Impossible =>
        new()
        {
            { ProfileConflictCodes.UnknownQuantity, "no-such-thing", 1, null, null, "d", "r" },
            { ProfileConflictCodes.UnknownUnit, "larval-salinity-target", 30, null, null, "psu", "r" },
            { ProfileConflictCodes.UnitOfAnotherKind, "larval-salinity-target", 30, null, null, "Cel", "r" },
            {
                ProfileConflictCodes.UnitOfAnotherKind,
                "larval-salinity-target",
                30,
                null,
                null,
                "g{mix}/L",
                "r"
            },
            { ProfileConflictCodes.Empty, "larval-salinity-target", null, null, null, "{practical}", "r" },
            {
                ProfileConflictCodes.PartNotUsed,
                "larval-salinity-target",
                null,
                20,
                null,
                "{practical}",
                "r"
            },
            { ProfileConflictCodes.Impossible, "larval-salinity-target", -1, null, null, "{practical}", "r" },
            {
                ProfileConflictCodes.Impossible,
                "larval-salinity-target",
                double.NaN,
                null,
                null,
                "{practical}",
                "r"
            },
            {
                ProfileConflictCodes.Impossible,
                "larval-temperature-losses",
                double.PositiveInfinity,
                null,
                null,
                "Cel",
                "r"
            },
            { ProfileConflictCodes.Impossible, "eyed-share-of-hatch-day", null, null, 1.5, "1", "r" },
            { ProfileConflictCodes.NotAscending, "larval-salinity-band", null, 33, 20, "{practical}", "r" },
            { ProfileConflictCodes.NoReason, "larval-salinity-target", 28, null, null, "{practical}", " " },
        };

    [Theory]
    [MemberData(nameof(Impossible))]
    public void A_choice_that_cannot_stand_is_a_conflict_and_the_original_holds(
        string conflict,
        string code,
        double? value,
        double? low,
        double? high,
        string unit,
        string reason
    )
    {
        var choice = new ProfileChoice(code, value, low, high, unit, reason, "Mara", Monday);
        var chosen = Profile.With([choice]);
        var found = Assert.Single(chosen.Conflicts);
        Assert.Equal(conflict, found.Code);
        Assert.Same(choice, found.Choice);
        Assert.Equal(Profile.Quantities, chosen.Quantities);
    }

    [Fact]
    public void A_unit_of_another_kind_is_answered_with_the_units_that_would_do()
    {
        var chosen = Profile.With([Choose(QuantityCodes.BrackishLimit, high: 5, unit: "mm")]);
        Assert.Equal(["min", "h", "d", "wk", "mo", "a"], Assert.Single(chosen.Conflicts).Allowed);
    }

    [Fact]
    public void Whatever_is_chosen_every_typed_door_still_answers()
    {
        var number = Gen.OneOf(
            Gen.Double[-400, 400].Select(d => (double?)d),
            Gen.Double.Select(d => (double?)d),
            Gen.Const((double?)null)
        );
        var codes = Profile.Quantities.Select(quantity => quantity.Code).Append("unknown").ToArray();
        var units = ProfileUnit.All.Select(unit => unit.Code).Append("furlong").ToArray();
        var choice = Gen.Select(
            Gen.Int[0, codes.Length - 1].Select(i => codes[i]),
            number,
            number,
            number,
            Gen.Int[0, units.Length - 1].Select(i => units[i]),
            Gen.Bool,
            (code, value, low, high, unit, fits) =>
                new ProfileChoice(
                    code,
                    value,
                    low,
                    high,
                    fits ? Profile.Find(code)?.Unit.Code ?? unit : unit,
                    "tried",
                    "Mara",
                    Monday
                )
        );
        choice
            .Array[0, 40]
            .Sample(
                choices =>
                {
                    var chosen = Profile.With(choices);
                    AskEverything(chosen);
                    var kept = chosen.Quantities.Count(quantity => quantity.Chosen is not null);
                    Assert.True(kept + chosen.Conflicts.Length <= choices.Length);
                },
                iter: 300
            );
    }

    private static void AskEverything(SpeciesProfile profile)
    {
        foreach (var door in typeof(SpeciesProfile).GetProperties())
        {
            Assert.NotNull(door.GetValue(profile));
        }
    }

    private static ProfileChoice Choose(
        string code,
        double? value = null,
        double? low = null,
        double? high = null,
        string unit = "{practical}"
    ) => new(code, value, low, high, unit, "my water is harder", "Mara", Monday);
}
