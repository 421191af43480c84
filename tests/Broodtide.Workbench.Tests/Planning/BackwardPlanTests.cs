using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Planning;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Planning;

public class BackwardPlanTests
{
    private static readonly Instant Early = At(5, 8, 18);

    [Fact]
    public void Everything_item_by_item_is_planned_before_the_hatch()
    {
        var plan = Plan(WithBrood(), Early);

        Assert.Equal(
            [
                ActionCodes.CalibrateInstrument,
                ActionCodes.HaveSaltMix,
                ActionCodes.LookAtEggs,
                ActionCodes.MixSeaWater,
                ActionCodes.ReadyAir,
                ActionCodes.ReadyContainers,
                ActionCodes.ReadyHatchingBox,
                ActionCodes.ReadyLight,
                ActionCodes.ReadyPipettes,
                ActionCodes.SetPhoneClock,
                ActionCodes.SomeoneAtHome,
                ActionCodes.StartBackupCulture,
                ActionCodes.StartFilm,
                ActionCodes.StartGreenWater,
            ],
            plan.Actions.Select(action => action.Code).Order(StringComparer.Ordinal)
        );
        Assert.All(plan.Actions, action => Assert.True(action.From <= action.By, action.Key));
        Assert.All(plan.Actions, action => Assert.Contains(action.Code, ActionCodes.All));
    }

    [Fact]
    public void Food_is_begun_two_to_five_weeks_ahead_at_larval_salinity()
    {
        var outlook = Outlook.Of(WithBrood().Account(), Early, Zone);
        var first = outlook.ForecastOf(Brood1)!.StillToCome(0.05);
        var green = Find(outlook.PlanOf(Brood1), ActionCodes.StartGreenWater);

        // Keepers say two to five weeks; by when follows from the slowest growth that is taken into account.
        Assert.InRange((first - green.From).TotalDays, 28, 37);
        Assert.InRange((first - green.By).TotalDays, 13, 23);
        Assert.Equal(7 * (double)green.Reason["weeksMost"]!, (first - green.By).TotalDays, 1.5);
        var film = Find(outlook.PlanOf(Brood1), ActionCodes.StartFilm);
        Assert.InRange((first - film.From).TotalDays, 35, 43);
        Assert.InRange((first - film.By).TotalDays, 14, 23);
        Assert.Equal(30.0, green.Reason["salinityPpt"]);
        Assert.Contains(green.Amounts, amount => amount.Code == "amount-green-water");
        Assert.True(green.MaySlip);
    }

    [Fact]
    public void Sea_water_may_not_slip_and_waits_for_the_check_of_the_instrument()
    {
        var plan = Plan(WithBrood(), Early);
        var mix = Find(plan, ActionCodes.MixSeaWater);

        Assert.False(mix.MaySlip);
        Assert.Equal(ActionState.Waits, mix.State);
        Assert.Contains(Find(plan, ActionCodes.CalibrateInstrument).Key, mix.After);
        Assert.True(mix.By > Find(plan, ActionCodes.CalibrateInstrument).By);
        Assert.Contains(CautionCode.MainsBesideSaltWater, mix.Cautions);
    }

    [Fact]
    public void The_standard_is_the_published_recipe()
    {
        // R. Holmes-Farley from the CRC Handbook, 57th edition: 36.5 g of salt in 963.5 g of water reads as 35 ppt.
        var standard = Find(Plan(WithBrood(), Early), ActionCodes.CalibrateInstrument)
            .Amounts.Single(amount => amount.Code == "amount-standard-35");

        var salt = (double)standard["sodiumChlorideGrams"]!;
        var water = (double)standard["pureWaterGrams"]!;
        Assert.Equal(36.5 / 963.5, salt / water, 1e-3);
    }

    [Fact]
    public void Water_is_worked_out_for_the_largest_free_larval_vessel()
    {
        var kept = WithBrood()
            .Write(At(5, 3), new VesselSetUp(Jar, "Jar A", VesselRole.LarvalVessel, TypedNumber.Of(4, "L")));
        var mix = Find(Plan(kept, Early), ActionCodes.MixSeaWater).Amounts[0];

        Assert.Equal(5.2, (double)mix["finishedLitres"]!, 1e-9);
        Assert.InRange((double)mix["massGrams"]!, 5.2 * 31, 5.2 * 37);
    }

    [Fact]
    public void Keys_stay_the_same_whatever_the_forecast_does()
    {
        var before = Plan(WithBrood(25.5), Early);
        var after = Plan(
            WithBrood(28.5).Write(At(5, 9, 18), new EggsObserved(Brood1, true, false, EggColour.Dark)),
            At(5, 9, 19)
        );

        foreach (
            var code in ActionCodes.All.Where(code =>
                code is not ActionCodes.LookAtEggs && before.Actions.Any(action => action.Code == code)
            )
        )
        {
            Assert.Equal(Find(before, code).Key, Find(after, code).Key);
        }

        Assert.NotEqual(Find(before, ActionCodes.MixSeaWater).By, Find(after, ActionCodes.MixSeaWater).By);
    }

    [Fact]
    public void Done_and_skipped_entries_close_an_action_and_a_passed_delay_opens_it_again()
    {
        var film = ActionKey.Of(ActionCodes.StartFilm, Subject.Of(Brood1));
        var air = ActionKey.Of(ActionCodes.ReadyAir, Subject.Of(Brood1));
        var kept = WithBrood()
            .Write(At(5, 6), new ActionDone(film, Brood1.Value))
            .Write(At(5, 7), new ActionSkipped(air, Until: At(5, 12)));

        var plan = Plan(kept, Early);
        Assert.Equal(ActionState.Done, Find(plan, ActionCodes.StartFilm).State);
        Assert.Equal(At(5, 6), Find(plan, ActionCodes.StartFilm).StateSince);
        Assert.Equal(ActionState.Skipped, Find(plan, ActionCodes.ReadyAir).State);
        Assert.Equal(ActionState.Open, Find(Plan(kept, At(5, 12, 13)), ActionCodes.ReadyAir).State);
    }

    [Fact]
    public void What_the_journal_shows_is_done_needs_no_entry_of_its_own()
    {
        var kept = WithBrood()
            .Write(At(5, 3), new VesselSetUp(Culture, "Green", VesselRole.AlgaeCulture))
            .Write(At(5, 4), new VesselFilled(Culture, Fill1, TypedNumber.Of(1, "L")))
            .Write(
                At(5, 5),
                new InstrumentDescribed(Refractometer, "Refractometer", InstrumentKind.Refractometer)
            )
            .Write(
                At(5, 6),
                new InstrumentCalibrated(
                    Refractometer,
                    TypedNumber.Of(36, "sal:practical"),
                    TypedNumber.Of(35, "sal:practical")
                )
            )
            .Write(At(5, 7), new VesselSetUp(Jar, "Jar A", VesselRole.LarvalVessel))
            .Write(
                At(5, 7),
                new VesselFilled(
                    Jar,
                    new FillId(Fixed(77)),
                    TypedNumber.Of(4, "L"),
                    TypedNumber.Of(30, "sal:practical")
                )
            );
        var plan = Plan(kept, Early);

        foreach (
            var code in new[]
            {
                ActionCodes.StartGreenWater,
                ActionCodes.CalibrateInstrument,
                ActionCodes.ReadyContainers,
                ActionCodes.MixSeaWater,
                ActionCodes.HaveSaltMix,
            }
        )
        {
            Assert.Equal(ActionState.Done, Find(plan, code).State);
        }

        Assert.Equal(ActionState.Open, Find(plan, ActionCodes.StartBackupCulture).State);
    }

    [Fact]
    public void Sea_water_of_an_earlier_brood_is_not_this_ones()
    {
        var kept = WithBrood()
            .Write(At(4, 20), new VesselSetUp(Jar, "Can", VesselRole.Store))
            .Write(
                At(4, 21),
                new VesselFilled(Jar, Fill1, TypedNumber.Of(9, "L"), TypedNumber.Of(30, "sal:practical"))
            );

        Assert.NotEqual(ActionState.Done, Find(Plan(kept, Early), ActionCodes.MixSeaWater).State);

        // In the first hour any sea water that stands is better than none.
        kept.Write(At(5, 26, 7), new HatchingSeen(Brood1));
        Assert.DoesNotContain(
            Plan(kept, At(5, 26, 8)).Actions,
            action => action.Code == ActionCodes.MixJarNow
        );
    }

    [Fact]
    public void She_is_put_alone_only_once_a_sign_was_seen()
    {
        Assert.DoesNotContain(Plan(WithBrood(), Early).Actions, action => action.Code == ActionCodes.Isolate);

        var pale = WithBrood().Write(At(5, 22, 21), new EggsObserved(Brood1, true, true, EggColour.Pale));
        var isolate = Find(Plan(pale, At(5, 22, 22)), ActionCodes.Isolate);

        Assert.Equal(DoorCode.WriteIsolated, isolate.Door.Code);
        Assert.NotNull(isolate.Reason["larvaeFirst"]);
        Assert.NotNull(isolate.Reason["harmInBox"]);

        pale.Write(At(5, 22, 23), new AnimalIsolated(Female, Box, Brood1));
        Assert.Equal(ActionState.Done, Find(Plan(pale, At(5, 23)), ActionCodes.Isolate).State);
    }

    [Fact]
    public void Bleach_is_planned_only_if_chosen_and_thiosulfate_only_from_a_measured_residual()
    {
        Assert.DoesNotContain(
            Plan(WithBrood(), Early).Actions,
            action => action.Code is ActionCodes.BleachWater or ActionCodes.NeutraliseChlorine
        );

        var wishes = new PlanWishes { Sterilise = true };
        var chosen = Plan(WithBrood(), Early, wishes);
        Assert.Contains(CautionCode.BleachAndAcids, Find(chosen, ActionCodes.BleachWater).Cautions);
        Assert.NotEmpty(Find(chosen, ActionCodes.BleachWater).Amounts);
        Assert.Empty(Find(chosen, ActionCodes.NeutraliseChlorine).Amounts);
        Assert.Contains(
            Find(chosen, ActionCodes.TestZeroChlorine).Key,
            Find(chosen, ActionCodes.MixSeaWater).After
        );

        var bleached = WithBrood()
            .Write(At(5, 3), new VesselSetUp(Jar, "Jar A", VesselRole.LarvalVessel, TypedNumber.Of(4, "L")))
            .Write(At(5, 6), new VesselDisinfected(Jar, "bleach", TypedNumber.Of(5, "mg/L{Cl2}")));
        var waiting = Plan(bleached, Early);
        Assert.Equal(ActionState.Done, Find(waiting, ActionCodes.BleachWater).State);
        Assert.Empty(Find(waiting, ActionCodes.NeutraliseChlorine).Amounts);
        Assert.Equal(ActionState.Waits, Find(waiting, ActionCodes.NeutraliseChlorine).State);

        bleached.Write(At(5, 7), new VesselDisinfected(Jar, "bleach", null, TypedNumber.Of(2, "mg/L{Cl2}")));
        var measured = Plan(bleached, Early);
        Assert.Single(Find(measured, ActionCodes.NeutraliseChlorine).Amounts);
        Assert.Equal(ActionState.Waits, Find(measured, ActionCodes.TestZeroChlorine).State);

        bleached.Write(
            At(5, 8, 9),
            new VesselDisinfected(Jar, "thiosulfate", null, TypedNumber.Of(0, "mg/L{Cl2}"))
        );
        var clean = Plan(bleached, Early);
        Assert.Equal(ActionState.Done, Find(clean, ActionCodes.TestZeroChlorine).State);
    }

    [Fact]
    public void Larvae_now_and_nothing_ready_gives_the_steps_of_the_first_hour()
    {
        var kept = new KeptJournal().Write(At(5, 26, 7), new HatchingSeen(Brood1));
        var now = At(5, 26, 7, 10);

        var plan = Plan(kept, now);

        Assert.Equal(
            [
                ActionCodes.StopFilter,
                ActionCodes.GatherLarvae,
                ActionCodes.MixJarNow,
                ActionCodes.CheckJar,
                ActionCodes.CrossLarvae,
                ActionCodes.GetFood,
            ],
            plan.Actions.Select(action => action.Code)
        );
        Assert.All(
            plan.Actions.Where(action => action.Code is ActionCodes.StopFilter or ActionCodes.MixJarNow),
            action => Assert.True(action.By <= now + Duration.FromHours(1))
        );
        Assert.Equal(ActionState.Waits, Find(plan, ActionCodes.CrossLarvae).State);
        Assert.Contains(Find(plan, ActionCodes.MixJarNow).Amounts, a => a.Code == "amount-salt-mix");
        Assert.Equal(DoorCode.Crossing, Find(plan, ActionCodes.CrossLarvae).Door.Code);
    }

    [Fact]
    public void Larvae_in_the_cup_have_hours_left_by_the_profile()
    {
        var kept = WithBrood()
            .Write(At(5, 26, 7), new CollectionMade(Collection1, Brood1, Number: 120))
            .Write(At(5, 26, 7), new VesselSetUp(Jar, "Jar A", VesselRole.LarvalVessel))
            .Write(
                At(5, 24),
                new VesselFilled(Jar, Fill1, TypedNumber.Of(4, "L"), TypedNumber.Of(30, "sal:practical"))
            );

        var cross = Find(Plan(kept, At(5, 26, 9)), ActionCodes.CrossLarvae);

        // Hatched since noon before at the earliest; 24 free hours, 120 to the lethal delay (both of the profile).
        Assert.Equal(21.0, (double)cross.Reason["hoursFresh"]!, 1e-9);
        Assert.Equal(3.0, (double)cross.Reason["hoursLeftFree"]!, 1e-9);
        Assert.Equal(99.0, (double)cross.Reason["hoursLeftToLethal"]!, 1e-9);
        Assert.Equal(ActionState.Open, cross.State);
        Assert.False(cross.MaySlip);
    }

    [Fact]
    public void Salt_comes_before_food_and_food_by_about_a_day_after()
    {
        var plan = Plan(InTheSea(), At(5, 26, 12));
        var food = Find(plan, ActionCodes.FirstFood);

        Assert.DoesNotContain(plan.Actions, action => action.Code == ActionCodes.CrossLarvae);
        Assert.Equal(At(5, 27, 9), food.By);
        Assert.False(food.MaySlip);
        Assert.NotEmpty(food.Amounts);

        var fed = InTheSea().Write(At(5, 26, 20), new VesselFed(Jar, FoodKind.GreenWater));
        Assert.DoesNotContain(Plan(fed, At(5, 26, 21)).Actions, a => a.Code == ActionCodes.FirstFood);
        Assert.Contains(Plan(fed, At(5, 26, 21)).Actions, a => a.Code == ActionCodes.FeedLarvae);
    }

    [Fact]
    public void The_larval_phase_is_checked_daily_and_counted_weekly()
    {
        var kept = InTheSea()
            .Write(At(5, 29, 20), new ReadingTaken(TypedNumber.Of(31, "sal:practical"), Jar));
        var plan = Plan(kept, At(5, 30, 9));

        Assert.Equal(At(5, 30, 22), Find(plan, ActionCodes.ReadSalinity).By);
        Assert.Equal(At(5, 27, 22), Find(plan, ActionCodes.ReadTemperature).By);
        Assert.Equal(At(6, 2, 22), Find(plan, ActionCodes.CountLarvae).By);
    }

    [Fact]
    public void Settlement_is_watched_from_the_profiles_days_until_it_is_seen()
    {
        var plan = Plan(InTheSea(), At(5, 30, 9));
        var watch = Find(plan, ActionCodes.WatchSettlement);
        var home = Find(plan, ActionCodes.ReturnJuveniles);

        // Crossed on 26 May; 28 to 62 days by the profile.
        Assert.Equal(At(6, 16, 20), watch.From);
        Assert.Equal(At(6, 23, 8), home.From);
        Assert.Equal(Zone.AtStrictly(new LocalDateTime(2026, 7, 27, 20, 0)).ToInstant(), home.By);
        Assert.Contains(CautionCode.NoRelease, home.Cautions);

        var seen = InTheSea().Write(At(6, 25, 20), new SettlementSeen(Jar, 2));
        var after = Plan(seen, At(6, 26));
        Assert.DoesNotContain(after.Actions, action => action.Code == ActionCodes.WatchSettlement);
        Assert.Equal(At(6, 25, 20), Find(after, ActionCodes.ReturnJuveniles).From);
    }

    [Fact]
    public void Nothing_is_asked_of_a_vessel_whose_water_was_poured_away()
    {
        var kept = InTheSea().Write(At(6, 1), new VesselEmptied(Jar));

        Assert.Empty(Outlook.Of(kept.Account(), At(6, 2), Zone).BroodsUnderWay);
    }

    [Fact]
    public void A_run_that_ended_is_not_under_way()
    {
        var kept = InTheSea()
            .Write(At(5, 27), new RunStarted(Run1, Brood1, "Run 1"))
            .Write(At(6, 1), new RunEnded(Run1, RunEnd.GivenUp));

        Assert.Empty(Outlook.Of(kept.Account(), At(6, 2), Zone).Plans);
    }

    [Fact]
    public void Who_is_away_on_hatch_nights_is_told_so()
    {
        var away = WithBrood().Write(At(5, 8, 9), new KeeperLeft(At(6, 10)));
        var helped = WithBrood().Write(At(5, 8, 9), new KeeperLeft(At(6, 10), "Ada"));

        Assert.Equal(
            "plan-away-on-hatch-nights",
            Find(Plan(away, Early), ActionCodes.SomeoneAtHome).Reason.Code
        );
        Assert.Equal(
            "plan-hours-count-on-hatch-nights",
            Find(Plan(helped, Early), ActionCodes.SomeoneAtHome).Reason.Code
        );
    }

    internal static KeptJournal InTheSea() =>
        WithBrood()
            .Write(At(5, 22), new VesselSetUp(Jar, "Jar A", VesselRole.LarvalVessel, TypedNumber.Of(4, "L")))
            .Write(
                At(5, 24),
                new VesselFilled(Jar, Fill1, TypedNumber.Of(4, "L"), TypedNumber.Of(30, "sal:practical"))
            )
            .Write(At(5, 26, 7), new CollectionMade(Collection1, Brood1, Number: 120))
            .Write(At(5, 26, 9), new CrossingMade(Cohort1, Brood1, Jar, [Collection1], 118));

    private static PlannedAction Find(BackwardPlan plan, string code) =>
        plan.Actions.Single(action => action.Code == code);

    private static BackwardPlan Plan(KeptJournal kept, Instant now, PlanWishes? wishes = null) =>
        Outlook.Of(kept.Account(), now, Zone, wishes).PlanOf(Brood1);
}
