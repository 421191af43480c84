using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Development;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Species;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Hatching;

public class BroodForecastTests
{
    private static readonly SpeciesProfile Profile = SpeciesProfiles.Reference;

    [Fact]
    public void At_the_measured_temperature_the_median_is_the_measured_number_of_days()
    {
        // 637.5 degree-days at 25.5 degC: Cao et al. 2020, Prog. Fish. Sci. 41(1):145-152, abstract.
        var forecast = Forecast(WithBrood(), At(5, 14, 18));

        var days = (forecast.Median - forecast.Spawning.Middle).TotalDays;
        Assert.InRange(days, 23.5, 26.5);
        Assert.True(forecast.Window90.From < forecast.Window50.From);
        Assert.True(forecast.Window50.To < forecast.Window90.To);
    }

    [Fact]
    public void Nights_run_from_noon_to_noon_without_gaps_and_hold_nearly_all_probability()
    {
        var forecast = Forecast(WithBrood(), At(5, 14, 18));

        for (var i = 1; i < forecast.Nights.Count; i++)
        {
            Assert.Equal(forecast.Nights[i - 1].To, forecast.Nights[i].From);
            Assert.Equal(forecast.Nights[i - 1].Evening.PlusDays(1), forecast.Nights[i].Evening);
        }

        Assert.All(
            forecast.Nights,
            night => Assert.Equal(new LocalTime(12, 0), night.From.InZone(Zone).TimeOfDay)
        );
        Assert.InRange(forecast.Nights.Sum(night => night.Chance.Value), 0.985, 1.0001);
    }

    [Fact]
    public void Warmer_water_where_she_lives_brings_the_hatch_forward()
    {
        var warm = Forecast(WithBrood(28), At(5, 14, 18));
        var cool = Forecast(WithBrood(23), At(5, 14, 18));

        Assert.True((cool.Median - warm.Median).TotalDays > 2);
    }

    [Fact]
    public void Only_the_temperatures_of_vessels_she_was_in_count()
    {
        var kept = WithBrood(readingDays: 0)
            .Write(At(5, 2), new VesselSetUp(Box, "Box", VesselRole.HatchingBox))
            .Write(At(5, 3, 9), Reading(24, Tank))
            .Write(At(5, 4, 9), Reading(30, Box))
            .Write(At(5, 5, 9), new AnimalMoved(Female, Box))
            .Write(At(5, 6, 9), Reading(25, Box))
            .Write(At(5, 7, 9), Reading(30, Tank));

        var forecast = Forecast(kept, At(5, 14, 18));

        Assert.Equal(2, forecast.Warmth.ReadingCount);
    }

    [Fact]
    public void A_thermometer_that_shows_too_much_is_read_again_from_the_day_its_fault_holds()
    {
        var kept = WithBrood(readingDays: 0);
        var right = WithBrood(readingDays: 0);
        for (var day = 3; day < 10; day++)
        {
            kept.Write(At(5, day, 9), new ReadingTaken(TypedNumber.Of(27.5, "Cel"), Tank, Thermometer));
            right.Write(At(5, day, 9), Reading(25.5, Tank));
        }

        kept.Write(
            At(5, 11),
            new InstrumentCalibrated(
                Thermometer,
                TypedNumber.Of(27, "Cel"),
                TypedNumber.Of(25, "Cel"),
                HoldsFrom: At(4, 1)
            )
        );

        var now = At(5, 14, 18);
        Assert.Equal(Forecast(right, now).Posterior.Median, Forecast(kept, now).Posterior.Median, 1e-9);
    }

    [Fact]
    public void Without_readings_the_setting_of_her_heater_is_assumed_and_said()
    {
        var kept = WithBrood(readingDays: 0)
            .Write(At(5, 3), new HeaterChanged(Tank, true, TypedNumber.Of(26, "Cel")));

        var warmth = Forecast(kept, At(5, 14, 18)).Warmth;

        Assert.Equal(WarmthSource.HeaterSetting, warmth.Source);
        Assert.Equal(26, warmth.Mean.Celsius);
        Assert.Equal(
            WarmthSource.UnmeasuredRoom,
            Forecast(WithBrood(readingDays: 0), At(5, 14, 18)).Warmth.Source
        );
    }

    [Fact]
    public void It_waits_for_signs_and_isolates_once_the_eggs_are_pale()
    {
        var early = Forecast(WithBrood(), At(5, 14, 18));
        var pale = Forecast(
            WithBrood().Write(At(5, 22, 21), new EggsObserved(Brood1, true, true, EggColour.Pale)),
            At(5, 22, 22)
        );

        Assert.Equal(IsolationCode.WaitForSigns, early.Isolation.Code);
        Assert.Contains(pale.Isolation.Code, new[] { IsolationCode.IsolateNow, IsolationCode.IsolateOn });
        Assert.True(pale.Window90.Days < early.Window90.Days);
    }

    [Fact]
    public void Both_risks_are_told_evening_by_evening_one_rising_and_one_falling()
    {
        var evenings = Forecast(WithBrood(), At(5, 20, 10)).Isolation.Evenings;

        Assert.Equal(new LocalDate(2026, 5, 20), evenings[0].Evening);
        Assert.Equal(At(5, 20, 18), evenings[0].At);
        for (var i = 1; i < evenings.Count; i++)
        {
            Assert.True(evenings[i].LarvaeFirst >= evenings[i - 1].LarvaeFirst);
            Assert.True(evenings[i].HarmInBox <= evenings[i - 1].HarmInBox);
        }
    }

    [Fact]
    public void What_moved_since_yesterday_is_told_with_its_strongest_reason_first()
    {
        var kept = WithBrood().Write(At(5, 22, 21), new EggsObserved(Brood1, true, true, EggColour.Pale));

        var moved = Forecast(kept, At(5, 22, 22)).Moved;

        Assert.NotNull(moved);
        Assert.Equal(At(5, 21), moved.Since);
        Assert.NotEqual(0, moved.LaterByDays);
        Assert.Equal(ChangeCode.Pale, moved.Reasons[0].Code);
    }

    [Fact]
    public void Nothing_moved_where_nothing_new_was_written()
    {
        var moved = Forecast(WithBrood(), At(5, 20, 10)).Moved;

        Assert.NotNull(moved);
        Assert.Equal(0, moved.LaterByDays);
        Assert.Empty(moved.Reasons);
    }

    [Fact]
    public void An_entry_written_today_of_last_week_counts_as_news()
    {
        var kept = WithBrood()
            .Write(At(5, 13, 21), new EggsObserved(Brood1, true, true), written: At(5, 20, 9));

        var moved = Forecast(kept, At(5, 20, 10)).Moved;

        Assert.Contains(moved!.Reasons, reason => reason.Code == ChangeCode.Eyed);
    }

    [Fact]
    public void A_look_for_eyed_eggs_is_worth_something_before_it_is_made()
    {
        var worth = Forecast(WithBrood(), At(5, 12, 21)).WorthOfALook;

        Assert.NotNull(worth);
        Assert.InRange(worth.Eyed.Value, 0.05, 0.95);
        Assert.True(worth.ExpectedDays < worth.NowDays);
    }

    [Fact]
    public void Larvae_seen_in_the_morning_came_in_the_night_before()
    {
        var kept = WithBrood().Write(At(5, 26, 7), new HatchingSeen(Brood1, Tank));

        var forecast = Forecast(kept, At(5, 26, 8));

        Assert.NotNull(forecast.SeenHatching);
        Assert.InRange(forecast.Median, At(5, 25, 12), At(5, 26, 7));
        Assert.Null(forecast.WorthOfALook);
    }

    [Fact]
    public void Larvae_now_and_nothing_else_known_gives_the_night_before()
    {
        var kept = new KeptJournal().Write(At(5, 26, 7), new HatchingSeen(Brood1));

        var forecast = Forecast(kept, At(5, 26, 8));

        Assert.InRange(forecast.Median, At(5, 25, 12), At(5, 26, 8));
        Assert.Equal(IsolationCode.LookForLarvae, forecast.Isolation.Code);
    }

    [Fact]
    public void A_female_bought_berried_has_a_wide_window()
    {
        var bought = new KeptJournal()
            .Write(At(5, 2), new VesselSetUp(Tank, "Tank", VesselRole.BroodTank))
            .Write(At(5, 2), new AnimalAcquired(Female, "F1", Vessel: Tank))
            .Write(At(5, 2), new AnimalSeenBerried(Female, Brood1, "Brood 1", AgeUnknown: true));

        var wide = Forecast(bought, At(5, 3)).Window90.Days;

        Assert.True(wide > 1.5 * Forecast(WithBrood(), At(5, 3)).Window90.Days);
    }

    [Fact]
    public void What_is_still_to_come_never_lies_before_now()
    {
        var now = At(5, 29, 9);
        var forecast = Forecast(WithBrood(), now);

        Assert.True(forecast.StillToCome(0.05) >= now);
        Assert.True(forecast.StillToCome(0.05) <= forecast.StillToCome(0.5));
        Assert.True(forecast.StillToCome(0.95) <= forecast.StillToCome(1));
    }

    [Fact]
    public void A_brood_of_which_nothing_was_seen_has_no_forecast() =>
        Assert.Null(
            BroodForecast.Of(
                new KeptJournal().House(),
                new KeptJournal().House().Brood(Brood1),
                Profile,
                At(5, 1),
                Zone
            )
        );

    [Fact]
    public void The_order_of_arrival_does_not_matter()
    {
        var kept = WithBrood().Write(At(5, 22, 21), new EggsObserved(Brood1, true, true, EggColour.Lighter));
        var now = At(5, 23);
        var house = new House(Account.Of(kept.Entries.Reverse()));

        var backward = BroodForecast.Of(house, house.Brood(Brood1), Profile, now, Zone)!;

        Assert.Equal(Forecast(kept, now).Posterior.Median, backward.Posterior.Median);
    }

    private static ReadingTaken Reading(double celsius, VesselId vessel) =>
        new(TypedNumber.Of(celsius, "Cel"), vessel);

    private static BroodForecast Forecast(KeptJournal kept, Instant now)
    {
        var house = kept.House();
        return BroodForecast.Of(house, house.Brood(Brood1), Profile, now, Zone)!;
    }
}
