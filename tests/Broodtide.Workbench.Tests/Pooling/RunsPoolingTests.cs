using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Demo;
using Broodtide.Workbench.Pooling;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Tests.Pooling;

/// <summary>Pooling by hand: invented broods whose degree-days are known because they were made so.</summary>
public sealed class RunsPoolingTests
{
    private static readonly DateTimeZone Zone = DateTimeZoneProviders.Tzdb["Europe/Paris"];
    private static readonly Instant Now = Instant.FromUtc(2026, 6, 1, 12, 0);

    private static readonly PoolingWishes Wishes = new();

    [Fact]
    public void An_empty_journal_leaves_what_is_published()
    {
        foreach (var number in RunsPooling.Of(House([]), null, Wishes))
        {
            Assert.Empty(number.Runs);
            Assert.Empty(number.Choice);
            Assert.Null(number.Alone);
            Assert.Equal(number.Published.Low, number.Next.Low, 1e-9);
            Assert.Equal(number.Published.High, number.Next.High, 1e-9);
            Assert.Equal(1, number.WidthRatio, 1e-9);
        }
    }

    [Fact]
    public void A_brood_watched_daily_says_its_own_degree_days()
    {
        // 30 days at 25.5 degC are 765 degree-days by hand; the profile says 637.5.
        var number = Eggs(House([(30, 25.5)]));
        var says = Assert.Single(number.Runs);
        Assert.Equal(30 * 25.5, says.Alone.Middle, 20.0);
        Assert.InRange(says.Alone.Width / says.Alone.Middle, 0.02, 0.2);
        Assert.True(number.Next.Middle > number.Published.Middle);
        Assert.True(number.Next.Middle < says.Alone.Middle);
        Assert.InRange(says.Weight, 0.2, 0.9);
        Assert.Equal(637.5, number.Quantity.Original.Value);
        Assert.Equal(number.Published, Round(number.Published, says.NextWithout!.Value));
    }

    [Fact]
    public void A_cooler_brood_counts_above_the_base_and_not_by_its_days()
    {
        // By the linear model above 5 degC: 637.5 degree-days at 25.5 degC are 25 days there, and 25 x 20.5 / 16.5 at 21.5.
        var days = 25 * (25.5 - 5) / (21.5 - 5);
        var says = Assert.Single(Eggs(House([(days, 21.5)])).Runs);
        Assert.Equal(637.5, says.Alone.Middle, 20.0);
        // Far from the reference the unknown base makes it less sure.
        Assert.True(says.Alone.Width > Assert.Single(Eggs(House([(25, 25.5)])).Runs).Alone.Width);
    }

    [Fact]
    public void Many_runs_carry_the_belief_to_where_they_agree()
    {
        var one = Eggs(House([(30, 25.5)]));
        var eight = Eggs(House([.. new[] { 27.0, 28, 29, 30, 30, 31, 32, 33 }.Select(days => (days, 25.5))]));
        Assert.Equal(8, eight.Counted);
        Assert.True(eight.WidthRatio < one.WidthRatio);
        Assert.Equal(30 * 25.5, eight.Next.Middle, 20.0);
        // Runs alone, three or more, have limits by Knapp and Hartung; they hold what was put in.
        Assert.NotNull(eight.Alone);
        Assert.Null(one.Alone);
        Assert.True(eight.Alone.Mean.Contains(30 * 25.5));
        Assert.False(eight.Alone.Mean.Contains(637.5));
        Assert.True(eight.Alone.Next.Width > eight.Alone.Mean.Width);
    }

    [Fact]
    public void A_run_that_is_left_out_stays_in_sight_and_moves_nothing()
    {
        var house = House([(30, 25.5), (24, 25.5)]);
        var all = Eggs(house);
        var without = Eggs(house, Wishes with { Without = new HashSet<string> { "Run 1" } });
        var gone = Assert.Single(without.Runs, run => run.Source.Key == "Run 1");
        Assert.Equal(LeftOut.ByWish, gone.LeftOut);
        Assert.Equal(0, gone.Weight);
        Assert.Null(gone.NextWithout);
        var effect = Assert.Single(all.Runs, run => run.Source.Key == "Run 1").NextWithout;
        Assert.Equal(effect, without.Next);
    }

    [Fact]
    public void What_is_offered_can_stand_in_the_profile_and_says_the_same_there()
    {
        var number = Eggs(House([(30, 25.5), (29, 25.5)]));
        var profile = SpeciesProfiles.Reference.With([
            .. number.Choice.Select(part => new ProfileChoice(
                part.Code,
                part.Value,
                part.Low,
                part.High,
                SpeciesProfiles.Reference.Find(part.Code)!.Unit.Code,
                "pooled from invented runs",
                "a test",
                Now
            )),
        ]);
        Assert.Empty(profile.Conflicts);
        Assert.Equal(number.Next.Middle, profile.EmbryoThermal.DegreeDays, 1e-9);
        Assert.Equal(
            number.Next.High / number.Next.Low,
            Math.Pow(profile.EmbryoThermal.SpreadFactor, 2),
            1e-9
        );
        Assert.Equal(637.5, profile.Find(QuantityCodes.EmbryoDegreeDays)!.Original.Value);
    }

    [Fact]
    public void Others_runs_count_beside_the_own_and_say_whose_they_are()
    {
        var other = new OthersAccount("a keeper elsewhere (invented)", House([(30, 25.5)]).House.Account);
        var number = RunsPooling
            .Of(House([(24, 25.5)]), null, Wishes, [other])
            .Single(it => it.Quantity.Code == QuantityCodes.EmbryoDegreeDays);
        Assert.Equal([null, other.From], number.Runs.Select(run => run.Source.From));
        Assert.Equal(2, number.Counted);
    }

    [Fact]
    public void The_invented_house_leaves_out_what_is_under_way()
    {
        var journal = Account.Of(Told(InventedHouse.Drafts(Now, Zone)));
        var outlook = Outlook.Of(journal, Now, Zone);
        var numbers = RunsPooling.Of(outlook, null, Wishes);
        Assert.Contains(numbers, number => number.Counted > 0);
        var larval = numbers.Where(number =>
            number.Quantity.Code.StartsWith("larval", StringComparison.Ordinal)
        );
        Assert.Contains(larval.SelectMany(number => number.Runs), run => run.LeftOut is LeftOut.UnderWay);
        var more = RunsPooling.Of(outlook, null, Wishes with { WithUnderWay = true });
        Assert.True(more.Sum(number => number.Counted) > numbers.Sum(number => number.Counted));
        Assert.All(
            more.SelectMany(number => number.Runs.Select(run => (number, run))),
            pair => Assert.InRange(pair.run.Alone.Middle, double.Epsilon, 1e4)
        );
    }

    private static List<Entry> Told(IReadOnlyList<Draft> drafts)
    {
        var entries = new List<Entry>();
        foreach (var draft in drafts)
        {
            entries.Add(
                draft.Seal(
                    new ReplicaId(new Guid(9, 9, 9, [0x80, 0, 0, 0, 0, 0, 0, 9])),
                    entries.Count + 1,
                    entries.Count == 0 ? null : entries[^1].Digest,
                    new byte[EntryBytes.SaltLength]
                )
            );
        }

        return entries;
    }

    private static Units.Interval Round(Units.Interval near, Units.Interval other) =>
        Math.Abs(near.Low - other.Low) < 1e-9 && Math.Abs(near.High - other.High) < 1e-9 ? near : other;

    private static PooledNumber Eggs(Outlook outlook, PoolingWishes? wishes = null) =>
        RunsPooling
            .Of(outlook, null, wishes ?? Wishes)
            .Single(number => number.Quantity.Code == QuantityCodes.EmbryoDegreeDays);

    // Invented broods one after the other, each seen empty the day before it spawned and looked at every morning.
    private static Outlook House(IReadOnlyList<(double Days, double Celsius)> broods)
    {
        var drafts = new List<Draft>();
        var identity = 0;
        var tank = new VesselId(Next());
        var zero = Instant.FromUtc(2024, 1, 1, 20, 0);
        Tell(zero, new VesselSetUp(tank, "Tank (invented)", VesselRole.BroodTank, TypedNumber.Of(50, "L")));
        var day = 2.0;
        foreach (var (number, (days, celsius)) in broods.Index())
        {
            var (animal, brood, run) = (new AnimalId(Next()), new BroodId(Next()), new RunId(Next()));
            Tell(
                At(day - 1.5),
                new AnimalAcquired(animal, $"Female {number + 1} (invented)", Sex: Sex.Female, Vessel: tank)
            );
            Tell(At(day - 0.5), new AnimalSeenEmpty(animal));
            Tell(At(day + 0.5), new AnimalSeenBerried(animal, brood, $"Run {number + 1}"));
            Tell(
                At(day + 0.51),
                new RunStarted(run, brood, $"Run {number + 1}", SpeciesProfiles.Reference.ScientificName)
            );
            for (var at = 0.0; at < days; at++)
            {
                Tell(At(day + at), new ReadingTaken(TypedNumber.Of(celsius, "Cel"), tank));
            }

            Tell(At(day + days - 0.6), new EggsObserved(brood, Carried: true));
            Add(Happened.Between(At(day + days - 0.3), At(day + days + 0.3)), new HatchingSeen(brood, tank));
            day += days + 20;
        }

        return Outlook.Of(Account.Of(Told(drafts)), Now, Zone);

        void Add(Happened happened, Fact fact) =>
            drafts.Add(
                new(
                    new EntryId(Next()),
                    new Author("keeper (invented)"),
                    happened.Latest,
                    Zone.Id,
                    happened,
                    fact
                )
            );

        Guid Next() => new(++identity, 0, 0, [0x80, 0, 0, 0, 0, 0, 0, 1]);

        Instant At(double days) => zero + Duration.FromDays(days);

        void Tell(Instant when, Fact fact) => Add(Happened.At(when), fact);
    }
}
