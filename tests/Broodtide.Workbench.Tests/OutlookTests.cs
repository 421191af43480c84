using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Units;
using Broodtide.Workbench.Mixing;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.Tests.Planning;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests;

public class OutlookTests
{
    [Fact]
    public void A_refractometer_that_shows_a_ppt_too_much_is_corrected_from_the_day_it_holds_and_once()
    {
        var house = new KeptJournal()
            .Write(At(5, 1), Described(InstrumentKind.Refractometer, "sal:practical"))
            .Write(
                At(5, 10),
                new InstrumentCalibrated(
                    Refractometer,
                    TypedNumber.Of(36, "sal:practical"),
                    TypedNumber.Of(35, "sal:practical"),
                    TypedNumber.Of(20, "Cel")
                )
            )
            .House();
        var meaning = WaterMeanings.Of(house, SaltProduct.Unmeasured);
        var reading = new ReadingTaken(
            TypedNumber.Of(33, "sal:practical"),
            Jar,
            Refractometer,
            TypedNumber.Of(20, "Cel")
        );

        var before = meaning.Reading(reading, At(5, 9))!.Value.Salinity.Practical;
        var after = meaning.Reading(reading, At(5, 11))!.Value.Salinity.Practical;

        Assert.Equal(1, before - after, 0.1);
        var known = Assert.IsType<ReadingMeaning.Known>(
            WaterMeanings.Of(house, reading, At(5, 11), SaltProduct.Unmeasured)
        );
        Assert.Single(known.Corrections, c => c.Code == ReadingCorrectionCode.Calibration);
    }

    [Fact]
    public void An_instrument_set_right_after_its_check_needs_no_correction()
    {
        var house = new KeptJournal()
            .Write(At(5, 1), Described(InstrumentKind.ConductivityMeter, "sal:practical"))
            .Write(
                At(5, 2),
                new InstrumentCalibrated(
                    Refractometer,
                    TypedNumber.Of(38, "sal:practical"),
                    TypedNumber.Of(35, "sal:practical"),
                    Adjusted: true
                )
            )
            .House();
        var reading = new ReadingTaken(TypedNumber.Of(33, "sal:practical"), Jar, Refractometer);

        Assert.Equal(
            33,
            WaterMeanings
                .Of(house, SaltProduct.Unmeasured)
                .Reading(reading, At(5, 3))!
                .Value.Salinity.Practical,
            1e-6
        );
    }

    [Theory]
    [InlineData(100, "sal:percent-sea", 35)]
    [InlineData(19.374, "sal:chlorinity", 35)]
    [InlineData(35.16504, "sal:g/kg", 35)]
    public void A_typed_salinity_on_any_scale_is_the_same_water(double value, string unit, double practical)
    {
        // Percent of S 35; S = 1.80655 Cl; absolute salinity 35.16504 g/kg at S 35 (Millero et al. 2008).
        var meaning = WaterMeanings.Of(new KeptJournal().House(), SaltProduct.Unmeasured);

        var read = meaning.Typed(TypedNumber.Of(value, unit), Temperature.FromCelsius(25))!.Value;

        Assert.Equal(practical, read.Salinity.Practical, 0.01);
        Assert.True(read.Sd > 0);
    }

    [Fact]
    public void A_specific_gravity_without_reference_is_no_salinity_and_one_with_an_instruments_reference_is()
    {
        var bare = WaterMeanings.Of(new KeptJournal().House(), SaltProduct.Unmeasured);
        var reading = new ReadingTaken(
            TypedNumber.Of(1.0233, "sal:sg"),
            Jar,
            Refractometer,
            TypedNumber.Of(25, "Cel")
        );
        Assert.Null(bare.Reading(reading, At(5, 3)));

        var house = new KeptJournal()
            .Write(At(5, 1), Described(InstrumentKind.Hydrometer, "sal:sg-25/25"))
            .House();
        var read = WaterMeanings.Of(house, SaltProduct.Unmeasured).Reading(reading, At(5, 3));
        // Sea water of S 31 has 1020.25 kg/m3 at 25 degC, pure water 997.05 (UNESCO 1981): 1.0233.
        Assert.Equal(31, read!.Value.Salinity.Practical, 0.5);
    }

    [Fact]
    public void A_choice_in_the_journal_changes_what_vessels_are_kept_to_and_retracting_it_undoes_that()
    {
        var kept = BackwardPlanTests
            .InTheSea()
            .Write(
                At(5, 27),
                new ProfileValueChosen(
                    "Caridina multidentata",
                    "larval-salinity-target",
                    "{practical}",
                    Value: 32,
                    Reason: "worked last time"
                )
            );
        var outlook = Outlook.Of(kept.Account(), At(5, 28), Zone);

        Assert.Equal(32, outlook.Profiles.BandOf(outlook.House.Vessel(Jar))!.Target.Practical);
        Assert.Equal(
            30,
            Outlook
                .Of(kept.Account(At(5, 26, 12)), At(5, 28), Zone)
                .Profiles.Of(Brood1)
                .LarvalSalinityTarget.Practical
        );
        Assert.DoesNotContain(
            outlook.Conflicts,
            remark => remark.Code.StartsWith("profile-choice", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void A_choice_that_cannot_stand_is_a_conflict_and_changes_nothing()
    {
        var kept = BackwardPlanTests
            .InTheSea()
            .Write(
                At(5, 27),
                new ProfileValueChosen("Caridina multidentata", "no-such-thing", "d", 3, Reason: "why not")
            )
            .Write(At(5, 27), new ProfileValueChosen("Homo sapiens", "larval-days", "d", 3, Reason: "no"))
            .Write(At(5, 27), new RunStarted(Run1, Brood1, "Run 1", "Homo sapiens"));
        var outlook = Outlook.Of(kept.Account(), At(5, 28), Zone);

        Assert.Contains(outlook.Conflicts, remark => remark.Code == "profile-choice-unknown-quantity");
        Assert.Contains(outlook.Conflicts, remark => remark.Code == "profile-choice-unknown-species");
        Assert.Contains(outlook.Conflicts, remark => remark.Code == "species-without-profile");
        Assert.NotEmpty(outlook.Due.Items);
    }

    [Fact]
    public void Steps_end_even_if_nobody_runs_them()
    {
        var outlook = Outlook.Of(WithBrood().Account(), At(5, 14, 18), Zone);

        Assert.True(outlook.Steps().Count() > 20);
    }

    [Fact]
    public void A_forecast_in_pieces_is_the_same_to_the_last_digit()
    {
        var pieces = Outlook.Of(WithBrood().Account(), At(5, 14, 18), Zone);
        foreach (var step in pieces.Steps())
        {
            step();
        }

        var whole = Outlook.Of(WithBrood().Account(), At(5, 14, 18), Zone).ForecastOf(Brood1)!;
        Assert.Equal(whole.Median, pieces.ForecastOf(Brood1)!.Median);
        Assert.Equal(whole.Nights, pieces.ForecastOf(Brood1)!.Nights);
        Assert.Equal(whole.WorthOfALook, pieces.ForecastOf(Brood1)!.WorthOfALook);
    }

    [Fact]
    public void A_forecast_is_written_down_once_a_day_and_run()
    {
        var now = At(5, 14, 18);
        var kept = WithBrood().Write(At(5, 3), new RunStarted(Run1, Brood1, "Run 1"));
        var issued = Assert.Single(Foretelling.Unwritten(Outlook.Of(kept.Account(), now, Zone), "0.1.0"));

        Assert.Equal("2026-05-14", issued.Day);
        Assert.True(issued.Low < issued.Middle && issued.Middle < issued.High);
        Assert.Equal(At(5, 13, 9), issued.KnownUntil);

        kept.Write(now, issued);
        Assert.Empty(Foretelling.Unwritten(Outlook.Of(kept.Account(), now, Zone), "0.1.0"));
        Assert.Single(Foretelling.Unwritten(Outlook.Of(kept.Account(), At(5, 15), Zone), "0.1.0"));
    }

    [Fact]
    public void Every_code_that_is_said_is_on_the_list_of_codes()
    {
        KeptJournal[] tellings =
        [
            WithBrood(),
            new KeptJournal().Write(At(5, 26, 7), new HatchingSeen(Brood1)),
            BackwardPlanTests.InTheSea(),
            WithBrood().Write(At(5, 10), new EggsDropped(Brood1, Box)),
            WithBrood().Write(At(5, 12, 21), new EggsObserved(Brood1, true, true, EggColour.Pale)),
        ];
        foreach (var kept in tellings)
        {
            foreach (var now in new[] { At(5, 12, 22), At(5, 26, 9), At(6, 4), At(6, 28) })
            {
                var outlook = Outlook.Of(kept.Account(), now, Zone, new PlanWishes { Sterilise = true });
                var said = outlook
                    .Plans.SelectMany(plan => plan.Actions)
                    .Concat(outlook.Due.Items.Select(item => item.Action))
                    .SelectMany(action =>
                        action.Amounts.Append(action.Reason).Append(action.IfItSlips ?? action.Reason)
                    )
                    .Concat(outlook.Forecasts.SelectMany(forecast => forecast.Remarks));
                Assert.All(said, remark => Assert.Contains(remark.Code, PlanRemarks.All));
            }
        }
    }

    private static InstrumentDescribed Described(InstrumentKind kind, string scale) =>
        new(Refractometer, "Instrument", kind, scale, Compensated: true);
}
