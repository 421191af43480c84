using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Workbench.Safety;
using Broodtide.Workbench.Safety.Advising;
using Broodtide.Workbench.Safety.Mending;
using Broodtide.Workbench.Species;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Safety;

/// <summary>Mends and advice are run forward before they are shown.</summary>
public sealed class VesselMendingTests
{
    private static readonly Domain.VesselId Can = new(Fixed(77));
    private static readonly Domain.FillId CanFill = new(Fixed(78));

    private static KeptJournal Jars(bool air = false) =>
        new KeptJournal()
            .Write(
                At(6, 1, 8),
                new VesselSetUp(Jar, "Jar A", VesselRole.LarvalVessel, TypedNumber.Of(7, "L"))
            )
            .Write(
                At(6, 1, 9),
                new VesselFilled(
                    Jar,
                    Fill1,
                    TypedNumber.Of(6, "L"),
                    TypedNumber.Of(30, "sal:practical"),
                    TypedNumber.Of(26, "Cel")
                )
            )
            .Write(At(6, 1, 9, 20), new AirChanged(Jar, air))
            .Write(At(6, 1, 9, 30), new LightChanged(Jar, true, 12, TypedNumber.Of(60, "umol/m2/s")));

    private static KeptJournal Fed(KeptJournal journal, double milligrams, int untilDay)
    {
        for (var day = 2; day <= untilDay; day++)
        {
            journal.Write(
                At(6, day, 20),
                new VesselFed(Jar, FoodKind.Yeast, Mass: TypedNumber.Of(milligrams, "mg"))
            );
        }

        return journal;
    }

    private static KeptJournal Read(KeptJournal journal, Instant at, double value, string unit) =>
        journal.Write(at, new ReadingTaken(TypedNumber.Of(value, unit), Jar));

    private static Outlook Seen(KeptJournal journal, Instant now) => Outlook.Of(journal.Account(), now, Zone);

    [Fact]
    public void Want_of_oxygen_in_still_water_is_mended_by_air_and_no_more_food()
    {
        // The first evening on which want of oxygen is as likely as not.
        var outlook = Enumerable
            .Range(2, 8)
            .Select(day => Seen(Fed(Jars(), 90, day), At(6, day, 21)))
            .First(seen =>
                seen.SafetyOf(Jar)!
                    .Limits.Any(limit =>
                        limit.Limit is { Quantity: LimitedQuantity.Oxygen, IsDanger: true }
                        && limit.Level >= SafetyLevel.Warning
                    )
            );

        var mend = outlook.MendOf(Jar)!;

        Assert.True(
            mend.Acts.Any(act => act is MendAct.LeadAir),
            string.Join("; ", mend.Acts)
                + " "
                + string.Join("; ", mend.Limits)
                + string.Join("; ", mend.Remarks)
        );
        Assert.IsType<MendAct.NoFood>(mend.Acts[0]);
        var oxygen = mend.Limits.Single(limit =>
            limit.Limit is { Quantity: LimitedQuantity.Oxygen, IsDanger: true }
        );
        Assert.True(oxygen.AsItIs.Value >= 0.5);
        Assert.True(oxygen.Mended.Value < 0.2);
    }

    [Fact]
    public void Much_ammonia_is_mended_by_changing_water_of_the_vessels_own_salinity()
    {
        var journal = Fed(Jars(air: true), 20, 9);
        Read(journal, At(6, 9, 19), 2.2, "mg/L{TAN-N}");
        Read(journal, At(6, 9, 19, 5), 8.2, "[pH]");
        var outlook = Seen(journal, At(6, 9, 21));

        var mend = outlook.MendOf(Jar)!;

        var change = Assert.IsType<MendAct.ChangeWater>(mend.Acts.First(act => act is MendAct.ChangeWater));
        Assert.Equal(outlook.LedgerOf(Jar)!.SalinityPpt.Middle, change.Salinity.Practical, 0.6);
        Assert.Equal(change.Share.Value * outlook.LedgerOf(Jar)!.Litres.Middle, change.Volume.Litres, 0.1);
        var ammonia = mend.Limits.Single(limit => limit.Limit.Quantity is LimitedQuantity.UnionisedAmmonia);
        Assert.True(ammonia.Mended.Value < ammonia.AsItIs.Value);
    }

    // 4 units of salinity away: half of the water at once would be two units, the step allowed is one.
    [Fact]
    public void A_change_that_would_move_salinity_over_a_unit_at_once_is_split_or_the_water_is_corrected_first()
    {
        var journal = Fed(Jars(air: true), 20, 9)
            .Write(At(6, 1, 8), new VesselSetUp(Can, "Can", VesselRole.Store, TypedNumber.Of(20, "L")))
            .Write(
                At(6, 1, 9),
                new VesselFilled(
                    Can,
                    CanFill,
                    TypedNumber.Of(15, "L"),
                    TypedNumber.Of(34, "sal:practical"),
                    TypedNumber.Of(26, "Cel")
                )
            );
        Read(journal, At(6, 9, 19), 2.5, "mg/L{TAN-N}");
        Read(journal, At(6, 9, 19, 5), 8.2, "[pH]");
        var outlook = Seen(journal, At(6, 9, 21));

        var mend = outlook.MendOf(Jar)!;

        var changes = mend.Acts.OfType<MendAct.ChangeWater>().ToList();
        Assert.NotEmpty(changes);
        var vessel = outlook.LedgerOf(Jar)!.SalinityPpt.Middle;
        foreach (var change in changes)
        {
            var moved = change.Share.Value * Math.Abs(change.Salinity.Practical - vessel);
            Assert.True(moved <= 1.0 + 1e-9, $"{moved} at once");
            vessel += change.Share.Value * (change.Salinity.Practical - vessel);
        }
    }

    // Much ammonia in water that has turned acid: new water lifts the pH, and the poison with it.
    [Fact]
    public void No_change_is_shown_that_raises_unionised_ammonia()
    {
        var journal = Fed(Jars(), 58, 8);
        Read(journal, At(6, 8, 19), 9, "mg/L{TAN-N}");
        Read(journal, At(6, 8, 19, 5), 7.3, "[pH]");
        var outlook = Seen(journal, At(6, 8, 21));
        var run = outlook.SafetyOf(Jar)!.Run!;
        // The danger is there: half of the water changed at once does raise it.
        var hour = run.Story.Scene.Hours[run.Story.NowHour];
        var litres = Units.Volume.FromLitres(hour.Water.Litres / 2);
        var half = run.With(
            run.Story.Scene with
            {
                Events =
                [
                    .. run.Story.Scene.Events,
                    new VesselEvent.WaterMoved(run.Story.NowHour, litres, litres, IncomingWater.Clean),
                ],
            }
        );
        Assert.True(Highest(half) > 1.05 * Highest(run.Ahead), $"{Highest(half)} and {Highest(run.Ahead)}");

        var mend = outlook.MendOf(Jar)!;

        Assert.True(Highest(mend.Ahead) <= (1.02 * Highest(run.Ahead)) + 0.001);
    }

    [Fact]
    public void Nothing_is_mended_where_nothing_is_amiss() =>
        Assert.Null(Seen(Jars(air: true), At(6, 2, 9)).MendOf(Jar));

    [Fact]
    public void A_clear_vessel_is_advised_green_water_and_a_green_one_none()
    {
        var clear = Dose(Seen(Jars(air: true), At(6, 2, 9)));
        Assert.True(clear.Cells.Middle > 0);
        // 6 L up to 75,000 cells/mL.
        Assert.InRange(clear.Cells.Middle, 0.7 * 4.5e8, 4.6e8);

        var green = Jars(air: true)
            .Write(
                At(6, 1, 12),
                new VesselFed(
                    Jar,
                    FoodKind.GreenWater,
                    TypedNumber.Of(700, "mL"),
                    Density: TypedNumber.Of(1e6, "{cells}/mL"),
                    Salinity: TypedNumber.Of(30, "sal:practical")
                )
            );
        var dose = Dose(Seen(green, At(6, 1, 13)));
        Assert.Equal(0, dose.Cells.Middle);
        Assert.Equal("advice-algae-enough", dose.Why.Code);
    }

    [Fact]
    public void A_ration_in_still_water_is_never_more_than_two_milligrams_a_litre()
    {
        var outlook = Seen(Fed(Jars(), 6, 4), At(6, 5, 9));
        var ration = outlook.AdviceOf(Jar)!.Lines.OfType<Advice.Ration>().Single();

        Assert.Equal(FoodKind.Yeast, ration.Food);
        Assert.InRange(ration.DryMilligrams, 0, 2 * outlook.LedgerOf(Jar)!.Litres.High);
        Assert.True(ration.SafeMilligrams.Low <= ration.SafeMilligrams.High);
    }

    [Fact]
    public void After_much_yeast_none_is_advised()
    {
        var ration = Seen(Fed(Jars(), 58, 8), At(6, 8, 21))
            .AdviceOf(Jar)!
            .Lines.OfType<Advice.Ration>()
            .Single();

        Assert.Equal(0, ration.DryMilligrams);
        Assert.Equal("advice-ration-none", ration.Why.Code);
    }

    private static Advice.Algae Dose(Outlook outlook) =>
        outlook.AdviceOf(Jar)!.Lines.OfType<Advice.Algae>().Single();

    private static double Highest(VesselTraces traces) =>
        MemberQuantiles
            .Of(traces.Extremes(VesselQuantity.UnionisedAmmonia, 1, 6, highest: true).ToArray())
            .Middle;
}
