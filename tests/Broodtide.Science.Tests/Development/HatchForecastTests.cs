using Broodtide.Science.Development;
using static Broodtide.Science.Tests.Development.Broods;

namespace Broodtide.Science.Tests.Development;

public sealed class HatchForecastTests
{
    [Fact]
    public void Eggs_at_the_measured_temperature_hatch_about_when_they_were_measured_to()
    {
        // 637.5 degree-days at 25.5 degC: Cao et al. 2020, Prog. Fish. Sci. 41(1):145-152.
        var forecast = HatchForecast.From(Prior, Spawned().At(25.5, -1, 30));

        Assert.InRange(forecast.Median, 24.0, 25.0);
        Assert.False(forecast.IsContradictory);
        Assert.False(forecast.IsRough);
    }

    [Fact]
    public void Practice_reports_of_14_to_42_days_lie_inside_the_prior_at_an_uncontrolled_temperature()
    {
        // Keepers' reports at temperatures nobody measured; common practice.
        var forecast = HatchForecast.From(
            Prior,
            Of(new BroodFact.SeenEmpty(-0.1), new BroodFact.SeenBerried(0.1))
        );

        Assert.InRange(14, forecast.Quantile(0.005), forecast.Median);
        Assert.InRange(42, forecast.Median, forecast.Quantile(0.995));
        Assert.InRange(25, forecast.Window50.FromDay, forecast.Window50.ToDay);
        Assert.InRange(28, forecast.Window90.FromDay, forecast.Window90.ToDay);
        Assert.InRange(21, forecast.Window90.FromDay, forecast.Window90.ToDay);
        Assert.InRange(35, forecast.Window90.FromDay, forecast.Window90.ToDay);
    }

    [Fact]
    public void Warmer_water_means_an_earlier_hatch_and_colder_water_a_later_one()
    {
        var cold = HatchForecast.From(Prior, Spawned().At(22, -1, 30)).Median;
        var middle = HatchForecast.From(Prior, Spawned().At(25, -1, 30)).Median;
        var warm = HatchForecast.From(Prior, Spawned().At(28, -1, 30)).Median;

        Assert.True(warm < middle - 2 && middle < cold - 2, $"{warm} {middle} {cold}");
    }

    [Fact]
    public void The_windows_nest_and_the_nights_add_up_to_one()
    {
        var forecast = HatchForecast.From(Prior, Spawned(NotEyed(8), Eyed(14)).At(24, -1, 14));
        var nights = Enumerable
            .Range(-50, 250)
            .Sum(night => forecast.ProbabilityBetween(night - 0.5, night + 0.5).Value);

        Assert.Equal(1, nights, 9);
        Assert.True(forecast.Window90.FromDay < forecast.Window50.FromDay);
        Assert.True(forecast.Window50.ToDay < forecast.Window90.ToDay);
        Assert.Equal(
            0.9,
            forecast.ProbabilityBetween(forecast.Window90.FromDay, forecast.Window90.ToDay).Value,
            6
        );
        Assert.Equal(forecast.Days.Middle, forecast.Median);
    }

    [Fact]
    public void The_order_of_the_evidence_does_not_move_the_answer_at_all()
    {
        BroodFact[] facts =
        [
            new BroodFact.SeenEmpty(-2),
            new BroodFact.SeenBerried(0),
            NotEyed(6),
            NotEyed(9),
            Eyed(9),
            Eyed(14),
            new BroodFact.SaddleSeen(18),
            new BroodFact.StillCarried(18),
            Pale(20),
        ];
        var evidence = Of(facts).At(24.3, -2, 20);
        var expected = HatchForecast.From(Prior, evidence);
        var random = new Random(7);
        for (var i = 0; i < 5; i++)
        {
            var shuffled = evidence with
            {
                Facts = [.. facts.OrderBy(_ => random.Next())],
                Temperatures = [.. evidence.Temperatures.OrderBy(_ => random.Next())],
            };
            var found = HatchForecast.From(Prior, shuffled);

            Assert.Equal(expected.Days, found.Days);
            Assert.Equal(expected.Mean, found.Mean);
            Assert.Equal(expected.WrongLook, found.WrongLook);
        }
    }

    [Fact]
    public void A_female_that_still_carries_has_not_hatched()
    {
        var before = HatchForecast.From(Prior, Spawned().At(25, -1, 26));
        var after = HatchForecast.From(Prior, Spawned(new BroodFact.StillCarried(26)).At(25, -1, 26));

        Assert.True(before.ProbabilityBy(26).Value > 0.4);
        Assert.True(after.ProbabilityBy(25).Value < 0.05);
        Assert.True(after.Median > 26);
    }

    [Fact]
    public void Early_eyes_move_the_hatch_earlier_and_late_eyes_later()
    {
        var early = HatchForecast.From(Prior, Spawned(NotEyed(5), Eyed(7)).At(25, -1, 7)).Median;
        var late = HatchForecast.From(Prior, Spawned(NotEyed(17), Eyed(19)).At(25, -1, 19)).Median;

        Assert.True(early + 2 < late, $"{early} {late}");
    }

    [Fact]
    public void Pale_eggs_mean_days_and_not_weeks()
    {
        var forecast = HatchForecast.From(Prior, Spawned(NotEyed(8), Eyed(15), Pale(21)).At(25, -1, 21));

        Assert.InRange(forecast.Median, 21.5, 24);
        Assert.True(forecast.Window90.Days < 5.5, $"{forecast.Window90}");
    }

    [Fact]
    public void A_new_saddle_moves_the_hatch_nearer()
    {
        var without = HatchForecast.From(Prior, Spawned(new BroodFact.StillCarried(17)).At(24, -1, 17));
        var with = HatchForecast.From(
            Prior,
            Spawned(new BroodFact.StillCarried(17), new BroodFact.SaddleSeen(17)).At(24, -1, 17)
        );

        Assert.True(with.Median < without.Median - 0.3, $"{with.Median} {without.Median}");
    }

    [Fact]
    public void First_larvae_end_the_question()
    {
        var forecast = HatchForecast.From(
            Prior,
            Spawned(Eyed(15), new BroodFact.FirstLarvae(23.5, 24.5), new BroodFact.StillCarried(25))
                .At(25, -1, 25)
        );

        Assert.InRange(forecast.Window90.FromDay, 23.2, 24.8);
        Assert.InRange(forecast.Window90.ToDay, 23.2, 24.8);
        Assert.False(forecast.IsContradictory);
    }

    [Fact]
    public void Berried_when_bought_leaves_every_age_open_until_the_eggs_tell()
    {
        var bought = Of(new BroodFact.SeenBerried(0)) with { AgeUnknown = true };
        var blind = HatchForecast.From(Prior, bought);
        var seen = HatchForecast.From(
            Prior,
            bought with
            {
                Facts = [.. bought.Facts, NotEyed(0), NotEyed(5), Eyed(8)],
            }
        );

        Assert.InRange(blind.Median, 9, 16);
        Assert.True(blind.ProbabilityBy(3).Value > 0.05);
        Assert.True(blind.SpawningDays.Width > 15);
        Assert.True(seen.Median > 13, $"{seen.Median}");
        Assert.True(seen.SpawningDays.Width < blind.SpawningDays.Width);
    }

    [Fact]
    public void One_wrong_look_among_many_hardly_moves_the_answer()
    {
        BroodFact[] right = [NotEyed(5), NotEyed(8), NotEyed(10), Eyed(14), Eyed(16), Eyed(18)];
        var clean = HatchForecast.From(Prior, Spawned(right).At(25, -1, 18));
        var soiled = HatchForecast.From(Prior, Spawned([.. right, NotEyed(17)]).At(25, -1, 18));

        Assert.InRange(soiled.Median, clean.Median - 0.5, clean.Median + 0.5);
        Assert.True(soiled.WrongLook.Value > 0.9);
        Assert.True(clean.WrongLook.Value < 0.1, $"{clean.WrongLook}");
    }

    [Fact]
    public void Contradictory_evidence_stays_finite_and_is_flagged()
    {
        BroodEvidence[] mad =
        [
            Spawned(Eyed(1), NotEyed(20), Pale(2), new BroodFact.StillCarried(39)),
            Spawned(new BroodFact.StillCarried(95)),
            Spawned(new BroodFact.StillCarried(5000)),
            Spawned(new BroodFact.FirstLarvae(2, 2.5)),
            Spawned(new BroodFact.SeenEmpty(5), new BroodFact.StillCarried(12), Pale(3)),
            Of(new BroodFact.SeenBerried(0), Eyed(0), NotEyed(40), NotEyed(41), NotEyed(42)),
        ];
        foreach (var evidence in mad)
        {
            var forecast = HatchForecast.From(Prior, evidence);

            Assert.True(double.IsFinite(forecast.Mean) && forecast.StandardDeviation > 0);
            Assert.True(forecast.IsContradictory || forecast.IsRough, $"{forecast.WrongLook}");
            Assert.Equal(1, forecast.ProbabilityBy(forecast.LastDay).Value);
        }
    }

    [Fact]
    public void Known_midnights_gather_the_hatch_in_the_dark_without_moving_the_nights()
    {
        var anyHour = Spawned(Eyed(15)).At(25, -1, 15);
        var plain = HatchForecast.From(Prior, anyHour);
        var dark = HatchForecast.From(Prior, anyHour with { MidnightPhase = 0 });

        for (var night = 21; night < 28; night++)
        {
            Assert.Equal(
                plain.ProbabilityBetween(night - 0.5, night + 0.5).Value,
                dark.ProbabilityBetween(night - 0.5, night + 0.5).Value,
                2
            );
            Assert.True(
                dark.ProbabilityBetween(night - 0.25, night + 0.25).Value
                    > 3 * dark.ProbabilityBetween(night + 0.25, night + 0.75).Value
            );
        }
    }

    [Fact]
    public void Dropped_eggs_are_marked_and_still_have_a_day()
    {
        var forecast = HatchForecast.From(Prior, Spawned(Eyed(15), new BroodFact.Dropped(18)).At(25, -1, 18));

        Assert.True(forecast.IsOffMother);
        Assert.Equal(18, forecast.DroppedDay);
        Assert.InRange(forecast.Median, 19, 28);
    }

    [Fact]
    public void It_says_which_assumed_temperature_matters()
    {
        var future = HatchForecast.From(Prior, Spawned().At(25, -1, 8)).Temperature;
        var past = HatchForecast
            .From(Prior, Spawned(new BroodFact.StillCarried(20)).At(25, 18, 20))
            .Temperature;
        var none = HatchForecast.From(Prior, Spawned().At(25, -2, 40)).Temperature;

        Assert.Equal(AssumedStretch.Future, future.MattersMost);
        Assert.InRange(future.DaysEarlierPerCelsius, 0.3, 1.2);
        Assert.Equal(AssumedStretch.Past, past.MattersMost);
        Assert.True(past.AssumedPastDays > 12);
        Assert.Equal(AssumedStretch.None, none.MattersMost);
    }

    [Fact]
    public void Evidence_without_eggs_is_a_programmers_mistake()
    {
        Assert.Throws<InvalidOperationException>(() =>
            HatchForecast.From(Prior, Of(new BroodFact.SeenEmpty(0)))
        );
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            HatchForecast.From(Prior, Of(new BroodFact.SeenBerried(double.NaN)))
        );
        Assert.Throws<ArgumentOutOfRangeException>(() => HatchForecast.From(Prior, Spawned(), 5));
    }

    [Fact]
    public void A_finer_grid_gives_the_same_answer()
    {
        var evidence = Spawned(NotEyed(9), Eyed(13), new BroodFact.StillCarried(19)).At(24, -1, 19);
        var coarse = HatchForecast.From(Prior, evidence);
        var fine = HatchForecast.From(Prior, evidence, 0.02);

        Assert.Equal(fine.Days.Low, coarse.Days.Low, 0.06);
        Assert.Equal(fine.Days.Middle, coarse.Days.Middle, 0.03);
        Assert.Equal(fine.Days.High, coarse.Days.High, 0.03);
    }
}
