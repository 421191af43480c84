using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.WaterLedger;
using NodaTime;
using NodaTime.Testing;

namespace Broodtide.Workbench.Tests;

public sealed class RecordingAskBackTests
{
    private static readonly Instant Now = Instant.FromUtc(2026, 3, 10, 20, 0);
    private static readonly VesselId Jar = new(new Guid("0195557c-0000-7000-8000-000000000001"));
    private static readonly InstrumentId Hydrometer = new(new Guid("0195557c-0000-7000-8000-000000000002"));
    private int _ids = 100;

    private Guid NewId() => new($"0195557c-0000-7000-8000-{++_ids:x12}");

    private House HouseOf(params Fact[] facts)
    {
        var clock = new FakeClock(Now - Duration.FromDays(2), Duration.FromHours(1));
        var keeper = new Keeper(new Author("Ada"), clock, DateTimeZone.Utc, NewId);
        var replica = new ReplicaId(NewId());
        var entries = new List<Entry>();
        foreach (var fact in facts)
        {
            var salt = Digest.Of(BitConverter.GetBytes(entries.Count)).ToBytes()[..16];
            entries.Add(
                keeper
                    .Write(fact)
                    .Seal(replica, entries.Count + 1, entries.Count > 0 ? entries[^1].Digest : null, salt)
            );
        }

        return new House(Account.Of(entries));
    }

    private House SeaJar() =>
        HouseOf(
            new VesselSetUp(Jar, "Jar A", VesselRole.LarvalVessel, TypedNumber.Of(10, "L")),
            new VesselFilled(
                Jar,
                new FillId(NewId()),
                TypedNumber.Of(8, "L"),
                TypedNumber.Of(32, "sal:practical")
            ),
            new InstrumentDescribed(Hydrometer, "glass hydrometer", InstrumentKind.Hydrometer, "sal:sg-20/20")
        );

    private static ReadingTaken Reading(string typed, string unit, double value, InstrumentId? with = null) =>
        new(new TypedNumber(typed, unit, value), Jar, with);

    private static IReadOnlyList<Question> Ask(Fact fact, House house) =>
        AskBack.For(fact, Happened.At(Now), house, Now);

    [Theory]
    [InlineData("33,5", "sal:practical", 33.5)]
    [InlineData("0", "sal:practical", 0)]
    [InlineData("45", "sal:practical", 45)]
    [InlineData("8.1", "[pH]", 8.1)]
    [InlineData("24.5", "Cel", 24.5)]
    [InlineData("76", "[degF]", 76)]
    [InlineData("1.0264", "sal:sg-25/25", 1.0264)]
    [InlineData("53", "sal:mS/cm-25", 53)]
    [InlineData("0.05", "mg/L{NO2-N}", 0.05)]
    public void What_is_usual_is_not_asked_back(string typed, string unit, double value) =>
        Assert.Empty(Ask(Reading(typed, unit, value), SeaJar()));

    [Theory]
    [InlineData("46", "sal:practical", 46, "salinity-improbable", "sal:mS/cm-25", 46)]
    [InlineData("335", "sal:practical", 335, "salinity-improbable", "sal:practical", 33.5)]
    [InlineData("1025", "sal:practical", 1025, "gravity-thousandfold", "sal:sg", 1.025)]
    [InlineData("1025", "sal:sg", 1025, "gravity-thousandfold", "sal:sg", 1.025)]
    [InlineData("1.025", "sal:practical", 1.025, "gravity-said-as-salinity", "sal:sg", 1.025)]
    [InlineData("33", "sal:sg", 33, "salinity-said-as-gravity", "sal:practical", 33)]
    [InlineData("7.9", "sal:practical", 7.9, "ph-said-as-salinity", "[pH]", 7.9)]
    [InlineData("33", "[pH]", 33, "salinity-said-as-ph", "sal:practical", 33)]
    [InlineData("76", "Cel", 76, "fahrenheit-said-as-celsius", "[degF]", 76)]
    [InlineData("24", "[degF]", 24, "celsius-said-as-fahrenheit", "Cel", 24)]
    [InlineData("-2", "Cel", -2, "temperature-below-zero", "Cel", 2)]
    [InlineData("245", "Cel", 245, "temperature-improbable", "Cel", 24.5)]
    public void What_is_improbable_is_asked_back_with_what_was_likelier_meant(
        string typed,
        string unit,
        double value,
        string code,
        string likelierUnit,
        double likelier
    )
    {
        var question = Assert.Single(Ask(Reading(typed, unit, value), SeaJar()));
        Assert.Equal(code, question.Remark.Code);
        var meant = Assert.IsType<ReadingTaken>(question.Likelier).Value;
        Assert.Equal(likelierUnit, meant.Unit);
        Assert.Equal(likelier, meant.Value, 1e-12);
        Assert.Equal(typed, meant.Typed);
        // Taken at what was likelier meant, nothing is left to ask but the references of a specific gravity.
        Assert.DoesNotContain(
            Ask(question.Likelier!, SeaJar()),
            q => q.Remark.Code != "gravity-without-references"
        );
    }

    [Theory]
    [InlineData("70", "sal:practical", 70)]
    [InlineData("4", "[pH]", 4)]
    [InlineData("40", "Cel", 40)]
    public void Where_nothing_is_likelier_it_is_asked_all_the_same(string typed, string unit, double value) =>
        Assert.Null(Assert.Single(Ask(Reading(typed, unit, value), SeaJar())).Likelier);

    [Fact]
    public void A_low_salinity_is_no_ph_where_the_water_is_fresh()
    {
        var fresh = HouseOf(
            new VesselSetUp(Jar, "Nursery", VesselRole.Nursery),
            new VesselFilled(Jar, new FillId(NewId()), TypedNumber.Of(8, "L"))
        );
        Assert.Empty(Ask(Reading("7.9", "sal:practical", 7.9), fresh));
    }

    [Fact]
    public void A_specific_gravity_without_references_is_asked_back_unless_the_instrument_names_them()
    {
        var question = Assert.Single(Ask(Reading("1.025", "sal:sg", 1.025), SeaJar()));
        Assert.Equal("gravity-without-references", question.Remark.Code);
        var lowest = Assert.IsType<double>(question.Remark["lowestPpt"]);
        var highest = Assert.IsType<double>(question.Remark["highestPpt"]);
        // The pairs of the trade differ by several ppt: that is why it is asked.
        Assert.InRange(highest - lowest, 1, 12);
        Assert.Empty(Ask(Reading("1.025", "sal:sg", 1.025, Hydrometer), SeaJar()));
    }

    [Fact]
    public void More_water_than_a_vessel_holds_is_asked_back_and_litres_for_millilitres_are_recognised()
    {
        var house = SeaJar();
        var question = Assert.Single(
            Ask(new WaterMoved(To: Jar, Volume: new TypedNumber("350 L", "L", 350)), house)
        );
        Assert.Equal("volume-over-capacity", question.Remark.Code);
        Assert.Equal("mL", Assert.IsType<WaterMoved>(question.Likelier).Volume?.Unit);
        Assert.Empty(Ask(new WaterMoved(To: Jar, Volume: TypedNumber.Of(2, "L")), house));
    }

    [Fact]
    public void A_time_in_the_future_is_asked_back_with_the_same_hour_of_a_day_before()
    {
        var happened = Happened.At(Now + Duration.FromHours(3));
        var question = Assert.Single(AskBack.For(new NoteWritten("x"), happened, SeaJar(), Now));
        Assert.Equal("time-in-the-future", question.Remark.Code);
        Assert.Equal(Now - Duration.FromHours(21), question.LikelierWhen?.Earliest);
        Assert.Empty(AskBack.For(new KeeperLeft(), happened, SeaJar(), Now));
    }

    [Fact]
    public void A_count_ten_times_the_last_one_is_asked_back()
    {
        var house = HouseOf(
            new VesselSetUp(Jar, "Jar A", VesselRole.LarvalVessel),
            new CountMade(Jar, CountMethod.Full, [new Aliquot(40)])
        );
        var question = Assert.Single(Ask(new CountMade(Jar, CountMethod.Full, [new Aliquot(400)]), house));
        Assert.Equal("count-tenfold", question.Remark.Code);
        Assert.Equal(40, Assert.IsType<CountMade>(question.Likelier).Samples[0].Seen);
        Assert.Empty(Ask(new CountMade(Jar, CountMethod.Full, [new Aliquot(300)]), house));
        // Samples of a volume are another thing than a whole vessel.
        Assert.Empty(
            Ask(new CountMade(Jar, CountMethod.Aliquot, [new Aliquot(400, TypedNumber.Of(1, "L"))]), house)
        );
    }

    [Fact]
    public void Samples_tell_of_a_whole_vessel_whose_size_is_known()
    {
        var house = HouseOf(
            new VesselSetUp(Jar, "Jar A", VesselRole.LarvalVessel, TypedNumber.Of(10, "L")),
            // Four in half a litre: 80 in ten litres.
            new CountMade(Jar, CountMethod.Aliquot, [new Aliquot(4, TypedNumber.Of(500, "mL"))])
        );
        Assert.Empty(Ask(new CountMade(Jar, CountMethod.Full, [new Aliquot(700)]), house));
        Assert.Equal(
            "count-tenfold",
            Assert.Single(Ask(new CountMade(Jar, CountMethod.Full, [new Aliquot(800)]), house)).Remark.Code
        );
    }

    [Fact]
    public void A_number_with_two_readings_is_asked_back()
    {
        var question = Assert.Single(
            Ask(new VesselFed(Jar, FoodKind.GreenWater, Volume: new("1,250 mL", "mL", 1.25)), SeaJar())
        );
        Assert.Equal("number-has-two-readings", question.Remark.Code);
        Assert.Equal(1250, Assert.IsType<VesselFed>(question.Likelier).Volume?.Value);
    }

    [Fact]
    public void Standing_by_it_marks_the_number_and_nothing_is_asked_a_second_time()
    {
        var house = SeaJar();
        var fact = Reading("46", "sal:practical", 46);
        var kept = Assert.IsType<ReadingTaken>(AskBack.AsTyped(fact, Ask(fact, house)));
        Assert.True(kept.Value.Doubted);
        Assert.Equal(46, kept.Value.Value);
        Assert.Empty(Ask(kept, house));
    }

    [Fact]
    public void A_doubted_number_is_told_with_twice_the_doubt()
    {
        var meaning = new WaterMeaning(
            (typed, _) => new SalinityRead(Salinity.FromPractical(typed.Value), 0.5),
            (reading, _) => new SalinityRead(Salinity.FromPractical(reading.Value.Value), 0.7)
        );
        var number = TypedNumber.Of(46, "sal:practical");
        Assert.Equal(0.5, meaning.Of(number, null)?.Sd);
        Assert.Equal(1.0, meaning.Of(number with { Doubted = true }, null)?.Sd);
        Assert.Equal(1.4, meaning.Of(new ReadingTaken(number with { Doubted = true }), Now)?.Sd);
    }

    [Fact]
    public void Every_typed_number_of_every_fact_can_be_marked()
    {
        foreach (var fact in EveryFactWithNumbers())
        {
            foreach (var (name, number, _) in fact.Numbers())
            {
                Assert.NotNull(number);
                var marked = fact.WithNumber(name, n => n with { Doubted = true });
                Assert.All(marked.Numbers(), told => Assert.Equal(told.Name == name, told.Number!.Doubted));
            }
        }
    }

    // One of each kind that holds typed numbers, every number given. A kind that is new must be added here: the
    // test below finds it.
    private static IEnumerable<Fact> EveryFactWithNumbers()
    {
        var n = TypedNumber.Of(1, "L");
        CrossingPour[] pours = [new(0, n, n)];
        yield return new ReadingTaken(n, SampleTemperature: n);
        yield return new InstrumentCalibrated(default, n, n, n);
        yield return new CountMade(default, CountMethod.Full, [new Aliquot(1, n)]);
        yield return new VesselSetUp(default, "", VesselRole.Cup, n);
        yield return new VesselFilled(default, default, n, n, n);
        yield return new VesselDisinfected(default, "", n, n);
        yield return new WaterMoved(null, null, n, n, n, n);
        yield return new VesselSiphoned(default, n);
        yield return new VesselFed(default, FoodKind.Yeast, n, n, n, null, n);
        yield return new FeedDescribed("", FoodKind.Yeast, n, n, n);
        yield return new CultureDescribed(default, CultureKind.Chlorella, Inoculum: n, InoculumDensity: n);
        yield return new CultureHarvested(default, n, n);
        yield return new CellsCounted(default, ChamberKind.Other, [new(1)], SquareVolume: n);
        yield return new LightChanged(default, true, null, n);
        yield return new HeaterChanged(default, true, n);
        yield return new CrossingMade(
            default,
            default,
            default,
            PouredSalinity: n,
            Entered: n,
            EnteredSalinity: n,
            BrackishMinutes: n,
            Pours: pours
        );
        yield return new JuvenilesReturned(default, default, Minutes: n, Pours: pours);
        yield return new TrialLaidOut("", "", [new("", n), new("", n)], [], 1);
    }

    [Fact]
    public void The_list_of_facts_with_numbers_is_whole() =>
        Assert.Equal(
            Kinds
                .All.Where(kind => kind.Type.GetProperties().Any(p => Holds(p.PropertyType)))
                .Select(kind => kind.Type.Name)
                .Order(StringComparer.Ordinal),
            EveryFactWithNumbers().Select(fact => fact.GetType().Name).Order(StringComparer.Ordinal)
        );

    private static bool Holds(Type type) =>
        type == typeof(TypedNumber)
        || (
            type.IsGenericType
            && type.GetGenericArguments()[0] is { IsClass: true } inner
            && inner != typeof(string)
            && inner.GetProperties().Any(p => p.PropertyType == typeof(TypedNumber))
        );
}
