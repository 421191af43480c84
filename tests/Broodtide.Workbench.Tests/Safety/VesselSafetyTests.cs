using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Workbench.Safety;
using Broodtide.Workbench.Species;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;
using FilmCover = Broodtide.Domain.Vessels.FilmCover;

namespace Broodtide.Workbench.Tests.Safety;

public sealed class VesselSafetyTests
{
    private static readonly InstrumentId Probe = new(Fixed(40));

    private static KeptJournal SixLitres() =>
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
            );

    private static KeptJournal Lit(KeptJournal journal, double hours = 14) =>
        journal.Write(At(6, 1, 9, 30), new LightChanged(Jar, true, hours, TypedNumber.Of(100, "umol/m2/s")));

    private static Outlook Seen(KeptJournal journal, Instant now) => Outlook.Of(journal.Account(), now, Zone);

    private static VesselSafety SafetyOf(KeptJournal journal, Instant now) =>
        Seen(journal, now).SafetyOf(Jar)!;

    private static LimitAhead Limit(VesselSafety safety, LimitedQuantity quantity, bool danger = false) =>
        safety.Limits.Single(limit =>
            limit.Limit.Quantity == quantity
            && limit.Limit.IsDanger == danger
            && limit.Limit.IsUpper == quantity is not LimitedQuantity.Oxygen
        );

    private static VesselFed Yeast(double milligrams) =>
        new(Jar, FoodKind.Yeast, Mass: TypedNumber.Of(milligrams, "mg"));

    // 5 kg written for 5 g: nothing is told of brine, nothing is thrown, and a reading puts it right.
    [Fact]
    public void Salt_of_a_slip_of_the_pen_is_told_of_by_the_ledger_alone()
    {
        var slipped = Lit(SixLitres())
            .Write(At(6, 3, 9), new WaterMoved(To: Jar, Mix: TypedNumber.Of(5, "kg")));
        Assert.Null(Seen(slipped, At(6, 3, 12)).SafetyOf(Jar));

        // The salt swells the water: it takes four changes until it is sea water again.
        var changed = slipped;
        for (var hour = 13; hour < 21; hour += 2)
        {
            changed = changed
                .Write(At(6, 3, hour), new WaterMoved(From: Jar, Volume: TypedNumber.Of(5.9, "L")))
                .Write(
                    At(6, 3, hour + 1),
                    new WaterMoved(
                        To: Jar,
                        Volume: TypedNumber.Of(5.9, "L"),
                        Salinity: TypedNumber.Of(25, "sal:practical")
                    )
                );
        }

        Assert.NotEmpty(SafetyOf(changed, At(6, 4, 12)).Limits);
    }

    // 1.36 g of oxygen a gram of yeast without ash (CH1.8O0.5N0.2), so 9 mg/L can take more than the water holds (6.9 mg/L
    // at salinity 30 and 26 degC) where nothing but the surface brings more: food-and-growth 3.4.
    [Fact]
    public void Much_yeast_in_six_litres_without_air_takes_the_oxygen_before_dawn()
    {
        // 58 mg as weighed are 54 mg dry: 9 mg/L. At first the surface brings nearly as much as is taken.
        var once = Lit(SixLitres())
            .Write(At(6, 4, 9), new AirChanged(Jar, false))
            .Write(At(6, 5, 20), Yeast(58));
        var first = SafetyOf(once, At(6, 5, 21));
        var advised = Limit(first, LimitedQuantity.Oxygen);
        Assert.True(advised.CrossedAhead.Value >= 0.4, $"{advised.CrossedAhead}");
        Assert.True(advised.CrossedNow.Value < 0.1);
        var harm = Limit(first, LimitedQuantity.Oxygen, danger: true);
        Assert.Equal(SafetyLevel.Watch, harm.Level);
        Assert.Equal("safety-cause-food", harm.Cause!.Code);
        Assert.Equal("yeast", harm.Cause["food"]);
        Assert.InRange((double)harm.Cause["milligramsPerLitre"]!, 8.8, 9.5);

        // Every evening of a week: by the seventh dose what is left of the others takes as much again.
        var daily = Lit(SixLitres()).Write(At(6, 4, 9), new AirChanged(Jar, false));
        for (var day = 2; day <= 8; day++)
        {
            daily.Write(At(6, day, 20), Yeast(58));
        }

        var seventh = Limit(SafetyOf(daily, At(6, 8, 21)), LimitedQuantity.Oxygen, danger: true);
        Assert.True(seventh.CrossedAhead.Value >= 0.5, $"{seventh.CrossedAhead}");
        Assert.True(seventh.Level >= SafetyLevel.Warning);
        Assert.Equal("safety-cause-food", seventh.Cause!.Code);
        Assert.InRange(seventh.LikelyFrom!.Value, At(6, 8, 20), At(6, 9, 8));
    }

    [Fact]
    public void The_same_yeast_with_air_is_no_alarm_of_oxygen()
    {
        var journal = Lit(SixLitres())
            .Write(At(6, 4, 9), new AirChanged(Jar, true))
            .Write(At(6, 5, 20), Yeast(58));

        var oxygen = Limit(SafetyOf(journal, At(6, 5, 21)), LimitedQuantity.Oxygen, danger: true);
        Assert.True(oxygen.CrossedAhead.Value < 0.2, $"{oxygen}");
        Assert.Equal(SafetyLevel.Calm, oxygen.Level);
    }

    // food-and-growth 4.6: a green container stays safe, an overfed clear one does not.
    [Fact]
    public void A_green_lit_jar_stays_clean_and_an_overfed_clear_one_does_not()
    {
        var green = Lit(SixLitres())
            .Write(At(6, 1, 10), new AirChanged(Jar, true))
            .Write(
                At(6, 1, 11),
                new VesselFed(
                    Jar,
                    FoodKind.GreenWater,
                    TypedNumber.Of(300, "mL"),
                    Density: TypedNumber.Of(1e6, "{cells}/mL"),
                    Salinity: TypedNumber.Of(30, "sal:practical")
                )
            );
        var overfed = SixLitres().Write(At(6, 1, 10), new AirChanged(Jar, true));
        for (var day = 2; day <= 11; day++)
        {
            green.Write(At(6, day, 20), new VesselLookedAt(Jar, WaterLook.Green));
            // 20 mg/L of dry yeast a day.
            overfed.Write(At(6, day, 20), Yeast(128));
        }

        var (clean, foul) = (SafetyOf(green, At(6, 11, 21)), SafetyOf(overfed, At(6, 11, 21)));
        var (low, high) = (
            Limit(clean, LimitedQuantity.UnionisedAmmonia),
            Limit(foul, LimitedQuantity.UnionisedAmmonia)
        );
        Assert.True(low.CrossedAhead.Value < 0.2, $"{low}");
        Assert.Equal(SafetyLevel.Calm, low.Level);
        Assert.True(high.CrossedAhead.Value > 0.8, $"{high}");
        Assert.Equal(SafetyLevel.Alarm, high.Level);
        Assert.Equal("safety-cause-food", high.Cause!.Code);
        Assert.True(foul.Level is SafetyLevel.Alarm);
    }

    [Fact]
    public void A_reading_of_ammonia_moves_what_is_told_by_what_it_is_said_as()
    {
        double Tan(params (double Value, string Unit)[] readings)
        {
            var journal = Lit(SixLitres()).Write(At(6, 1, 10), new AirChanged(Jar, true));
            foreach (var (value, unit) in readings)
            {
                journal.Write(At(6, 5, 20), new ReadingTaken(TypedNumber.Of(value, unit), Jar));
            }

            return SafetyOf(journal, At(6, 5, 21)).Run!.Ahead.Quantiles(VesselQuantity.Tan, 0).Middle;
        }

        var (unread, read, ion) = (Tan(), Tan((0.2, "mg/L{TAN-N}")), Tan((0.2, "mg/L{NH4}")));
        Assert.True(read > 1.5 * unread, $"{unread} {read}");
        // The ion weighs 18.039 / 14.007 of its nitrogen: the same number said as the ion is less.
        Assert.InRange(ion, unread, 0.95 * read);
    }

    [Fact]
    public void A_reading_that_nothing_explains_is_told_by_itself_and_never_as_an_alarm()
    {
        var journal = Lit(SixLitres())
            .Write(At(6, 1, 10), new AirChanged(Jar, true))
            .Write(At(6, 5, 20), new ReadingTaken(TypedNumber.Of(4, "mg/L{TAN-N}"), Jar));
        var safety = SafetyOf(journal, At(6, 5, 21));

        Assert.Single(safety.Run!.Odd);
        var ammonia = Limit(safety, LimitedQuantity.UnionisedAmmonia);
        Assert.Equal(SafetyLevel.Warning, ammonia.Level);
        Assert.Equal("safety-cause-odd-reading", ammonia.Cause!.Code);
        Assert.True(ammonia.CrossedNow.Value > 0.5);
    }

    [Fact]
    public void A_probe_that_shows_one_value_while_others_move_is_told_and_teaches_nothing()
    {
        KeptJournal Read(bool stuck)
        {
            var journal = Lit(SixLitres())
                .Write(At(6, 1, 10), new AirChanged(Jar, true))
                .Write(
                    At(6, 1, 10),
                    new InstrumentDescribed(Probe, "Probe", InstrumentKind.OxygenMeter, "mg/L{O2}")
                );
            double[] warm = [25.5, 26, 26.5, 25, 24.5, 26];
            for (var day = 0; day < 6; day++)
            {
                journal.Write(At(6, 2 + day, 9), new ReadingTaken(TypedNumber.Of(warm[day], "Cel"), Jar));
                journal.Write(
                    At(6, 2 + day, 9, 5),
                    new ReadingTaken(
                        TypedNumber.Of(stuck ? 3.2 : 6.4 + (0.1 * (day % 3)), "mg/L{O2}"),
                        Jar,
                        Probe
                    )
                );
            }

            return journal;
        }

        var told = SafetyOf(Read(stuck: true), At(6, 8, 9));
        var remark = Assert.Single(told.Remarks, remark => remark.Code == "probe-stuck");
        Assert.Equal(Probe, remark["instrument"]);
        Assert.Equal(6.0, remark["times"]);
        Assert.Single(told.Run!.Story.Readings);
        Assert.DoesNotContain(
            SafetyOf(Read(stuck: false), At(6, 8, 9)).Remarks,
            other => other.Code == "probe-stuck"
        );
    }

    [Fact]
    public void A_new_entry_runs_only_what_comes_after_it()
    {
        var journal = Lit(SixLitres()).Write(At(6, 1, 10), new AirChanged(Jar, true));
        for (var day = 2; day <= 20; day++)
        {
            journal.Write(At(6, day, 20), Yeast(5));
        }

        var first = Seen(journal, At(6, 20, 21));
        _ = first.SafetyOf(Jar);
        var ran = first.TwinHoursRun;
        Assert.True(ran > 24 * 19, $"{ran} h");

        journal.Write(At(6, 20, 22), Yeast(5));
        foreach (var entry in journal.Entries.Skip(first.House.Account.EntryCount).ToList())
        {
            first.House.Account.Add(entry);
        }

        var second = first.Renewed(At(6, 20, 23));
        var again = second.SafetyOf(Jar)!;
        var more = second.TwinHoursRun - ran;
        Assert.True(more <= 48 + 24 + 2, $"{more} h");

        var anew = SafetyOf(journal, At(6, 20, 23));
        Assert.Equal(anew.Limits.Length, again.Limits.Length);
        foreach (var (one, other) in anew.Limits.Zip(again.Limits))
        {
            Assert.Equal(one.Limit.Quantity, other.Limit.Quantity);
            Assert.Equal(one.Now.Middle, other.Now.Middle, 0.02 * Math.Max(0.01, one.Now.Middle));
            Assert.Equal(one.CrossedAhead.Value, other.CrossedAhead.Value, 0.03);
        }
    }

    [Fact]
    public void Steps_and_asking_at_once_tell_the_same()
    {
        var journal = Lit(SixLitres()).Write(At(6, 4, 20), Yeast(20));
        var stepped = Seen(journal, At(6, 5, 21));
        Assert.Null(stepped.SafetyAtHand(Jar));
        foreach (var step in stepped.Steps())
        {
            step();
        }

        var (one, other) = (stepped.SafetyAtHand(Jar)!, SafetyOf(journal, At(6, 5, 21)));
        Assert.Equal(
            other.Limits.Select(limit => (limit.Limit.From.Code, limit.CrossedAhead, limit.Level)),
            one.Limits.Select(limit => (limit.Limit.From.Code, limit.CrossedAhead, limit.Level))
        );
    }

    [Fact]
    public void A_logger_teaches_no_more_than_eight_readings_a_day()
    {
        var journal = SixLitres().Write(At(6, 1, 10), new AirChanged(Jar, true));
        for (var quarter = 0; quarter < 96; quarter++)
        {
            journal.Write(
                At(6, 2) + Duration.FromMinutes(15 * quarter),
                new ReadingTaken(TypedNumber.Of(6.4 + (0.01 * (quarter % 7)), "mg/L{O2}"), Jar)
            );
        }

        Assert.InRange(SafetyOf(journal, At(6, 3, 13)).Run!.Story.Readings.Length, 8, 9);
    }

    [Fact]
    public void What_nobody_told_is_said_to_be_supposed()
    {
        var remarks = SafetyOf(SixLitres(), At(6, 3, 9)).Remarks.Select(remark => remark.Code).ToHashSet();
        Assert.Contains("safety-air-never-said", remarks);
        Assert.Contains("safety-light-never-said", remarks);
    }

    [Fact]
    public void Warm_water_and_salt_water_are_told_by_what_was_read()
    {
        var journal = SixLitres()
            .Write(At(6, 3, 9), new ReadingTaken(TypedNumber.Of(30, "Cel"), Jar))
            .Write(At(6, 3, 10), new ReadingTaken(TypedNumber.Of(30.2, "Cel"), Jar));
        var safety = SafetyOf(journal, At(6, 3, 11));
        var warm = safety.Limits.Single(limit =>
            limit.Limit is { Quantity: LimitedQuantity.Temperature, IsUpper: true }
        );
        Assert.Equal(SafetyLevel.Alarm, warm.Level);
        Assert.Equal("safety-cause-warmth", warm.Cause!.Code);
        var salt = safety.Limits.Single(limit =>
            limit.Limit is { Quantity: LimitedQuantity.Salinity, IsUpper: true }
        );
        Assert.Equal(SafetyLevel.Calm, salt.Level);
    }

    [Fact]
    public void Fresh_water_an_empty_vessel_and_a_store_are_not_told()
    {
        var journal = new KeptJournal()
            .Write(At(6, 1, 8), new VesselSetUp(Tank, "Tank", VesselRole.BroodTank))
            .Write(At(6, 1, 9), new VesselFilled(Tank, Fill1, TypedNumber.Of(30, "L")))
            .Write(At(6, 1, 8), new VesselSetUp(Jar, "Jar A", VesselRole.LarvalVessel));
        var outlook = Seen(journal, At(6, 3, 9));
        Assert.Null(outlook.SafetyOf(Tank));
        Assert.Null(outlook.SafetyOf(Jar));
        Assert.Empty(outlook.WatersTold);
    }

    [Fact]
    public void A_described_feed_is_taken_by_its_packet()
    {
        var fed = new VesselFed(Jar, FoodKind.Powder, Mass: TypedNumber.Of(100, "mg"), Feed: "dust");
        var feed = new FeedDescribed(
            "Dust",
            FoodKind.Powder,
            TypedNumber.Of(46, "%"),
            TypedNumber.Of(8, "%")
        );
        var journal = SixLitres().Write(At(6, 1, 10), feed).Write(At(6, 2, 10), fed);
        var food = Assert.Single(SafetyOf(journal, At(6, 3, 9)).Run!.Story.Foods);
        Assert.Equal(92, food.DryMass.Milligrams, 1e-9);
        // Nitrogen is 16 % of protein; half of the dry mass is protein.
        Assert.Equal(0.08, food.Composition.NitrogenShare, 1e-9);
    }

    [Fact]
    public void Water_moves_of_every_kind_never_take_more_than_is_there()
    {
        var journal = SixLitres()
            .Write(At(6, 2, 10), new WaterMoved(From: Jar, Volume: TypedNumber.Of(20, "L")))
            .Write(
                At(6, 2, 11),
                new WaterMoved(
                    To: Jar,
                    Volume: TypedNumber.Of(5, "L"),
                    Salinity: TypedNumber.Of(30, "sal:practical")
                )
            )
            .Write(At(6, 2, 12), new VesselSiphoned(Jar, TypedNumber.Of(9, "L")))
            .Write(
                At(6, 2, 13),
                new CrossingMade(Cohort1, Brood1, Jar, Number: 100, Entered: TypedNumber.Of(200, "mL"))
            )
            .Write(
                At(6, 2, 14),
                new WaterMoved(To: Jar, ToLine: true, Salinity: TypedNumber.Of(30, "sal:practical"))
            )
            .Write(At(6, 2, 15), new CultureHarvested(Jar, TypedNumber.Of(1, "L")))
            .Write(At(6, 2, 16), new VesselLookedAt(Jar, WaterLook.Milky, FilmCover.Peeling));
        Assert.NotNull(Seen(journal, At(6, 4, 9)).SafetyOf(Jar));
    }
}
