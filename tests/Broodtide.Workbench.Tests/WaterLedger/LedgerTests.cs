using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.WaterLedger;
using NodaTime;

namespace Broodtide.Workbench.Tests.WaterLedger;

public sealed class LedgerTests
{
    [Fact]
    public void A_fresh_filling_is_believed_as_written()
    {
        var ledger = new LedgerStory().Jars().Filled(0, 7.5, 31).Tell(0.01);

        Assert.Equal(31, ledger.SalinityPpt.Middle, 0.05);
        Assert.Equal(7.5, ledger.Litres.Middle, 0.01);
        Assert.InRange(ledger.SalinityPpt.Width, 0.5, 2.5);
    }

    [Fact]
    public void Salinity_rises_by_itself_and_the_day_of_leaving_the_band_is_told()
    {
        var story = new LedgerStory().Jars().Filled(0, 7.5, 31);
        for (var day = 1; day <= 6; day++)
        {
            story.Reads(day, 31 + (0.3 * day));
        }

        var ledger = story.Tell(6);

        var leaving = Assert.IsType<LeavingBand>(ledger.Leaving);
        Assert.True(leaving.TooSalty);
        Assert.Equal(34, leaving.LimitPpt);
        // At three tenths a day, 32.8 reaches 34 after four more days.
        Assert.InRange((leaving.Middle!.Value - ledger.Now).TotalDays, 2, 6.5);
        Assert.True(leaving.Earliest < leaving.Middle);
        Assert.True(leaving.Latest is null || leaving.Latest > leaving.Middle);
    }

    [Fact]
    public void A_top_up_is_fresh_water_in_gentle_portions_that_brings_the_target_back()
    {
        var ledger = new LedgerStory().Jars().Filled(0, 7, 33.8).Reads(0.5, 33.9).Tell(0.6);

        var topUp = Assert.IsType<TopUp>(ledger.TopUp);
        Assert.Equal(30, topUp.AfterPpt.Middle, 0.1);
        Assert.False(topUp.HeldByLine);
        // 3.9 ppt at no more than one at a time.
        Assert.Equal(4, topUp.Portions);
        // m (S0 / S1 - 1): 7 L at 33.9 need about 0.93 L of fresh water.
        Assert.InRange(topUp.Portions * topUp.Each.Litres, 0.85, 1.0);
    }

    [Fact]
    public void A_top_up_never_goes_over_the_working_line()
    {
        var ledger = new LedgerStory().Jars(7.2).Filled(0, 7, 33.8).Reads(0.5, 33.9).Tell(0.6);

        var topUp = Assert.IsType<TopUp>(ledger.TopUp);
        Assert.True(topUp.HeldByLine);
        Assert.True(topUp.AfterLitres.Middle <= 7.21);
    }

    [Fact]
    public void A_reading_that_does_not_fit_asks_for_a_second_before_any_top_up()
    {
        var ledger = new LedgerStory().Jars().Filled(0, 7, 33.8).Reads(1, 33.9).Reads(2, 28).Tell(2.1);

        Assert.Equal(ReadingFit.DoesNotFit, ledger.Rows[^1].Fit);
        Assert.Null(ledger.TopUp);
        Assert.Contains(ledger.Remarks, remark => remark.Code == "second-reading-first");
        Assert.InRange(ledger.SalinityPpt.Middle, 33, 35);
    }

    [Fact]
    public void A_second_reading_that_agrees_with_the_ledger_overrules_the_first()
    {
        var ledger = new LedgerStory()
            .Jars()
            .Filled(0, 7, 33.8)
            .Reads(1, 33.9)
            .Reads(2, 28)
            .Reads(2.1, 34)
            .Tell(2.2);

        Assert.Equal(ReadingFit.Overruled, ledger.Rows[^2].Fit);
        Assert.Equal(ReadingFit.Fits, ledger.Rows[^1].Fit);
        Assert.NotNull(ledger.TopUp);
    }

    [Fact]
    public void Two_readings_that_agree_with_each_other_move_the_ledger()
    {
        var ledger = new LedgerStory()
            .Jars()
            .Filled(0, 7, 33)
            .Reads(1, 33.1)
            .Reads(2, 28)
            .Reads(2.1, 28.2)
            .Tell(2.2);

        Assert.Equal(ReadingFit.Confirmed, ledger.Rows[^1].Fit);
        Assert.Equal(28.1, ledger.SalinityPpt.Middle, 0.6);
        Assert.Contains(ledger.Remarks, remark => remark.Code == "ledger-moved-by-two-readings");
    }

    [Fact]
    public void Water_poured_from_a_can_is_believed_jointly_with_the_can()
    {
        var story = new LedgerStory()
            .Jars()
            .At(
                0,
                new VesselFilled(
                    LedgerStory.Can,
                    new(Guid.Parse("00000000-0000-7000-8000-0000000000f2")),
                    TypedNumber.Of(10, "L"),
                    TypedNumber.Of(30, UnitCode.PracticalSalinity)
                )
            )
            .At(
                0.1,
                new VesselFilled(
                    LedgerStory.Jar,
                    new(Guid.Parse("00000000-0000-7000-8000-0000000000f1")),
                    TypedNumber.Of(6, "L"),
                    From: LedgerStory.Can
                )
            );
        Assert.Equal(30, story.Tell(0.2).SalinityPpt.Middle, 0.1);
        Assert.Equal(4, story.Tell(0.2, LedgerStory.Can).Litres.Middle, 0.1);

        // A reading of the jar tells of what is left in the can.
        story.Reads(0.3, 31);

        Assert.InRange(story.Tell(0.4, LedgerStory.Can).SalinityPpt.Middle, 30.2, 31);
    }

    [Fact]
    public void What_was_harvested_of_a_culture_has_left_it_with_its_salt()
    {
        var ledger = new LedgerStory()
            .Jars()
            .Filled(0, 7, 30)
            .At(0.1, new CultureHarvested(LedgerStory.Jar, TypedNumber.Of(2, "L")))
            .Tell(0.11);

        Assert.Equal(5, ledger.Rows[^1].Litres.Middle, 0.1);
        Assert.Equal(30, ledger.Rows[^1].SalinityPpt.Middle, 0.2);
    }

    [Fact]
    public void A_jar_nobody_filled_is_taken_as_wide_open_not_refused()
    {
        var ledger = new LedgerStory().Jars().Reads(1, 29).Tell(1.1);

        Assert.Contains(ledger.Remarks, remark => remark.Code == "start-unknown");
        Assert.Equal(29, ledger.SalinityPpt.Middle, 0.5);
    }

    [Fact]
    public void A_jar_filled_to_its_line_holds_its_capacity()
    {
        var ledger = new LedgerStory()
            .Jars()
            .Filled(0, 7.5, 31)
            .At(6, new WaterMoved(To: LedgerStory.Jar, ToLine: true))
            .Tell(6.01);

        Assert.Equal(8, ledger.Litres.Middle, 0.1);
        Assert.InRange(ledger.Litres.Width, 0.1, 0.6);
    }

    // Told by its earliest instant and placed in its middle, behind a reading that was told after it.
    [Fact]
    public void What_happened_some_time_in_a_night_does_not_turn_the_picture_back()
    {
        var topUp = new WaterMoved(null, LedgerStory.Jar, TypedNumber.Of(0.2, "L"));
        var ledger = new LedgerStory()
            .Jars()
            .Filled(0, 6, 30)
            .Between(1, 1.5, topUp)
            .Reads(1.1, 30.2)
            .Tell(3);

        Assert.True(ledger.Rows[1].When > ledger.Rows[2].When);
        Assert.Equal(ledger.Track.OrderBy(point => point.At), ledger.Track);
    }

    [Fact]
    public void What_is_written_down_for_the_future_has_not_happened()
    {
        var ledger = new LedgerStory().Jars().Filled(0, 7.5, 31).Reads(5, 36).Tell(1);

        Assert.Single(ledger.Rows);
    }

    [Fact]
    public void The_picture_reaches_past_now_and_only_widens_there()
    {
        var ledger = new LedgerStory().Jars().Filled(0, 7.5, 31).Reads(1, 31.2).Tell(2);

        var ahead = ledger.Track.Where(point => point.At >= ledger.Now).ToList();
        Assert.True(ahead[^1].At >= ledger.Now + Duration.FromDays(4));
        Assert.True(ahead[^1].SalinityPpt.Width > ahead[0].SalinityPpt.Width);
    }
}
