using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Planning;

namespace Broodtide.Workbench.Tests.Lives;

/// <summary>
/// A good run from the shop to larvae in a cup, walked evening by evening: the keeper does what the list says and nothing
/// else, and the animals do what they do. Each test reads the same diary.
/// </summary>
public class GoodRunTests
{
    private static readonly Lazy<GoodRun> Walked = new(GoodRun.Walk);

    private static GoodRun Run => Walked.Value;

    [Fact]
    public void The_list_leads_from_the_shop_to_the_cup_in_the_order_of_a_life()
    {
        string[] order =
        [
            ActionCodes.KeepNewApart,
            ActionCodes.SexAdults,
            ActionCodes.LookForEggs,
            ActionCodes.LookAtEggs,
            ActionCodes.MixSeaWater,
            ActionCodes.Isolate,
            ActionCodes.GatherLarvae,
            ActionCodes.ReturnFemale,
        ];
        var done = order.Select(code => (Code: code, At: Run.FirstShown(code))).ToList();

        Assert.All(done, pair => Assert.True(pair.At is not null, pair.Code));
        Assert.All(order, code => Assert.True(Run.FirstDone(code) is not null, code));
        Assert.Equal(done.OrderBy(pair => pair.At).Select(pair => pair.Code), order);
    }

    [Fact]
    public void New_animals_stay_apart_for_weeks_and_nothing_nags_after()
    {
        var apart = Run.Shown(ActionCodes.KeepNewApart);

        Assert.Single(apart.Select(evening => evening.Key).Distinct());
        Assert.InRange(apart.Count, 26, 30);
    }

    [Fact]
    public void The_eggs_are_seen_within_three_days_of_the_laying()
    {
        var seen = Run.Brood.FirstSeenBerried!.Value.Latest;

        Assert.InRange((seen - Run.Laid).TotalDays, 0, 3.5);
        Assert.Equal(
            Run.Moulted,
            Outlook
                .Of(Run.Account, seen, KeptJournal.Zone)
                .HistoryOf(Run.Mother)
                .Clutches[0]
                .Laid!.Moult!.Value.Latest
        );
    }

    [Fact]
    public void Sea_water_stands_and_she_is_alone_before_the_larvae_come()
    {
        Assert.True(Run.FirstDone(ActionCodes.MixSeaWater) < Run.Hatched);
        Assert.True(Run.Brood.Isolated!.Value.Latest < Run.Hatched);
        Assert.InRange((Run.Hatched - Run.Brood.Isolated.Value.Latest).TotalDays, 0, 9);
    }

    [Fact]
    public void The_night_of_the_hatch_is_among_the_likeliest_and_somebody_looks()
    {
        var evening = Run.Tonights[^1];
        var chances = Run.Tonights.Select(told => told.Chance).ToList();

        Assert.True(evening.Chance > 0.05, $"{evening.Chance}");
        Assert.True(chances.Count(chance => chance > evening.Chance) <= 3);
        Assert.InRange((Run.Brood.FirstLarvae!.Value.Latest - Run.Hatched).TotalHours, 0, 12);
    }

    [Fact]
    public void No_evening_asks_for_more_than_a_keeper_can_do()
    {
        // What may slip stands at the end; what cannot, on one evening, fits on a hand or two.
        Assert.All(Run.Evenings, evening => Assert.True(evening.Firm <= 8, $"{evening.At}: {evening.Firm}"));
        Assert.All(Run.Evenings, evening => Assert.Equal(evening.Items > 0 ? 1 : 0, evening.Next));
    }

    [Fact]
    public void Whatever_was_asked_has_a_reason_that_every_door_can_say() =>
        Assert.All(Run.Reasons, code => Assert.Contains(code, PlanRemarks.All));

    [Fact]
    public void When_she_is_back_the_list_waits_for_the_day_she_may_carry_again()
    {
        var again = Run.After.CarryAgainOf(Run.After.House.Animal(Run.Mother.Id));
        var look = Run.After.Due.Items.SingleOrDefault(item =>
            item.Action.Code is ActionCodes.LookForEggs && item.Action.About.Id == Run.Mother.Id.Value
        );

        Assert.NotNull(again.When);
        Assert.True(again.When.Early > Run.Hatched);
        Assert.NotNull(look);
        Assert.True(look.Action.From >= again.When.Early);
        Assert.Equal(
            VesselRole.BroodTank,
            Run.After.House.Vessel(Run.After.House.Animal(Run.Mother.Id).PlaceAt(Run.After.Now)!.Value).Role
        );
    }

    [Fact]
    public void The_larvae_are_in_the_books_as_collections_of_one_brood()
    {
        var brood = Run.After.House.Brood(Run.Brood.Id);

        Assert.True(brood.Gatherings.Count >= 2);
        Assert.Equal(240, brood.Gatherings.Sum(one => one.Made.Number));
        Assert.All(brood.Gatherings, one => Assert.Equal(brood.Id, one.Made.Brood));
        Assert.Empty(Run.After.Conflicts);
    }

    [Fact]
    public void Laying_and_eggs_were_never_guessed_wrong_by_the_forecast()
    {
        var told = Run.After.House.Brood(Run.Brood.Id);

        Assert.Empty(told.Conflicts);
        Assert.True(Run.Windows.Count > 10);
        Assert.True(
            Run.Windows.Count(window => window.From <= Run.Hatched && window.To >= Run.Hatched)
                >= 0.9 * Run.Windows.Count
        );
    }
}
