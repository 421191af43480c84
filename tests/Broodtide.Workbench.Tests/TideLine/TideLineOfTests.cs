using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Tests.Planning;
using Broodtide.Workbench.TideLine;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.TideLine;

public class TideLineOfTests
{
    [Fact]
    public void Still_carried_shows_the_nights_to_come_and_the_marks_seen()
    {
        var kept = WithBrood().Write(At(5, 14, 21), new EggsObserved(Brood1, true, true));
        var record = TideLineOf.Brood(Outlook.Of(kept.Account(), At(5, 15), Zone), Brood1);

        Assert.Equal("Brood 1", record.Name);
        Assert.NotNull(record.Hatch);
        Assert.InRange(record.Nights.Sum(night => night.Chance), 0.97, 1.0001);
        Assert.Equal([TideMarkKind.Berried, TideMarkKind.Eyed], record.Brood.Marks.Select(mark => mark.Kind));
        Assert.Null(record.Brood.LastSeenCarrying);
        Assert.Empty(record.Crossings);
        Assert.Equal(30, record.PlannedPpt);
        Assert.Equal(17, record.Zones.SeaFromPpt);
    }

    [Fact]
    public void In_the_sea_it_shows_the_crossing_the_salinity_and_the_return_to_come()
    {
        var kept = BackwardPlanTests
            .InTheSea()
            .Write(At(5, 27), new RunStarted(Run1, Brood1, "First run"))
            .Write(At(5, 28, 9), new ReadingTaken(TypedNumber.Of(30.4, "sal:practical"), Jar))
            .Write(At(5, 29, 9), new WaterMoved(To: Jar, Volume: TypedNumber.Of(100, "mL")))
            .Write(At(5, 30, 9), new CountMade(Jar, CountMethod.Full, [new Aliquot(90)]))
            .Write(
                At(5, 30, 10),
                new StageSampleTaken(Jar, [new StageTally("Z1", 3), new StageTally("Z2", 1)])
            );
        var record = TideLineOf.Run(Outlook.Of(kept.Account(), At(5, 31), Zone), Run1)!;

        Assert.Equal("First run", record.Name);
        Assert.Null(record.Hatch);
        Assert.Equal(120, Assert.Single(record.Nights).Collected);
        Assert.Equal(118, Assert.Single(record.Crossings).Larvae.Middle);
        var vessel = Assert.Single(record.Vessels);
        Assert.Equal("Jar A", vessel.Name);
        Assert.NotEmpty(vessel.Salinity);
        Assert.Equal(100, Assert.Single(vessel.TopUps).Millilitres, 1e-9);
        Assert.True(Assert.Single(vessel.Readings).Fits);
        Assert.InRange(Assert.Single(record.Counts).Larvae.Middle, 90, 94);
        Assert.Equal(0.75, Assert.Single(record.Stages).Shares[0]);
        Assert.Equal(record.StageNames.Count, record.Stages[0].Shares.Count);
        Assert.NotNull(record.Return!.Forecast);
        Assert.Contains(record.Entries, entry => entry.Mark == TideEntryMark.TopUp);
        Assert.Contains(record.Entries, entry => entry.Mark == TideEntryMark.Crossing);
        Ascends(vessel.Salinity.Select(row => row.At));
        Assert.NotEmpty(TideWords.Of(record));
    }

    [Fact]
    public void Alive_is_drawn_only_once_its_estimate_is_at_hand()
    {
        var outlook = Outlook.Of(Counted().Account(), At(6, 2), Zone);
        var before = TideLineOf.Brood(outlook, Brood1);
        Assert.Empty(before.Alive);
        Assert.Equal(0, outlook.EstimatesAtHand);
        Assert.NotNull(before.Return!.Forecast);

        var estimate = outlook.EstimateOf(outlook.PopulationOf(Brood1)!);
        var after = TideLineOf.Brood(outlook, Brood1);

        Assert.Equal(1, outlook.EstimatesAtHand);
        Assert.Equal(estimate.Track.Count, after.Alive.Count);
        Ascends(after.Alive.Select(row => row.At));
        var now = TideTrack.At(after.Alive, after.Now)!.Value;
        Assert.Equal(estimate.All.Alive, now);
        Assert.InRange(now.Middle, 60, 100);
        Assert.Equal(now, TideTrack.At(Assert.Single(after.Vessels).Alive, after.Now));
        Assert.Null(after.Vessels[0].OfOtherRuns);
    }

    [Fact]
    public void Stages_and_settlement_come_from_the_estimate_and_stand_in_the_words()
    {
        var outlook = Outlook.Of(Counted().Account(), At(6, 2), Zone);
        var estimate = outlook.EstimateOf(outlook.PopulationOf(Brood1)!);
        var record = TideLineOf.Brood(outlook, Brood1);

        Assert.All(record.Stages, row => Assert.Equal(1, row.Shares.Sum(), 1e-9));
        Assert.All(record.Stages, row => Assert.Equal(record.StageNames.Count, row.Shares.Count));
        Assert.True(record.Stages[^1].At > record.Now);
        Assert.Equal(estimate.Settlement.Half.Middle, record.Return!.Forecast!.Middle);
        Assert.Equal(estimate.Settlement.First.Early, record.Return.Settlement!.First.Early);
        Assert.Equal(estimate.Juveniles, record.Return.Juveniles[^1].Value);
        Ascends(record.Return.Juveniles.Select(row => row.At));

        var words = TideWords.Of(record);
        Assert.Equal(
            estimate.All.Alive,
            Assert.Single(words, word => word.Code == TideWordCode.NowAlive).Number
        );
        Assert.NotEmpty(Assert.Single(words, word => word.Code == TideWordCode.NowStages).Stages);
        Assert.Equal(
            record.Return.Settlement.NineTenths,
            Assert.Single(words, word => word.Code == TideWordCode.SettlementEndsExpected).Days
        );
        Assert.Equal(
            estimate.Juveniles,
            Assert.Single(words, word => word.Code == TideWordCode.JuvenilesExpected).Number
        );
        Assert.DoesNotContain(words, word => word.Code == TideWordCode.ReturnExpected);
        Assert.Contains(TideWords.Weeks(record), week => week.Alive is not null && week.Expected);
    }

    [Fact]
    public void Two_broods_in_one_jar_are_each_drawn_with_their_own_larvae()
    {
        var second = new BroodId(Fixed(90));
        var kept = Counted()
            .Write(
                At(5, 28, 21),
                new CrossingMade(new CohortId(Fixed(91)), second, Jar, Number: 300, Method: CountMethod.Full)
            );
        var outlook = Outlook.Of(kept.Account(), At(6, 2), Zone);
        var estimate = outlook.EstimateOf(outlook.PopulationOf(Brood1)!);
        var (one, other) = (TideLineOf.Brood(outlook, Brood1), TideLineOf.Brood(outlook, second));

        Assert.Equal(2, estimate.Broods.Count);
        var own = TideTrack.At(one.Alive, one.Now)!.Value;
        var others = TideTrack.At(other.Alive, other.Now)!.Value;
        Assert.True(own.Middle < others.Middle && others.Middle < estimate.All.Alive.Middle);
        Assert.Equal(others, one.Vessels[0].OfOtherRuns);
        Assert.Equal(own, other.Vessels[0].OfOtherRuns);
        Assert.Empty(one.Return!.Juveniles);
        Assert.Contains(TideWords.Of(one), word => word.Code == TideWordCode.NowOfOtherRuns);
    }

    [Fact]
    public void Larvae_of_a_run_that_is_over_are_estimated_only_when_asked_for()
    {
        var kept = Counted()
            .Write(At(5, 27), new RunStarted(Run1, Brood1, "First run"))
            .Write(At(6, 1, 9), new VesselEmptied(Jar))
            .Write(At(6, 1, 10), new RunEnded(Run1, RunEnd.GivenUp));
        var outlook = Outlook.Of(kept.Account(), At(6, 2), Zone);
        foreach (var step in outlook.Steps())
        {
            step();
        }

        Assert.Equal(0, outlook.EstimatesAtHand);
        foreach (var step in outlook.StepsOf(outlook.PopulationOf(Brood1)!))
        {
            step();
        }

        Assert.NotNull(outlook.EstimateAtHand(Brood1));
        var record = TideLineOf.Run(outlook, Run1)!;
        Assert.NotEmpty(record.Alive);
        var ended = Assert.Single(TideWords.Of(record), word => word.Code == TideWordCode.EndedGivenUp);
        Assert.InRange(ended.Number!.Value.Middle, 60, 100);
    }

    [Fact]
    public void A_lost_run_says_when_any_was_last_seen_and_when_none_was_first_seen()
    {
        var kept = BackwardPlanTests
            .InTheSea()
            .Write(At(5, 27), new RunStarted(Run1, Brood1, "First run"))
            .Write(At(5, 30, 9), new CountMade(Jar, CountMethod.Beam, [new Aliquot(12)]))
            .Write(At(6, 3, 9), new CountMade(Jar, CountMethod.Beam, [new Aliquot(0)]))
            .Write(At(6, 6, 9), new VesselEmptied(Jar))
            .Write(At(6, 6, 10), new RunEnded(Run1, RunEnd.GivenUp));
        var end = Assert.Single(TideLineOf.Run(Outlook.Of(kept.Account(), At(6, 7), Zone), Run1)!.Ends);

        Assert.Equal(TideEndKind.GivenUp, end.Kind);
        Assert.Equal(At(5, 30, 9), end.LastSeenAlive);
        Assert.Equal(At(6, 3, 9), end.FirstSeenNone);
    }

    [Fact]
    public void Larvae_moved_to_another_jar_join_and_split()
    {
        var kept = BackwardPlanTests
            .InTheSea()
            .Write(At(5, 27), new VesselSetUp(Culture, "Jar B", VesselRole.LarvalVessel))
            .Write(
                At(5, 28),
                new VesselFilled(
                    Culture,
                    new FillId(Fixed(88)),
                    TypedNumber.Of(4, "L"),
                    TypedNumber.Of(30, "sal:practical")
                )
            )
            .Write(At(5, 29), new CohortsMoved(Jar, Culture));
        var record = TideLineOf.Brood(Outlook.Of(kept.Account(), At(5, 31), Zone), Brood1);

        Assert.Equal(Culture.Value, record.Vessels.Single(v => v.Name == "Jar A").JoinedInto!.VesselId);
        Assert.Equal(Jar.Value, record.Vessels.Single(v => v.Name == "Jar B").SplitFrom!.VesselId);
    }

    [Fact]
    public void Hatch_nights_name_the_evening_to_isolate_only_once_it_is_advised()
    {
        var waiting = TideNightsOf.Brood(Outlook.Of(WithBrood().Account(), At(5, 15), Zone), Brood1)!;
        var pale = WithBrood().Write(At(5, 22, 21), new EggsObserved(Brood1, true, true, EggColour.Pale));
        var advised = TideNightsOf.Brood(Outlook.Of(pale.Account(), At(5, 22, 22), Zone), Brood1)!;

        Assert.Null(waiting.IsolateBy);
        Assert.Equal(new LocalDate(2026, 5, 15), waiting.Tonight);
        Assert.NotNull(advised.IsolateBy);
        Assert.Null(
            TideNightsOf.Brood(Outlook.Of(BackwardPlanTests.InTheSea().Account(), At(5, 27), Zone), Brood1)
        );
    }

    [Fact]
    public void The_small_picture_of_a_vessel_holds_its_band_readings_and_room_for_the_forecast()
    {
        var kept = BackwardPlanTests
            .InTheSea()
            .Write(At(5, 28, 9), new ReadingTaken(TypedNumber.Of(30.4, "sal:practical"), Jar));
        var record = LedgerRecordOf.Vessel(Outlook.Of(kept.Account(), At(5, 31), Zone), Jar)!;

        Assert.Equal(34, record.NotSaltierThanPpt);
        Assert.Equal(25, record.NotFresherThanPpt);
        Assert.Single(record.Readings);
        Assert.True(record.From < record.Now && record.Now < record.To);
        Assert.True(record.Salinity[^1].At > record.Now);
        Assert.Null(LedgerRecordOf.Vessel(Outlook.Of(kept.Account(), At(5, 31), Zone), Box));
    }

    private static KeptJournal Counted() =>
        BackwardPlanTests
            .InTheSea()
            .Write(At(5, 30, 9), new CountMade(Jar, CountMethod.Full, [new Aliquot(90)]));

    private static void Ascends(IEnumerable<Instant> instants)
    {
        var before = Instant.MinValue;
        foreach (var instant in instants)
        {
            Assert.True(instant >= before);
            before = instant;
        }
    }
}
