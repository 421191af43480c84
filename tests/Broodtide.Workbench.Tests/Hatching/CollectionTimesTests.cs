using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Workbench.Hatching;
using CsCheck;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Hatching;

public sealed class CollectionTimesTests
{
    private static int _collections = 500;

    [Fact]
    public void In_the_evening_of_a_hatch_night_the_times_are_on_half_hours_awake_and_save_larvae()
    {
        var times = Times(Hatching(), At(5, 27, 20, 10));

        Assert.Equal(1, times.Chance.Value);
        Assert.Equal(new LocalDate(2026, 5, 27), times.Evening);
        Assert.NotEmpty(times.Gatherings);
        Assert.All(
            times.Gatherings,
            gathering =>
            {
                var local = gathering.At.InZone(Zone).LocalDateTime;
                Assert.True(local.Minute % 30 == 0 && local.Second == 0);
                Assert.True(KeeperHours.Usual.Able(local.TimeOfDay));
                Assert.True(gathering.At >= At(5, 27, 20, 30) && gathering.At <= At(5, 28, 12));
                Assert.InRange(gathering.LostIfSkipped.Middle, 0.1, gathering.Larvae.Middle);
            }
        );
        // Larvae that hatch while the keeper sleeps wait for the morning.
        Assert.Contains(times.Gatherings, gathering => gathering.At.InZone(Zone).Hour is 7);
        Assert.InRange(times.Share.Middle, 0.5, 1);
        Assert.InRange(times.Share.High, times.Share.Middle, 1);
    }

    [Fact]
    public void Somebody_awake_all_night_loses_fewer()
    {
        CollectionTimes Free(KeeperHours hours)
        {
            var outlook = Outlook.Of(Hatching().Account(), At(5, 27, 20), Zone);
            var brood = outlook.House.Brood(Brood1);
            // Where a gathering costs nothing, so that only the hours differ.
            var keeper = new CollectingKeeper(hours, WorthShare: 0);
            return CollectionTimes
                .Of(brood, [], outlook.Profiles.Of(Brood1), null, keeper, At(5, 27, 20), Zone)
                .Times!;
        }

        var (asleep, awake) = (Free(KeeperHours.Usual), Free(new([])));
        Assert.Equal(4, awake.Gatherings.Count);
        // Those left in the box at noon are not lost yet.
        Assert.True(awake.Larvae.Middle + awake.Left.Middle > asleep.Larvae.Middle + asleep.Left.Middle);
    }

    [Fact]
    public void Own_gatherings_late_in_the_night_move_the_hour_later()
    {
        var kept = Hatching();
        var before = Times(kept, At(5, 28, 20));
        Gather(kept, At(5, 27, 23), 3);
        Gather(kept, At(5, 28, 1, 30), 12);
        Gather(kept, At(5, 28, 7), 90);
        var after = Times(kept, At(5, 28, 20));

        Assert.Equal(0, before.NightsLearnedFrom);
        Assert.Contains(before.Remarks, remark => remark.Code == "collect-hours-assumed");
        Assert.Equal(1, after.NightsLearnedFrom);
        Assert.Contains(after.Remarks, remark => remark.Code == "collect-hours-learned");
        Assert.True(after.PeakHoursAfterNoon.Middle > before.PeakHoursAfterNoon.Middle + 0.7);
    }

    [Fact]
    public void A_large_gathering_tonight_raises_what_the_whole_night_is_believed_to_bring()
    {
        var (many, few) = (Hatching(), Hatching());
        Gather(many, At(5, 27, 22), 120);
        Gather(few, At(5, 27, 22), 3);

        // Many so early may also mean that most are out already: the night as a whole is what grows.
        Assert.True(
            120 + Times(many, At(5, 27, 22, 5)).Larvae.Middle
                > 1.5 * (3 + Times(few, At(5, 27, 22, 5)).Larvae.Middle)
        );
    }

    [Fact]
    public void Nights_after_the_first_hold_fewer_than_were_gathered()
    {
        var kept = Hatching();
        Gather(kept, At(5, 27, 22), 60);
        Gather(kept, At(5, 28, 7), 60);
        var next = Times(kept, At(5, 28, 20));
        var third = Times(kept, At(5, 29, 20));

        Assert.InRange(next.Larvae.Middle, 1, 80);
        Assert.True(third.Larvae.Middle < next.Larvae.Middle);
    }

    [Fact]
    public void What_lies_in_the_box_in_the_morning_is_gathered_at_once()
    {
        var times = Times(Hatching(), At(5, 28, 7, 10));

        Assert.Equal(At(5, 28, 7, 30), times.Gatherings[0].At);
        Assert.True(times.Gatherings[0].Larvae.Middle > 20);
    }

    [Fact]
    public void Before_the_hatch_the_chance_is_the_forecasts_and_far_off_it_says_so()
    {
        var kept = WithBrood();
        var now = At(5, 12, 20);
        var times = Times(kept, now);
        Assert.Contains(times.Remarks, remark => remark.Code == "collect-hardly-due");
        Assert.InRange(times.Chance.Value, 0, 0.05);
        Assert.True(Times(kept, At(5, 26, 20)).Chance.Value > times.Chance.Value);
    }

    [Fact]
    public void A_keeper_who_is_away_gets_no_time_before_the_return()
    {
        var kept = Hatching();
        kept.Write(At(5, 27, 18), new KeeperLeft(At(5, 28, 9)));
        var times = Times(kept, At(5, 27, 20));
        Assert.All(times.Gatherings, gathering => Assert.True(gathering.At >= At(5, 28, 9)));
        Assert.Contains(times.Remarks, remark => remark.Code == "collect-away");

        kept.Write(At(5, 27, 19), new KeeperLeft());
        var open = Times(kept, At(5, 27, 20));
        Assert.Empty(open.Gatherings);
        Assert.Contains(open.Remarks, remark => remark.Code == "collect-away-open");
        Assert.Contains(open.Remarks, remark => remark.Code == "collect-nobody-can");
    }

    [Fact]
    public void Hatching_that_is_over_and_a_brood_never_seen_are_refused()
    {
        var kept = Hatching().Write(At(5, 29, 8), new HatchingSeen(Brood1, Over: true));
        var outlook = Outlook.Of(kept.Account(), At(5, 29, 20), Zone);
        Assert.Equal("collect-hatching-over", outlook.CollectionTimesOf(Brood1).Refusal!.Code);
        Assert.Equal("brood-never-seen", outlook.CollectionTimesOf(new BroodId(Fixed(77))).Refusal!.Code);
    }

    [Fact]
    public void Gatherings_without_numbers_empty_the_box_and_are_pointed_out()
    {
        var kept = Hatching();
        kept.Write(At(5, 28, 1), new CollectionMade(NextCollection(), Brood1));
        var times = Times(kept, At(5, 28, 1, 10), new([]));
        Assert.Contains(times.Remarks, remark => remark.Code == "collect-numbers-missing");
        Assert.True(times.Larvae.Middle < Times(Hatching(), At(5, 28, 1, 10), new([])).Larvae.Middle);
    }

    [Fact]
    public void At_any_hour_with_any_gatherings_the_numbers_hold_together() =>
        Gen.Select(
                Gen.Int[0, 71],
                Gen.Select(Gen.Int[0, 71], Gen.Int[0, 500]).Array[0, 5],
                Gen.Int[0, 23],
                Gen.Int[0, 23]
            )
            .Sample(
                (hour, gathered, from, until) =>
                {
                    var kept = Hatching();
                    foreach (var (at, number) in gathered)
                    {
                        Gather(kept, At(5, 27, 18) + Duration.FromHours(at), number);
                    }

                    var times = Times(
                        kept,
                        At(5, 27, 18) + Duration.FromHours(hour),
                        new([new(new LocalTime(from, 0), new LocalTime(until, 0))])
                    );
                    Assert.InRange(times.Share.Low, 0, times.Share.Middle);
                    Assert.InRange(times.Share.High, times.Share.Middle, 1);
                    Assert.True(times.Gatherings.Count <= CollectionTimes.UsualMost);
                    Assert.All(times.Gatherings, gathering => Assert.True(gathering.LostIfSkipped.Low >= 0));
                    Assert.InRange(times.LostPerHour.Middle, 0.001, 0.2);
                },
                iter: 25
            );

    private static KeptJournal Hatching() => WithBrood().Write(At(5, 27, 19, 30), new HatchingSeen(Brood1));

    private static CollectionTimes Times(KeptJournal kept, Instant now, KeeperHours? hours = null) =>
        Outlook.Of(kept.Account(), now, Zone).CollectionTimesOf(Brood1, hours).Times!;

    private static void Gather(KeptJournal kept, Instant at, int number) =>
        kept.Write(at, new CollectionMade(NextCollection(), Brood1, Number: number));

    private static CollectionId NextCollection() => new(Fixed(Interlocked.Increment(ref _collections)));
}
