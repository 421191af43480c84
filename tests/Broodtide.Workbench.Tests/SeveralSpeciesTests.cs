using System.Text.RegularExpressions;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Crossing;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Species;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests;

/// <summary>Every profile that ships, and every tool that goes by it.</summary>
public sealed class SeveralSpeciesTests
{
    public static TheoryData<string> Codes => [.. SpeciesProfiles.Known.Select(species => species.Code)];

    private static SpeciesProfile Of(string code) => SpeciesProfiles.Find(code)!;

    [Fact]
    public void The_index_names_each_file_as_it_names_itself()
    {
        Assert.Equal(23, SpeciesProfiles.Known.Length);
        foreach (var known in SpeciesProfiles.Known)
        {
            var profile = Of(known.Code);
            Assert.Equal(known.Code, profile.Code);
            Assert.Equal(known.ScientificName, profile.ScientificName);
            Assert.Equal(known.Zoeae, profile.Stages.Count(stage => stage.Code != "PL"));
            Assert.Same(profile, SpeciesProfiles.Find(known.ScientificName.ToUpperInvariant()));
        }

        Assert.Equal("Caridina multidentata", SpeciesProfiles.Reference.ScientificName);
    }

    [Fact]
    public void No_animal_that_is_no_such_shrimp_has_a_profile()
    {
        // Rows of the reference about food animals, a snail, shrimps of the sea and one nobody named.
        string[] without =
        [
            "Artemia",
            "Brachionus plicatilis",
            "Moina micrura",
            "Neritina turrita",
            "Palaemon serratus",
            "Palaemon serrifer",
            "Macrobrachium sp. (10 zoeae, species not visible)",
            "chemistry",
            "disinfection",
        ];
        var rows = SpeciesFiles.Rows("species.csv").Select(row => row["species"]).Distinct().ToList();
        Assert.Equal(
            rows.Except(without).Order(StringComparer.Ordinal),
            SpeciesProfiles.Known.Select(species => species.ScientificName).Order(StringComparer.Ordinal)
        );
    }

    [Theory]
    [MemberData(nameof(Codes))]
    public void What_is_measured_stands_in_the_references_for_that_species(string code)
    {
        var profile = Of(code);
        var figures = Figures(profile.ScientificName);
        foreach (var quantity in profile.Quantities.Where(it => it.Provenance is Provenance.Measured))
        {
            if (Reckoned.Contains((code, quantity.Code)))
            {
                Assert.NotNull(quantity.Note);
                continue;
            }

            double?[] parts = [quantity.Original.Low, quantity.Original.Value, quantity.Original.High];
            Assert.All(
                parts.OfType<double>(),
                number => Assert.True(figures.Contains(number), $"{code} {quantity.Code} {number}")
            );
        }
    }

    [Theory]
    [MemberData(nameof(Codes))]
    public void What_is_borrowed_names_the_lender_and_is_the_lenders_figure(string code)
    {
        var profile = Of(code);
        foreach (var quantity in profile.Quantities.Where(it => it.Provenance is Provenance.Borrowed))
        {
            Assert.NotEqual(profile.ScientificName, quantity.BorrowedFrom);
            var lender = SpeciesProfiles.Find(quantity.BorrowedFrom);
            if (lender?.Find(quantity.Code) is not { } lent || code == SpeciesProfiles.Reference.Code)
            {
                continue;
            }

            if (quantity.Bounds is ProfileBounds.Assumed)
            {
                // Widened by this project, as its note says.
                Assert.NotNull(quantity.Note);
                Assert.True(
                    quantity.Original.Low <= lent.Original.Low && quantity.Original.High >= lent.Original.High
                );
                continue;
            }

            Assert.Equal(lent.Original, quantity.Original);
        }
    }

    [Theory]
    [MemberData(nameof(Codes))]
    public void No_figure_is_measured_by_silence(string code) =>
        Assert.All(
            Of(code).Quantities.Where(quantity => quantity.Provenance is Provenance.Assumed),
            quantity =>
                Assert.True(
                    quantity.Note is not null
                        || quantity.Code.StartsWith("vessel-", StringComparison.Ordinal),
                    quantity.Code
                )
        );

    [Theory]
    [MemberData(nameof(Codes))]
    public void The_default_water_lies_where_larvae_complete_and_each_stage_has_one_band(string code)
    {
        var profile = Of(code);
        Assert.True(profile.LarvalSalinityBand.Contains(profile.LarvalSalinityTarget));
        Assert.True(profile.LarvalSalinityCompleting.Contains(profile.LarvalSalinityTarget));
        Assert.True(profile.BrackishSalinity.High <= profile.LarvalSalinityTarget);
        Assert.All(
            profile.Stages,
            stage =>
            {
                var at = profile.SalinityAt(stage.Order);
                Assert.True(at.Band.Contains(at.Target));
                Assert.True(at.Band.Low >= profile.SalinityAt(Math.Max(1, stage.Order - 1)).Band.Low);
            }
        );
    }

    [Theory]
    [MemberData(nameof(Codes))]
    public void The_forecast_follows_the_profile(string code)
    {
        var before = Carried(code).ForecastOf(Brood1)!.Median;
        var days = Of(code).Quantity(QuantityCodes.EmbryoDegreeDays);
        var after = Carried(code, (days.Code, 1.5 * days.Value, null, null)).ForecastOf(Brood1)!.Median;
        Assert.True(after - before > Duration.FromDays(1), $"{before} {after}");
    }

    [Theory]
    [MemberData(nameof(Codes))]
    public void The_plan_before_the_hatch_follows_the_profile(string code)
    {
        var profile = Of(code);
        var plan = Carried(code).PlanOf(Brood1);
        var mix = plan.Actions.Single(action => action.Code == ActionCodes.MixSeaWater);
        Assert.Equal(profile.LarvalSalinityTarget.Practical, mix.Reason["salinityPpt"]);
        var high = profile.LarvalSalinityBand.High.Practical - 0.1;
        var other = Carried(code, (QuantityCodes.LarvalSalinityTarget, high, null, null)).PlanOf(Brood1);
        Assert.Equal(
            high,
            (double)
                other.Actions.Single(action => action.Code == ActionCodes.MixSeaWater).Reason["salinityPpt"]!,
            9
        );
    }

    [Theory]
    [MemberData(nameof(Codes))]
    public void The_hours_in_fresh_water_follow_the_profile(string code)
    {
        var profile = Of(code);
        Instant By(params (string, double?, double?, double?)[] choices) =>
            Gathered(code, choices)
                .PlanOf(Brood1)
                .Actions.Single(action => action.Code == ActionCodes.CrossLarvae)
                .By;
        var free = profile.Quantity("larva-fresh-water-free-hours").High!.Value;
        Assert.Equal(
            Duration.FromHours(free / 2),
            By() - By(("larva-fresh-water-free-hours", null, null, free / 2))
        );
    }

    [Theory]
    [MemberData(nameof(Codes))]
    public void The_due_list_asks_for_food_as_soon_as_the_species_needs_it(string code)
    {
        var profile = Of(code);
        var outlook = Crossed(code);
        var food = outlook.Due.Items.Single(item => item.Action.Code == ActionCodes.FirstFood).Action;
        var hours = (food.By - food.From).TotalHours;
        Assert.Equal(profile.FirstFood is FirstFoodNeed.YolkFirst ? 24 : 2, hours, 6);
        Assert.Equal(
            profile.FirstFood switch
            {
                FirstFoodNeed.YolkFirst => "plan-salt-before-food",
                FirstFoodNeed.AtOnce => "plan-food-at-once",
                _ => "plan-food-at-once-not-known",
            },
            food.Reason.Code
        );
        Assert.Equal(
            profile.FirstFood is FirstFoodNeed.NotKnown,
            outlook.PlanOf(Brood1).Remarks.Any(remark => remark.Code == "first-food-not-known")
        );
    }

    [Theory]
    [MemberData(nameof(Codes))]
    public void The_watch_for_settlement_follows_the_profile(string code)
    {
        var days = Of(code).Quantity(QuantityCodes.LarvalDays);
        Instant From(params (string, double?, double?, double?)[] choices) =>
            Crossed(code, choices)
                .PlanOf(Brood1)
                .Actions.Single(action => action.Code == ActionCodes.ReturnJuveniles)
                .From;
        Assert.Equal(10, (From((days.Code, null, days.Low + 10, days.High + 10)) - From()).TotalDays, 1);
    }

    [Theory]
    [MemberData(nameof(Codes))]
    public void The_band_of_the_vessel_follows_the_profile(string code)
    {
        var outlook = Crossed(code);
        var band = outlook.Profiles.BandOf(outlook.House.Vessel(Jar))!;
        var profile = Of(code);
        Assert.Equal(profile.LarvalSalinityTarget, band.Target);
        Assert.Equal(profile.LarvalSalinityBand.Low, band.Lower);
        var low = profile.LarvalSalinityBand.Low.Practical - 0.5;
        var chosen = Crossed(code, (QuantityCodes.LarvalSalinityBand, null, low, null));
        Assert.Equal(low, chosen.Profiles.BandOf(chosen.House.Vessel(Jar))!.Lower.Practical, 9);
    }

    [Theory]
    [MemberData(nameof(Codes))]
    public void The_crossing_follows_the_profile(string code)
    {
        var profile = Of(code);
        var target = profile.LarvalSalinityTarget;
        var order = new CrossingOrder
        {
            Cup = new(Volume.FromMillilitres(100), default, Temperature.FromCelsius(25)),
            CupCapacity = Volume.FromLitres(1),
            Source = new(Volume.FromLitres(5), target, Temperature.FromCelsius(25)),
            Receiving = new(Volume.FromLitres(7), target, Temperature.FromCelsius(25)),
            ReceivingCapacity = Volume.FromLitres(9),
            ReceivingBand = profile.FirstSalinityBand(),
            WantedMinutes = 4,
            Brackish = BrackishRule.From(
                profile.BrackishSalinity.Low,
                profile.BrackishSalinity.High,
                profile.BrackishLimit.TotalMinutes
            ),
        };
        var plan = Assert.IsType<CrossingAnswer.Planned>(CrossingPlanner.Plan(order)).Plan;
        Assert.Equal(
            Math.Min(
                profile.BrackishSalinity.High.Practical + CrossingPlanner.BeyondBrackish,
                target.Practical
            ),
            plan.Steps[^1].After.Salinity.Practical,
            1
        );
        Assert.DoesNotContain(plan.Notes, note => note.Code is CrossingNoteCode.ReceivingIsBrackish);
    }

    [Theory]
    [MemberData(nameof(Codes))]
    public void The_limits_follow_the_profile(string code)
    {
        var profile = Of(code);
        var ammonia = profile.Quantity(QuantityCodes.AmmoniaNitrogenLimit);
        double Limit(SpeciesProfile of) =>
            of.LimitsFor(LifeStage.EarlyZoea)
                .First(it => it.Quantity is LimitedQuantity.UnionisedAmmonia)
                .Value;
        Assert.Equal(ammonia.High, Limit(profile));
        var chosen = profile.With([Choice(ammonia.Code, null, null, ammonia.High / 2)]);
        Assert.Equal(ammonia.High!.Value / 2, Limit(chosen), 12);
        var salt = profile
            .LimitsFor(LifeStage.LateZoea)
            .First(it => it is { Quantity: LimitedQuantity.Salinity, IsUpper: true });
        Assert.Equal(profile.SalinityAt(profile.Stages.Length - 1).From.High, salt.Value);
    }

    [Theory]
    [InlineData("caridina-multidentata")]
    [InlineData("caridina-villadolidi")]
    [InlineData("caridina-sakishimensis")]
    [InlineData("macrobrachium-lar")]
    [InlineData("macrobrachium-rosenbergii")]
    public void The_estimator_follows_the_profile(string code)
    {
        var outlook = Crossed(code);
        var estimate = outlook.EstimateOf(outlook.PopulationOf(Brood1)!);
        var profile = Of(code);
        Assert.Equal(profile.Stages.Length, estimate.Stages.Count);
        var days = (estimate.Settlement.Half.Middle - At(6, 1, 8)).TotalDays;
        Assert.InRange(days, profile.LarvalDaysLow * 0.6, profile.LarvalDaysHigh * 1.6);
        Assert.Equal(
            BorrowedNumbers.OfLarvae.Any(of => profile.Quantity(of).Provenance is Provenance.Borrowed),
            estimate.Remarks.Any(remark => remark.Code == "numbers-borrowed")
        );
    }

    [Fact]
    public void A_plan_from_a_relatives_numbers_says_so_and_one_from_its_own_does_not()
    {
        var borrowed = Crossed("caridina-sakishimensis").PlanOf(Brood1).Remarks;
        Assert.Contains(
            borrowed,
            remark => remark.Code == "numbers-borrowed" && Equals(remark["relative"], "Caridina multidentata")
        );
        Assert.Empty(Crossed("caridina-multidentata").PlanOf(Brood1).Remarks);
    }

    [Fact]
    public void Larvae_that_want_rising_salinity_get_it_by_stage()
    {
        // Salinity and temperature requirements for larviculture of Macrobrachium lar (abstract): stages I-II 10-15,
        // III-IV 15-25, V-VI 25-30, VII-XIII 30-35 ppt.
        var profile = Of("macrobrachium-lar");
        Assert.Equal(
            [(1, 10, 15), (3, 15, 25), (5, 25, 30), (7, 30, 35)],
            profile.SalinityByStage.Select(stage =>
                (stage.FromOrder, (int)stage.Band.Low.Practical, (int)stage.Band.High.Practical)
            )
        );
        var young = Crossed("macrobrachium-lar");
        var rise = young.PlanOf(Brood1).Actions.Single(action => action.Code == ActionCodes.RaiseSalinity);
        Assert.Equal("Z3", rise.Reason["stage"]);
        Assert.True(rise.From > young.Now);

        // At day 40 of 77 to 110 the larvae are at the fifth to the seventh of thirteen.
        var older = Crossed("macrobrachium-lar", At(7, 11), []);
        var band = older.Profiles.BandOf(older.House.Vessel(Jar))!;
        Assert.Equal((25, 27.5, 35), (band.Lower.Practical, band.Target.Practical, band.Upper.Practical));
        Assert.Contains(
            older.Due.Items,
            item => item.Action.Code == ActionCodes.RaiseSalinity && item.Action.From <= older.Now
        );

        // Seen younger, they are kept as younger ones.
        var seen = Crossed(
            "macrobrachium-lar",
            At(7, 11),
            [],
            (At(7, 10), new StageSampleTaken(Jar, [new("Z3", 4), new("Z4", 2)]))
        );
        Assert.Equal(15, seen.Profiles.BandOf(seen.House.Vessel(Jar))!.Lower.Practical);
    }

    [Fact]
    public void Other_species_are_not_asked_to_raise_the_salinity() =>
        Assert.All(
            SpeciesProfiles.All.Where(profile => !profile.SalinityFollowsStage),
            profile =>
                Assert.DoesNotContain(
                    Crossed(profile.Code).PlanOf(Brood1).Actions,
                    action => action.Code == ActionCodes.RaiseSalinity
                )
        );

    [Fact]
    public void Who_names_no_species_gets_the_only_one_of_the_house()
    {
        var profiles = Carried("caridina-typus").Profiles;
        Assert.Equal("caridina-typus", profiles.Of(null as string).Code);
        Assert.Equal(
            "caridina-multidentata",
            new HouseProfiles(new KeptJournal().House(), At(6, 1)).Of(null as string).Code
        );
        Assert.Equal("caridina-multidentata", profiles.Of("Homo sapiens").Code);
    }

    [Fact]
    public void A_species_without_a_profile_is_told_wherever_it_is_named()
    {
        var house = new KeptJournal()
            .Write(At(4, 20), new VesselSetUp(Tank, "Tank", VesselRole.BroodTank, null, "Palaemon serratus"))
            .House();
        Assert.Contains(
            new HouseProfiles(house, At(6, 1)).Conflicts(),
            remark => remark.Code == "species-named-without-profile"
        );
    }

    /// <summary>Numbers worked out from the reference, as their notes say, and limits that are a tenth of a dose.</summary>
    private static readonly HashSet<(string, string)> Reckoned =
    [
        ("caridina-leucosticta", "larval-salinity"),
        ("caridina-villadolidi", "larval-reference-temperature"),
        ("caridina-villadolidi", "larval-temperature"),
        ("caridina-longirostris", "larval-temperature"),
        ("macrobrachium-rosenbergii", "embryo-degree-days"),
        ("macrobrachium-rosenbergii", "embryo-days"),
        ("macrobrachium-rosenbergii", "pale-lead-days"),
        ("macrobrachium-rosenbergii", "larval-temperature"),
        ("macrobrachium-rosenbergii", "larval-reference-temperature"),
        ("macrobrachium-rosenbergii", "ammonia-nitrogen-limit-settled"),
        ("macrobrachium-lar", "larval-salinity"),
        ("macrobrachium-lar", "larva-fresh-water-days"),
        ("macrobrachium-lar", "larval-temperature"),
        ("macrobrachium-lar", "larval-days"),
        ("macrobrachium-carcinus", "larval-salinity-target"),
        ("macrobrachium-carcinus", "ammonia-nitrogen-limit-middle"),
        ("macrobrachium-carcinus", "ammonia-nitrogen-limit-late"),
        ("macrobrachium-carcinus", "nitrite-nitrogen-limit-middle"),
        ("macrobrachium-carcinus", "nitrite-nitrogen-limit-late"),
        ("macrobrachium-amazonicum", "larval-salinity-target"),
        ("macrobrachium-amazonicum", "survival-to-post-larva"),
        ("macrobrachium-tenellum", "ammonia-nitrogen-limit"),
    ];

    // Every number that any row of the references tells of a species, in any of its columns.
    private static HashSet<double> Figures(string species) =>
        [
            .. new[] { "species.csv", "development-times.csv", "survival-series.csv" }
                .Where(file => File.Exists(SpeciesFiles.At("reference", file)))
                .SelectMany(SpeciesFiles.Rows)
                .Where(row => row["species"].StartsWith(species, StringComparison.Ordinal))
                .SelectMany(row => row.Values)
                .SelectMany(cell => Regex.Matches(cell, @"\d+(\.\d+)?(e\d+)?").Select(found => found.Value))
                .Select(text => SpeciesFiles.Number(text)!.Value),
        ];

    private static ProfileChoice Choice(string code, double? value, double? low, double? high)
    {
        var unit = SpeciesProfiles.Reference.Find(code)?.Unit.Code ?? "1";
        return new(code, value, low, high, unit, "tried", "keeper", At(4, 1));
    }

    private static KeptJournal House(
        string code,
        (string Code, double? Value, double? Low, double? High)[] choices
    )
    {
        var name = Of(code).ScientificName;
        var kept = new KeptJournal()
            .Write(At(4, 20), new VesselSetUp(Tank, "Tank", VesselRole.BroodTank))
            .Write(At(4, 20), new VesselSetUp(Jar, "Jar", VesselRole.LarvalVessel, TypedNumber.Of(8, "L")))
            .Write(At(4, 20), new AnimalAcquired(Female, "F1", name, Sex.Female, Tank))
            .Write(At(4, 30, 20), new AnimalSeenEmpty(Female))
            .Write(At(5, 2, 8), new AnimalSeenBerried(Female, Brood1, "Brood 1"))
            .Write(At(5, 2, 8), new RunStarted(Run1, Brood1, "Run 1", name));
        foreach (var (quantity, value, low, high) in choices)
        {
            kept.Write(
                At(4, 21),
                new ProfileValueChosen(
                    name,
                    quantity,
                    Of(code).Quantity(quantity).Unit.Code,
                    value,
                    low,
                    high,
                    "tried"
                )
            );
        }

        return kept;
    }

    private static Outlook Carried(string code, params (string, double?, double?, double?)[] choices) =>
        Outlook.Of(House(code, choices).Account(), At(5, 4), Zone);

    private static Outlook Gathered(string code, params (string, double?, double?, double?)[] choices) =>
        Outlook.Of(
            House(code, choices)
                .Write(At(5, 27, 7), new CollectionMade(Collection1, Brood1, Tank, null, 300))
                .Account(),
            At(5, 27, 8),
            Zone
        );

    private static Outlook Crossed(string code, params (string, double?, double?, double?)[] choices) =>
        Crossed(code, At(6, 2), choices);

    private static Outlook Crossed(
        string code,
        Instant now,
        (string, double?, double?, double?)[] choices,
        params (Instant When, Fact Fact)[] also
    )
    {
        var target = Of(code).LarvalSalinityTarget.Practical;
        var kept = House(code, choices)
            .Write(
                At(5, 31),
                new VesselFilled(
                    Jar,
                    Fill1,
                    TypedNumber.Of(7, "L"),
                    TypedNumber.Of(target, UnitCode.PracticalSalinity)
                )
            )
            .Write(At(6, 1, 7), new CollectionMade(Collection1, Brood1, Tank, null, 300))
            .Write(At(6, 1, 8), new CrossingMade(Cohort1, Brood1, Jar, [Collection1], 300));
        foreach (var (when, fact) in also)
        {
            kept.Write(when, fact);
        }

        return Outlook.Of(kept.Account(), now, Zone);
    }
}
