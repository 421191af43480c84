using Broodtide.Domain;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using Broodtide.Phone.AtTheBench;
using Broodtide.Phone.Bench;
using Broodtide.Units;
using Broodtide.Workbench.Crossing;
using Broodtide.Workbench.Mixing;
using Broodtide.Workbench.Recording;
using NodaTime;

namespace Broodtide.Browser.Tests.Parts;

public sealed class CrossingDeedsTests
{
    private static readonly Instant Began = Instant.FromUtc(2026, 5, 20, 18, 0);

    [Fact]
    public void A_kept_crossing_comes_back_with_the_same_plan()
    {
        var plan = Planned(SmallCup);
        var read = KeptCrossing.Read(
            (KeptCrossing.Of(plan.Order) with { Collections = [Guid.NewGuid()] }).ToText()
        );

        Assert.NotNull(read);
        Assert.Equal(plan.Order, read.Value.Plan.Order);
        Assert.Equal(plan.AtTheBench(), read.Value.Plan.AtTheBench());
        Assert.Single(read.Value.Kept.Collections);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("{")]
    [InlineData("{}")]
    [InlineData("""{"bandLow":30,"bandTarget":20}""")]
    public void What_nobody_can_read_is_no_crossing(string? text) => Assert.Null(KeptCrossing.Read(text));

    [Fact]
    public void Water_drawn_off_belongs_to_the_pour_that_follows_and_nothing_is_left_out()
    {
        var plan = Planned(SmallCup);
        var deeds = CrossingDeeds.Of(plan);
        var sheet = plan.AtTheBench();

        Assert.Contains(deeds.All, deed => deed.CupDrawnOff > default(Volume));
        Assert.Equal(
            sheet.Where(it => it.Act == BenchAct.DrawOffCup).Sum(it => it.Water.Litres),
            deeds.All.Sum(deed => deed.CupDrawnOff.Litres),
            9
        );
        Assert.Equal(
            sheet.Count(it => it.Act is BenchAct.PourIntoCup or BenchAct.PourPortion or BenchAct.PourWhole),
            deeds.All.Count
        );
        Assert.Equal(BenchAct.PourWhole, deeds.All[^1].Act);
    }

    [Fact]
    public void Minutes_in_brackish_water_follow_the_times_at_which_the_pours_were_made()
    {
        var deeds = CrossingDeeds.Of(Planned(SmallCup));
        var run = AsPlanned(deeds);
        Assert.Equal(deeds.Plan.MinutesBrackish, deeds.MinutesBrackish(run, run.Done[^1]), 6);

        // Every pour half a minute late: the first does not count, each brackish standing grows with its end.
        var slow = run with
        {
            Done = [.. run.Done.Select((at, index) => at + (index * Duration.FromSeconds(30)))],
        };
        var brackish = deeds.Plan.Steps.Count(step => step.IsBrackish);
        Assert.True(brackish > 0);
        Assert.Equal(
            deeds.Plan.MinutesBrackish + (0.5 * brackish),
            deeds.MinutesBrackish(slow, slow.Done[^1]),
            6
        );
    }

    [Fact]
    public void The_dot_waits_before_a_pour_that_is_late_and_ends_where_the_crossing_ends()
    {
        var deeds = CrossingDeeds.Of(Planned(SmallCup));
        var run = BenchRun.Begin(Steps(deeds), Began);
        Assert.Null(deeds.Stair(run, Began).NowMinute);

        run = run.DoneAt(Began);
        var second = deeds.All[1].OffsetSeconds / 60;
        var late = deeds.Stair(run, Began + Duration.FromHours(1));
        Assert.InRange(late.NowMinute!.Value, 0, second);
        Assert.True(late.NowMinute < second);
        var all = AsPlanned(deeds);
        var end = deeds.Stair(all, all.Done[^1]);
        Assert.Equal(end.EndMinute, end.NowMinute);
    }

    [Fact]
    public void The_entry_tells_each_pour_with_its_seconds_what_went_in_and_how_salt_it_was()
    {
        var deeds = CrossingDeeds.Of(Planned(SmallCup));
        var run = AsPlanned(deeds);
        var keeper = new Keeper(
            new("Test"),
            new StillClock(run.Done[^1]),
            DateTimeZone.Utc,
            Guid.CreateVersion7
        );
        var (brood, jar, collection) = (keeper.New<BroodId>(), keeper.New<VesselId>(), Guid.CreateVersion7());
        var kept = KeptCrossing.Of(deeds.Plan.Order) with { Collections = [collection] };
        // An empty house: the jar was never filled, so the cup's water is told as its filling.
        var drafts = CrossingTold.Larvae(
            kept,
            deeds,
            run,
            new CrossingCounted(brood, jar, 120, CountMethod.Full, run.Done[^1]),
            new House(new()),
            keeper
        );

        var made = Assert.IsType<CrossingMade>(drafts[^1].Fact);
        Assert.Equal((brood, jar, 120, CountMethod.Full), (made.Brood, made.To, made.Number, made.Method));
        Assert.Equal([new CollectionId(collection)], made.Collections);
        Assert.Equal(deeds.Plan.MinutesBrackish, made.BrackishMinutes!.Value, 2);
        Assert.Equal(deeds.Plan.Steps.Count, made.Pours!.Count);
        Assert.Equal(
            deeds.Plan.Steps.Select(step => Math.Round(60 * step.OffsetMinutes, 1)),
            made.Pours.Select(pour => pour.AfterSeconds)
        );
        Assert.Equal(deeds.Plan.SourceUsed.Litres, made.Pours.Sum(pour => pour.Added!.Value), 3);
        var filled = Assert.Single(drafts.Select(draft => draft.Fact).OfType<VesselFilled>());
        Assert.Equal(deeds.Entered(run.Next).Litres, filled.Volume.Value, 3);
        Assert.Null(made.Entered);
        Assert.Equal(Began + CrossingDeeds.Lead, drafts[^1].Happened.Earliest);

        // Told back by the journal: one vessel with a name and with water, one cohort in it, nothing that does not agree.
        var setUp = keeper.Write(
            new VesselSetUp(jar, "Jar B", VesselRole.LarvalVessel),
            Domain.Journal.Happened.At(run.Done[0])
        );
        var account = new Domain.Journal.Account();
        var replica = new ReplicaId(Guid.CreateVersion7());
        Domain.Journal.Entry? last = null;
        foreach (var draft in drafts.Prepend(setUp))
        {
            last = draft.Seal(
                replica,
                (last?.Envelope.Sequence ?? 0) + 1,
                last?.Digest,
                new byte[Domain.Journal.EntryBytes.SaltLength]
            );
            account.Add(last);
        }

        var house = new House(account);
        Assert.Equal("Jar B", Assert.Single(house.Vessels).Name);
        Assert.NotNull(house.Vessel(jar).Standing);
        Assert.Equal([jar], Assert.Single(house.Cohorts).VesselsAt(run.Done[^1]));
        Assert.Empty(house.Conflicts());
    }

    private static CrossingOrder SmallCup { get; } =
        new()
        {
            CupCapacity = Volume.FromMillilitres(500),
            Cup = Water(0.3, 0),
            Source = Water(5, 33),
            Receiving = Water(6, 30),
            ReceivingCapacity = Volume.FromLitres(8),
        };

    private static WaterBody Water(double litres, double practical) =>
        new(Volume.FromLitres(litres), Salinity.FromPractical(practical), Temperature.FromCelsius(25));

    private static CrossingPlan Planned(CrossingOrder order) =>
        Assert.IsType<CrossingAnswer.Planned>(CrossingPlanner.Plan(order)).Plan;

    private static IReadOnlyList<BenchStep> Steps(CrossingDeeds deeds) =>
        [.. deeds.All.Select((_, at) => new BenchStep(deeds.WaitBefore(at), "deed", "how", "done"))];

    private static BenchRun AsPlanned(CrossingDeeds deeds)
    {
        var run = BenchRun.Begin(Steps(deeds), Began);
        while (!run.IsFinished)
        {
            run = run.DoneAt(run.At(run.Next));
        }

        return run;
    }

    private sealed class StillClock(Instant at) : IClock
    {
        public Instant GetCurrentInstant() => at;
    }
}
