using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Due;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Tests.Planning;
using Broodtide.Workbench.TideLine;
using CsCheck;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Due;

public class DueListTests
{
    [Fact]
    public void Exactly_one_item_is_next_and_it_stands_first()
    {
        var due = Due(WithBrood(), At(5, 14, 18));

        Assert.Single(due.Items, item => item.IsNext);
        Assert.True(due.Items[0].IsNext);
        Assert.Same(due.Items[0], due.Next);
    }

    [Fact]
    public void An_empty_journal_has_nothing_due() => Assert.Empty(Due(new KeptJournal(), At(5, 1)).Items);

    [Fact]
    public void What_may_slip_stands_at_the_end_with_how_long()
    {
        var items = Due(WithBrood(), At(5, 14, 18)).Items.Skip(1).ToList();
        var slipping = items.FindIndex(item => item.Part is DuePart.MaySlip);

        Assert.True(slipping >= 0);
        Assert.All(items.Skip(slipping), item => Assert.Equal(DuePart.MaySlip, item.Part));
        Assert.All(items.Skip(slipping), item => Assert.NotNull(item.Action.SlipsUntil));
        Assert.All(items.Skip(slipping), item => Assert.NotNull(item.Action.IfItSlips));
    }

    [Fact]
    public void Every_item_has_a_door_a_reason_and_a_key_of_its_own()
    {
        foreach (var (kept, now) in Scenes())
        {
            var items = Due(kept, now).Items;
            Assert.NotEmpty(items);
            Assert.Equal(items.Count, items.Select(item => item.Action.Key).Distinct().Count());
            Assert.All(
                items,
                item =>
                {
                    Assert.True(Enum.IsDefined(item.Action.Door.Code));
                    Assert.NotEqual(default, item.Action.Door.About);
                    Assert.NotEmpty(item.Action.Reason.Code);
                    Assert.StartsWith(item.Action.Code + "/", item.Action.Key, StringComparison.Ordinal);
                    Assert.Matches("^[a-z0-9-]+/[0-9a-f]{32}/[a-z0-9.-]+$", item.Action.Key);
                }
            );
        }
    }

    [Fact]
    public void A_vessel_about_to_leave_its_band_is_topped_up_with_a_matched_amount()
    {
        var due = Due(Saltier(), At(6, 7, 12));
        var topUp = due.Items.Single(item => item.Action.Code == ActionCodes.TopUp).Action;

        Assert.Equal(Subject.Of(Jar), topUp.About);
        Assert.Equal(DoorCode.WriteWaterMove, topUp.Door.Code);
        Assert.Equal("amount-top-up", topUp.Amounts.Single().Code);
        Assert.True((double)topUp.Amounts[0]["eachLitres"]! > 0);
        Assert.Equal(34.0, topUp.Reason["limitPpt"]);
    }

    [Fact]
    public void Top_up_that_was_poured_is_another_occasion()
    {
        var before = Due(Saltier(), At(6, 7, 12))
            .Items.Single(item => item.Action.Code == ActionCodes.TopUp)
            .Action.Key;
        var poured = Saltier().Write(At(6, 7, 12), new WaterMoved(To: Jar, Volume: TypedNumber.Of(50, "mL")));

        Assert.DoesNotContain(Due(poured, At(6, 7, 13)).Items, item => item.Action.Key == before);
    }

    [Fact]
    public void A_reading_that_does_not_fit_is_read_again_before_anything_is_poured()
    {
        var kept = Saltier().Write(At(6, 7, 11), new ReadingTaken(TypedNumber.Of(20, "sal:practical"), Jar));
        var due = Due(kept, At(6, 7, 12));

        var again = due.Items.Single(item => item.Action.Code == ActionCodes.ReadAgain).Action;
        Assert.Equal(DoorCode.WriteReading, again.Door.Code);
        Assert.Same(again, due.Next!.Action);
        Assert.DoesNotContain(due.Items, item => item.Action.Code == ActionCodes.TopUp);
        Assert.DoesNotContain(due.Items, item => item.Action.Code == ActionCodes.ReadSalinity);
    }

    [Fact]
    public void Water_below_its_band_is_to_be_corrected()
    {
        var kept = BackwardPlanTests
            .InTheSea()
            .Write(At(5, 27, 12), new WaterMoved(From: Jar, Volume: TypedNumber.Of(1.2, "L")))
            .Write(At(5, 27, 12), new WaterMoved(To: Jar, Volume: TypedNumber.Of(1.2, "L")));
        var correct = Due(kept, At(5, 27, 13))
            .Items.Single(item => item.Action.Code == ActionCodes.CorrectSalinity)
            .Action;

        Assert.Equal(DoorCode.CorrectWater, correct.Door.Code);
        Assert.Equal("amount-correction", correct.Amounts.Single().Code);
    }

    [Fact]
    public void Larvae_that_wait_in_the_cup_come_before_all_that_is_later()
    {
        var kept = WithBrood()
            .Write(At(5, 24), new VesselSetUp(Jar, "Jar A", VesselRole.LarvalVessel))
            .Write(
                At(5, 24),
                new VesselFilled(Jar, Fill1, TypedNumber.Of(4, "L"), TypedNumber.Of(30, "sal:practical"))
            )
            .Write(At(5, 26, 7), new CollectionMade(Collection1, Brood1, Number: 120));
        var next = Due(kept, At(5, 26, 9)).Next!;

        Assert.Equal(ActionCodes.CrossLarvae, next.Action.Code);
        Assert.Contains(CautionCode.WetHandsChargingPhone, next.Action.Cautions);
    }

    [Fact]
    public void The_first_hour_begins_with_the_filter()
    {
        var kept = new KeptJournal().Write(At(5, 26, 7), new HatchingSeen(Brood1));
        var due = Due(kept, At(5, 26, 7, 10));

        Assert.Equal(ActionCodes.StopFilter, due.Next!.Action.Code);
    }

    [Fact]
    public void A_look_for_eyed_eggs_says_what_it_would_narrow()
    {
        var look = Due(WithBrood(), At(5, 13, 18))
            .Items.Single(item => item.Action.Code == ActionCodes.LookAtEggs)
            .Action;

        Assert.Equal(DoorCode.WriteEggs, look.Door.Code);
        Assert.True((double)look.Reason["expectedDays"]! < (double)look.Reason["windowDays"]!);
    }

    [Fact]
    public void An_instrument_in_use_that_was_never_checked_is_due()
    {
        var kept = BackwardPlanTests
            .InTheSea()
            .Write(
                At(5, 26, 10),
                new InstrumentDescribed(Refractometer, "Refractometer", InstrumentKind.Refractometer)
            )
            .Write(At(5, 26, 12), new ReadingTaken(TypedNumber.Of(30, "sal:practical"), Jar, Refractometer));
        var check = Due(kept, At(5, 26, 20))
            .Items.Single(item => item.Action.Code == ActionCodes.CheckInstrument);

        Assert.Equal(DuePart.MaySlip, check.Part);
        Assert.Equal(DoorCode.WriteCalibration, check.Action.Door.Code);
    }

    [Fact]
    public void Done_items_go_and_items_put_off_come_back()
    {
        var now = At(5, 14, 18);
        var mixKey = ActionKey.Of(ActionCodes.HaveSaltMix, Subject.Of(Brood1));
        Assert.Contains(Due(WithBrood(), now).Items, item => item.Action.Key == mixKey);

        var done = WithBrood().Write(At(5, 14, 17), new ActionDone(mixKey));
        Assert.DoesNotContain(Due(done, now).Items, item => item.Action.Key == mixKey);

        var off = WithBrood().Write(At(5, 14, 17), new ActionSkipped(mixKey, Until: At(5, 15)));
        Assert.DoesNotContain(Due(off, now).Items, item => item.Action.Key == mixKey);
        Assert.Contains(Due(off, At(5, 15, 13)).Items, item => item.Action.Key == mixKey);
    }

    [Fact]
    public void The_same_entries_in_any_order_give_the_same_list()
    {
        foreach (var (kept, now) in Scenes())
        {
            var forward = Due(kept, now).Items.Select(item => item.Action.Key);
            var backward = Outlook
                .Of(Account.Of(kept.Entries.Reverse()), now, Zone)
                .Due.Items.Select(item => item.Action.Key);
            Assert.Equal(forward, backward);
        }
    }

    [Fact]
    public void Steps_work_everything_out_in_pieces_and_change_nothing()
    {
        foreach (var (kept, now) in Scenes())
        {
            var pieces = Outlook.Of(kept.Account(), now, Zone);
            foreach (var step in pieces.Steps())
            {
                step();
            }

            var whole = Outlook.Of(kept.Account(), now, Zone);
            Assert.Equal(
                whole.Due.Items.Select(item => item.Action.Key),
                pieces.Due.Items.Select(item => item.Action.Key)
            );
            Assert.Equal(whole.Ledgers.Count, pieces.Ledgers.Count);
        }
    }

    [Fact]
    public void Random_journals_never_throw()
    {
        Gen.Int[0, 1_000_000]
            .List[1, 14]
            .Sample(
                numbers =>
                {
                    var kept = new KeptJournal();
                    foreach (var number in numbers)
                    {
                        kept.Write(RandomTime(number), RandomFact(number), At(5, 1));
                    }

                    var now = At(5, 1) + Duration.FromHours(numbers[0] % 2000);
                    var outlook = Outlook.Of(kept.Account(), now, Zone);
                    foreach (var step in outlook.Steps())
                    {
                        step();
                    }

                    var items = outlook.Due.Items;
                    Assert.Equal(items.Count > 0 ? 1 : 0, items.Count(item => item.IsNext));
                    Assert.NotNull(TideWords.Of(TideLineOf.Brood(outlook, Brood1)));
                    Assert.NotNull(TideLineOf.Brood(outlook, Brood1).Entries);
                    _ = TideNightsOf.Brood(outlook, Brood1);
                    foreach (var vessel in outlook.House.Vessels)
                    {
                        _ = LedgerRecordOf.Vessel(outlook, vessel.Id);
                    }
                },
                iter: 60
            );
    }

    private static Happened RandomTime(int number)
    {
        var start =
            number % 41 == 0
                ? Instant.FromUtc(1 + (number % 9000), 1, 1, 0, 0)
                : At(4, 20) + Duration.FromMinutes(number % 100_000);
        return Happened.Between(start, start + Duration.FromHours(number % 5 == 0 ? 9 : 0));
    }

    private static Fact RandomFact(int number)
    {
        var value = number % 97 / 2.0;
        var vessels = new[] { Tank, Box, Jar, Culture };
        var vessel = vessels[number % 4];
        var other = vessels[number / 4 % 4];
        return (number / 7 % 24) switch
        {
            0 => new AnimalAcquired(Female, "F1", Vessel: vessel),
            1 => new AnimalSeenEmpty(Female),
            2 or 3 => new AnimalSeenBerried(Female, Brood1, AgeUnknown: number % 2 == 0),
            4 => new EggsObserved(Brood1, number % 3 > 0, number % 2 == 0, (EggColour)(number % 3)),
            5 => new EggsDropped(Brood1, number % 2 == 0 ? vessel : null),
            6 => new AnimalIsolated(Female, vessel, Brood1),
            7 => new HatchingSeen(Brood1, vessel, number % 2 == 0),
            8 => new CollectionMade(new CollectionId(Fixed(500 + (number % 3))), Brood1, Number: 5),
            9 or 10 => new CrossingMade(Cohort1, Brood1, vessel, Number: 5),
            11 => new VesselSetUp(vessel, "V", (VesselRole)(number % 8), TypedNumber.Of(value, "L")),
            12 or 13 => new VesselFilled(
                vessel,
                new FillId(Fixed(600 + (number % 9))),
                TypedNumber.Of(value, "L"),
                TypedNumber.Of(value, "sal:practical")
            ),
            14 => new VesselEmptied(vessel),
            15 => new WaterMoved(vessel, other, TypedNumber.Of(value, "L")),
            16 or 17 => new ReadingTaken(
                TypedNumber.Of(value, number % 2 == 0 ? "sal:practical" : "Cel"),
                vessel,
                Refractometer
            ),
            18 => new InstrumentDescribed(Refractometer, "R", (InstrumentKind)(number % 9), Error: value),
            19 => new InstrumentCalibrated(
                Refractometer,
                TypedNumber.Of(value, "sal:practical"),
                TypedNumber.Of(35, "sal:practical")
            ),
            20 => new VesselFed(vessel, FoodKind.GreenWater, TypedNumber.Of(value, "mL")),
            21 => new SettlementSeen(vessel),
            22 => new CohortsMoved(vessel, other),
            _ => new ProfileValueChosen(
                "Caridina multidentata",
                "larval-salinity-target",
                "{practical}",
                value,
                Reason: "to try"
            ),
        };
    }

    private static IEnumerable<(KeptJournal Kept, Instant Now)> Scenes()
    {
        yield return (WithBrood(), At(5, 14, 18));
        yield return (WithBrood(), At(5, 27, 23));
        yield return (
            WithBrood().Write(At(5, 22, 21), new EggsObserved(Brood1, true, true, EggColour.Pale)),
            At(5, 22, 22)
        );
        yield return (WithBrood().Write(At(5, 20), new EggsDropped(Brood1, Box)), At(5, 21));
        yield return (new KeptJournal().Write(At(5, 26, 7), new HatchingSeen(Brood1)), At(5, 26, 8));
        yield return (BackwardPlanTests.InTheSea(), At(5, 26, 12));
        yield return (Saltier(), At(6, 7, 12));
        yield return (
            Saltier().Write(At(6, 7, 11), new ReadingTaken(TypedNumber.Of(20, "sal:practical"), Jar)),
            At(6, 7, 12)
        );
    }

    private static KeptJournal Saltier() =>
        BackwardPlanTests
            .InTheSea()
            .Write(At(5, 27, 8), new VesselFed(Jar, FoodKind.Film))
            .Write(At(6, 5, 12), new ReadingTaken(TypedNumber.Of(33, "sal:practical"), Jar))
            .Write(At(6, 6, 12), new ReadingTaken(TypedNumber.Of(33.4, "sal:practical"), Jar))
            .Write(At(6, 7, 9), new ReadingTaken(TypedNumber.Of(33.8, "sal:practical"), Jar));

    private static DueList Due(KeptJournal kept, Instant now) => Outlook.Of(kept.Account(), now, Zone).Due;
}
