using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Crossing;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Settling;
using Broodtide.Workbench.Species;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Tests.Settling;

public class ReturningTests
{
    private static readonly VesselId Nursery = new(Fixed(70));

    [Fact]
    public void Zoeae_that_are_not_ready_hold_the_dilution_and_single_ones_may_go()
    {
        // Three weeks after the crossing hardly any have settled.
        var plan = Plan(In(At(6, 22)));

        Assert.Equal(DilutionState.Held, plan.InSteps.State);
        Assert.Equal("return-too-few-settled", plan.InSteps.Hold!.Code);
        Assert.Empty(plan.InSteps.Steps);
        Assert.True(plan.Now!.ZoeaeMayBeThere);
        Assert.IsType<CrossingAnswer.Planned>(plan.OneByOne);
    }

    [Fact]
    public void Once_most_have_settled_it_goes_down_only_as_far_as_zoeae_bear_it()
    {
        // Seen under the microscope: nine of ten are post-larvae, one still a zoea.
        var plan = Plan(In(At(7, 22), (At(7, 20), new StageSampleTaken(Jar, [new("Z9", 2), new("PL", 18)]))));

        Assert.Equal(DilutionState.ToTheZoeaeLimit, plan.InSteps.State);
        Assert.Equal("return-zoeae-in-the-water", plan.InSteps.Hold!.Code);
        // Kondo, Hamasaki and Dan 2021: larvae complete from 17 on.
        Assert.Equal(17, plan.InSteps.FloorPpt);
        Assert.NotEmpty(plan.InSteps.Steps);
        Assert.Equal(17, plan.InSteps.Steps[^1].ToPpt, 0.1);
        Assert.All(plan.InSteps.Steps, step => Assert.True(step.ToPpt >= 16.9));
    }

    [Fact]
    public void The_keepers_word_goes_before_the_estimate_and_is_told_as_such()
    {
        var outlook = In(At(7, 22), (At(7, 20), new StageSampleTaken(Jar, [new("Z9", 2), new("PL", 18)])));
        var plan = Plan(outlook, order => order with { NoZoeaeByWord = true });

        Assert.Equal(DilutionState.ToFreshWater, plan.InSteps.State);
        Assert.Equal("return-against-the-estimate", plan.InSteps.Hold!.Code);
        Assert.Equal(1, plan.InSteps.Steps[^1].ToPpt, 0.1);
    }

    [Fact]
    public void The_changes_are_the_reported_ones_and_balance_the_salt()
    {
        var outlook = In(At(7, 22));
        var steps = Plan(outlook, order => order with { NoZoeaeByWord = true }).InSteps.Steps;
        var litres = outlook.LedgerOf(Jar)!.Litres.Middle;

        // A Japanese two-month diary: 24, 21, 18 grams of mix in a litre, so 3 each: at 8 % water in the mix about 2.7 ppt.
        Assert.InRange(steps[0].FromPpt - steps[0].ToPpt, 2.3, 3);
        Assert.All(
            steps,
            step =>
            {
                Assert.Equal(step.DrawnOff.Litres, step.Added.Litres, 0.01);
                // Salt left after drawing off, spread again over the whole: by volume, to a percent.
                Assert.Equal(
                    step.ToPpt,
                    step.FromPpt * (litres - step.DrawnOff.Litres) / litres,
                    0.02 * step.FromPpt
                );
            }
        );
        Assert.All(
            steps.Zip(steps.Skip(1)),
            pair => Assert.Equal(24, pair.Second.AfterHours - pair.First.AfterHours)
        );
    }

    [Fact]
    public void Single_ones_go_down_in_a_cup_without_a_drop_into_the_larval_vessel()
    {
        var planned = Assert.IsType<CrossingAnswer.Planned>(Plan(In(At(7, 22))).OneByOne).Plan;

        Assert.Equal(CrossingDirection.ToFresh, planned.Direction);
        Assert.True(planned.Steps[^1].After.Salinity.Practical <= 1);
        Assert.All(
            planned.Steps.Zip(planned.Steps.Skip(1)),
            pair => Assert.True(pair.Second.After.Salinity < pair.First.After.Salinity)
        );
    }

    [Fact]
    public void Both_ways_are_told_as_unmeasured_with_lid_sponge_fish_and_siphon()
    {
        var codes = Plan(In(At(7, 22))).Remarks.Select(remark => remark.Code).ToList();

        Assert.Superset(
            new HashSet<string>
            {
                "return-nobody-measured-which",
                "return-hardness-not-told",
                "return-lid-on",
                "return-sponge-over-the-intake",
                "return-no-fish",
                "return-search-what-is-siphoned",
                "return-old-vessel-stays",
                "return-never-into-nature",
            },
            codes.ToHashSet()
        );
    }

    [Fact]
    public void Hardness_and_alkalinity_are_held_against_the_profile()
    {
        var soft = Plan(In(At(7, 22)), order => order with { HardnessMilligramsPerLitre = 20 });
        Assert.Contains(soft.Remarks, remark => remark.Code == "return-hardness-unusual");
        var usual = Plan(In(At(7, 22)), order => order with { HardnessMilligramsPerLitre = 120 });
        Assert.DoesNotContain(
            usual.Remarks,
            remark => remark.Code.StartsWith("return-hardness", StringComparison.Ordinal)
        );

        // Gonzalez-Vera and Brown: alkalinity of 250 mg/L and more killed post-larvae of Macrobrachium rosenbergii.
        var hard = Plan(
            In(At(7, 22), "Macrobrachium rosenbergii"),
            order => order with { HardnessMilligramsPerLitre = 120, AlkalinityMilligramsPerLitre = 260 }
        );
        Assert.Contains(hard.Remarks, remark => remark.Code == "return-alkalinity-kills");
    }

    [Theory]
    [InlineData("macrobrachium-lar", 30)]
    [InlineData("caridina-villadolidi", 15)]
    [InlineData("caridina-multidentata", 17)]
    public void The_zoeae_limit_is_that_of_the_species(string code, double ppt) =>
        Assert.Equal(ppt, Returning.ZoeaeLimit(SpeciesProfiles.Find(code)!).Practical, 9);

    [Fact]
    public void A_hatchery_species_is_flushed_over_its_hours()
    {
        // New 2002: a gradual flush over twelve hours.
        var steps = Plan(
            In(At(7, 22), "Macrobrachium rosenbergii"),
            order => order with { NoZoeaeByWord = true }
        ).InSteps.Steps;
        Assert.InRange(steps[^1].AfterHours, 8, 12);
    }

    [Fact]
    public void A_vessel_on_its_way_home_is_no_longer_asked_to_be_salt()
    {
        var outlook = In(
            At(7, 25),
            (At(7, 22), new JuvenilesReturned(Jar, Jar)),
            (At(7, 23), new WaterMoved(From: Jar, Volume: TypedNumber.Of(3, "L"))),
            (At(7, 23, 13), new WaterMoved(To: Jar, Volume: TypedNumber.Of(3, "L")))
        );

        Assert.Null(outlook.Profiles.BandOf(outlook.House.Vessel(Jar)));
        Assert.DoesNotContain(
            outlook.Due.Items,
            item =>
                item.Action.Code
                    is ActionCodes.CorrectSalinity
                        or ActionCodes.TopUp
                        or ActionCodes.ReturnJuveniles
        );
        Assert.Contains(outlook.Due.Items, item => item.Action.Code == ActionCodes.CheckNurseryLid);
    }

    [Fact]
    public void Once_settled_ones_were_seen_the_band_reaches_down_to_what_zoeae_complete_in()
    {
        var before = In(At(7, 22));
        var after = In(At(7, 22), (At(7, 20), new SettlementSeen(Jar, 3)));

        Assert.Equal(25, before.Profiles.BandOf(before.House.Vessel(Jar))!.Lower.Practical);
        Assert.Equal(17, after.Profiles.BandOf(after.House.Vessel(Jar))!.Lower.Practical);
        Assert.Equal(30, after.Profiles.BandOf(after.House.Vessel(Jar))!.Target.Practical);
    }

    [Fact]
    public void The_watch_tells_the_estimates_window_and_that_few_seen_is_not_many_dead()
    {
        var outlook = In(At(6, 22));
        var watch = SettlementWatch.Of(outlook, Jar)!;
        var estimate = outlook.EstimateOf(outlook.PopulationIn(Jar)!);

        Assert.Equal(estimate.Settlement, watch.Settlement);
        Assert.True(watch.NotGivenUpBefore > estimate.Settlement.NineTenths.Late);
        Assert.Contains(watch.Remarks, remark => remark.Code == "settling-few-seen-is-not-many-dead");
        Assert.Contains(watch.Signs, sign => sign.Code == "walks-head-up");
        Assert.Null(watch.FirstSeen);
        Assert.Null(SettlementWatch.Of(outlook, Tank));
    }

    [Fact]
    public void A_nursery_is_told_from_counts_that_do_not_see_all()
    {
        var outlook = In(
            At(8, 30),
            (At(7, 20), new VesselSetUp(Nursery, "Nursery", VesselRole.Nursery)),
            (At(7, 22), new JuvenilesReturned(Jar, Nursery, 30)),
            (At(7, 24), new JuvenilesReturned(Jar, Nursery, 20)),
            (At(8, 10), new JuvenilesCounted(Nursery, 20, CountMethod.Glance)),
            (At(8, 12), new JuvenilesGivenAway(Nursery, 5, "the club")),
            (At(8, 13), new DeadRemoved(Nursery, 1))
        );
        var book = NurseryBook.Of(outlook.House, Nursery, outlook.Profiles.Of(null as string), outlook.Now)!;

        Assert.Equal(Interval.FromPoints(20, 40, 50), book.Counts.Single().Lived);
        Assert.Equal(Interval.FromPoints(14, 34, 44), book.Alive);
        Assert.Equal(Interval.FromPoints(0.38, 0.78, 0.98), book.SurvivedShare);
        Assert.Equal(At(6, 1, 8), book.HatchedFrom);
        Assert.Null(book.LengthMillimetres);
        // An English life-cycle article: 90 to 120 days from juvenile to adult.
        Assert.Equal(90, (book.AdultFrom!.Value.Early - At(7, 22)).TotalDays, 3);
    }

    [Fact]
    public void Length_is_told_between_the_ages_of_the_reports()
    {
        var profile = SpeciesProfiles.Reference;
        Assert.Null(NurseryGrowthOn(profile, 20));
        Assert.Equal((4, 8), NurseryGrowthOn(profile, 35));
        Assert.Equal((7, 10), NurseryGrowthOn(profile, 60));
        Assert.Null(NurseryGrowthOn(profile, 100));
        Assert.Null(NurseryGrowthOn(SpeciesProfiles.Find("caridina-typus")!, 40));
    }

    [Fact]
    public void A_card_tells_what_they_are_and_holds_no_place()
    {
        var outlook = In(
            At(8, 30),
            (At(7, 20), new VesselSetUp(Nursery, "Nursery", VesselRole.Nursery)),
            (At(7, 22), new JuvenilesReturned(Jar, Nursery, 30)),
            (At(8, 12), new JuvenilesGivenAway(Nursery, 5, "the club"))
        );
        var gift = NurseryBook.GiftsOf(outlook.House).Single();
        var card = CareCard.Of(outlook.House, outlook.Profiles, gift, new() { Generation = "F1" });

        Assert.Equal("Caridina multidentata", card.Species);
        Assert.True(card.IsSpeciesKnown);
        Assert.Equal(21, card.DaysInFreshWater!.Value.Least, 3);
        Assert.Equal(At(6, 1, 8), card.Hatched);
        Assert.Contains(card.Remarks, remark => remark.Code == "return-never-into-nature");
        Assert.Contains(card.Remarks, remark => remark.Code == "card-hardness-usual");
        Assert.Equal(gift.Code, CareCode.Read(card.Gift.Code.Text));
    }

    private static (double, double)? NurseryGrowthOn(SpeciesProfile profile, double days)
    {
        var house = new KeptJournal()
            .Write(At(6, 1), new VesselSetUp(Nursery, "Nursery", VesselRole.Nursery))
            .Write(At(6, 1, 8), new CrossingMade(Cohort1, Brood1, Jar))
            .Write(At(6, 2), new JuvenilesReturned(Jar, Nursery, 3))
            .House();
        return NurseryBook
            .Of(house, Nursery, profile, At(6, 1, 8) + Duration.FromDays(days))
            ?.LengthMillimetres;
    }

    private static ReturnPlan Plan(Outlook outlook, Func<ReturnOrder, ReturnOrder>? with = null)
    {
        var order = new ReturnOrder
        {
            Vessel = Jar,
            Fresh = new(Volume.FromLitres(40), default, Temperature.FromCelsius(25)),
            Nursery = new(Volume.FromLitres(20), default, Temperature.FromCelsius(25)),
        };
        return Returning.Plan(outlook, with?.Invoke(order) ?? order).Plan!;
    }

    private static Outlook In(Instant now, params (Instant When, Fact Fact)[] also) =>
        In(now, "Caridina multidentata", also);

    private static Outlook In(Instant now, string species, params (Instant When, Fact Fact)[] also)
    {
        var target = SpeciesProfiles.Find(species)!.LarvalSalinityTarget.Practical;
        var kept = new KeptJournal()
            .Write(At(4, 20), new VesselSetUp(Tank, "Tank", VesselRole.BroodTank))
            .Write(At(4, 20), new VesselSetUp(Jar, "Jar", VesselRole.LarvalVessel, TypedNumber.Of(8, "L")))
            .Write(At(4, 20), new AnimalAcquired(Female, "F1", species, Sex.Female, Tank))
            .Write(At(5, 2, 8), new AnimalSeenBerried(Female, Brood1, "Brood 1"))
            .Write(At(5, 2, 8), new RunStarted(Run1, Brood1, "Run 1", species))
            .Write(
                At(5, 31),
                new VesselFilled(
                    Jar,
                    Fill1,
                    TypedNumber.Of(7, "L"),
                    TypedNumber.Of(target, UnitCode.PracticalSalinity)
                )
            )
            .Write(At(6, 1, 8), new CrossingMade(Cohort1, Brood1, Jar, null, 120, CountMethod.Full));
        // A lid on: what is read stays what it was.
        for (var day = At(6, 3); day < now && day < At(7, 22); day += Duration.FromDays(3))
        {
            kept.Write(day, new ReadingTaken(TypedNumber.Of(target, UnitCode.PracticalSalinity), Jar));
        }

        foreach (var (when, fact) in also.OrderBy(pair => pair.When))
        {
            kept.Write(when, fact);
        }

        return Outlook.Of(kept.Account(), now, Zone);
    }

    [Fact]
    public void A_word_alone_does_not_open_the_way_while_hardly_any_have_settled()
    {
        var alone = Plan(In(At(6, 22)), order => order with { NoZoeaeByWord = true });
        Assert.Equal(DilutionState.Held, alone.InSteps.State);
        Assert.Equal("return-word-alone", alone.InSteps.Hold!.Code);
        Assert.Empty(alone.InSteps.Steps);

        var seen = Plan(
            In(At(6, 22), (At(6, 21), new SettlementSeen(Jar, 3))),
            order => order with { NoZoeaeByWord = true }
        );
        Assert.Equal(DilutionState.ToFreshWater, seen.InSteps.State);
    }

    [Fact]
    public void Steps_below_what_was_reported_are_marked_as_our_own()
    {
        var outlook = In(At(7, 22));
        var down = Plan(outlook, order => order with { NoZoeaeByWord = true });
        var own = Assert.Single(down.Remarks, remark => remark.Code == "return-below-the-reports");
        // The diary ends at 18 g of mix in a litre, which at 8 % water in the mix is about 16.5 ppt.
        Assert.InRange((double)own["reportedPpt"]!, 15.5, 18);

        var held = Plan(In(At(6, 22)));
        Assert.DoesNotContain(held.Remarks, remark => remark.Code == "return-below-the-reports");
    }

    // Gonzalez-Vera and Brown (abstract): 250 mg/L and over killed post-larvae of Macrobrachium rosenbergii; others borrow it.
    [Fact]
    public void Every_species_has_an_alkalinity_that_is_warned_of() =>
        Assert.All(
            SpeciesProfiles.All,
            profile => Assert.Equal(250, profile.Find("juvenile-alkalinity-limit")?.High)
        );
}
