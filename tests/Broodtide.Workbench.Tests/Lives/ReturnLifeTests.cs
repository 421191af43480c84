using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Settling;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Lives;

/// <summary>
/// The way home of a good run, read off the list of what is due: larvae crossed on 1 June, the watch, single ones first, the
/// vessel diluted when nothing swims any more, the nursery counted, some given away, and word of them coming back.
/// </summary>
public sealed class ReturnLifeTests
{
    private static VesselId Nursery => new(Fixed(80));

    [Fact]
    public void A_good_run_goes_home_and_word_of_it_comes_back()
    {
        var kept = Begun();
        var asked = new List<string>();
        var plans = new Dictionary<LocalDate, ReturnPlan>();
        var hasNursery = false;
        var seen = false;

        // From the middle of June on the keeper reads the list every evening and does what it asks for.
        for (var day = At(6, 15, 20); day < At(8, 1); day += Duration.FromDays(1))
        {
            kept.Write(
                day - Duration.FromHours(12),
                new ReadingTaken(TypedNumber.Of(30, UnitCode.PracticalSalinity), Jar)
            );
            var outlook = Outlook.Of(kept.Account(), day, Zone);
            var due = outlook
                .Due.Items.Where(item => item.Action.From <= day)
                .Select(item => item.Action)
                .ToList();
            asked.AddRange(
                due.Select(action => action.Code).Where(code => code is not ActionCodes.ReadSalinity)
            );
            if (!hasNursery && due.Any(action => action.Code == ActionCodes.ReadyNursery))
            {
                hasNursery = true;
                kept.Write(
                        day,
                        new VesselSetUp(Nursery, "Nursery", VesselRole.Nursery, TypedNumber.Of(20, "L"))
                    )
                    .Write(day, new VesselFilled(Nursery, new(Fixed(81)), TypedNumber.Of(18, "L")))
                    .Write(day, new ReadingTaken(TypedNumber.Of(7, "[dGH]"), Nursery));
            }

            if (!seen && day >= At(7, 5) && due.Any(action => action.Code == ActionCodes.WatchSettlement))
            {
                seen = true;
                kept.Write(day, new SettlementSeen(Jar, 2));
            }

            if (day.InZone(Zone).Date is { Month: 7, Day: 6 or 13 or 20 } date)
            {
                plans[date] = Returning.Plan(outlook, ReturnPlaces.Order(outlook, Jar)).Plan!;
            }
        }

        // Before anybody saw one, the list asked for a nursery with its lid and for a watch; after it, for the return.
        Assert.True(hasNursery && seen);
        Assert.True(asked.IndexOf(ActionCodes.ReadyNursery) < asked.IndexOf(ActionCodes.ReturnJuveniles));
        Assert.True(asked.IndexOf(ActionCodes.WatchSettlement) < asked.IndexOf(ActionCodes.ReturnJuveniles));
        Assert.DoesNotContain(ActionCodes.RaiseSalinity, asked);

        // In the first week of July zoeae swim: never below what they complete in, whatever is wished; single ones may go.
        Assert.All(
            plans.Values.Where(plan => plan.Now!.ZoeaeMayBeThere),
            plan =>
            {
                Assert.NotEqual(DilutionState.ToFreshWater, plan.InSteps.State);
                Assert.All(plan.InSteps.Steps, step => Assert.True(step.ToPpt >= 16.9));
            }
        );
        Assert.DoesNotContain(
            plans.Values.SelectMany(plan => plan.Remarks),
            remark => remark.Code.StartsWith("return-hardness", StringComparison.Ordinal)
        );

        // Single ones go on 21 July; on the 30th nothing swims by lamp or in the dark.
        kept.Write(At(7, 21, 20), new JuvenilesReturned(Jar, Nursery, 14));
        var evening = Outlook.Of(kept.Account(), At(7, 21, 21), Zone);
        Assert.Contains(evening.Due.Items, item => item.Action.Code == ActionCodes.CheckNurseryLid);
        var last = Outlook.Of(kept.Account(), At(7, 31, 20), Zone);
        var home = Returning.Plan(last, ReturnPlaces.Order(last, Jar) with { NoZoeaeByWord = true }).Plan!;
        Assert.Equal(DilutionState.ToFreshWater, home.InSteps.State);
        var at = At(8, 1, 9);
        kept.Write(at, new JuvenilesReturned(Jar, Jar));
        foreach (var step in home.InSteps.Steps)
        {
            var when = at + Duration.FromHours(step.AfterHours);
            kept.Write(when, new WaterMoved(From: Jar, Volume: TypedNumber.Of(step.DrawnOff.Litres, "L")))
                .Write(
                    when + Duration.FromMinutes(10),
                    new WaterMoved(To: Jar, Volume: TypedNumber.Of(step.Added.Litres, "L"))
                );
        }

        // What was poured by the plan is fresh by the ledger, and no list asks for salt again.
        var done = Outlook.Of(kept.Account(), At(8, 20), Zone);
        Assert.InRange(done.LedgerOf(Jar)!.SalinityPpt.Middle, 0, 1.6);
        Assert.DoesNotContain(
            done.Due.Items,
            item =>
                item.Action.Code
                    is ActionCodes.CorrectSalinity
                        or ActionCodes.TopUp
                        or ActionCodes.ReadSalinity
                        or ActionCodes.FeedLarvae
        );
        Assert.Contains(done.Due.Items, item => item.Action.Code == ActionCodes.CountJuveniles);

        // Counted, given away, and heard of.
        kept.Write(At(8, 20), new JuvenilesCounted(Nursery, 12, CountMethod.Full))
            .Write(At(8, 25), new JuvenilesGivenAway(Nursery, 5, "the club"));
        var given = Outlook.Of(kept.Account(), At(8, 26), Zone);
        var book = NurseryBook.Of(given.House, Nursery, given.Profiles.Of(null as string), given.Now)!;
        Assert.Equal(7, book.Alive!.Value.Low);
        Assert.InRange(book.SurvivedShare!.Value.Low, 0.8, 0.9);
        var card = CareCard.Of(given.House, given.Profiles, Assert.Single(book.Gifts));
        Assert.Equal(
            7 * HardnessText.MilligramsPerGermanDegree,
            card.Wishes.HardnessMilligramsPerLitre!.Value,
            6
        );
        var file = SurvivalFile.Write(
            SurvivalFile.Told(card.Gift.Code.Text, "2026-09-20", 4, 5, "one lost in the first week").Value
        );
        var hearing = SurvivalHearing.Hear(given.House, SurvivalFile.Read(file).Value, At(9, 21), Zone).Value;
        kept.Write(hearing.At, hearing.Fact, At(9, 21));
        var heard = NurseryBook.GiftsOf(new House(kept.Account())).Single();
        Assert.Equal(4, heard.Heard.Single().Told.Alive);
    }

    private static KeptJournal Begun()
    {
        var kept = new KeptJournal()
            .Write(At(4, 20), new VesselSetUp(Tank, "Tank", VesselRole.BroodTank))
            .Write(At(4, 20), new VesselSetUp(Jar, "Jar", VesselRole.LarvalVessel, TypedNumber.Of(8, "L")))
            .Write(At(4, 20), new AnimalAcquired(Female, "F1", "Caridina multidentata", Sex.Female, Tank))
            .Write(At(5, 2, 8), new AnimalSeenBerried(Female, Brood1, "Brood 1"))
            .Write(At(5, 2, 8), new RunStarted(Run1, Brood1, "Run 1", "Caridina multidentata"))
            .Write(
                At(5, 31),
                new VesselFilled(
                    Jar,
                    Fill1,
                    TypedNumber.Of(7, "L"),
                    TypedNumber.Of(30, UnitCode.PracticalSalinity)
                )
            )
            .Write(At(6, 1, 8), new CrossingMade(Cohort1, Brood1, Jar, null, 80, CountMethod.Full));
        for (var day = 2; day < 15; day++)
        {
            kept.Write(At(6, day, 8), new ReadingTaken(TypedNumber.Of(30, UnitCode.PracticalSalinity), Jar))
                .Write(At(6, day, 8, 1), new ReadingTaken(TypedNumber.Of(25, "Cel"), Jar));
        }

        return kept;
    }
}
