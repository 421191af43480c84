using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Species;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Tests.Lives;

public sealed class DroppedEggsLifeTests
{
    private static VesselId EggJar => new(Fixed(60));

    private static SpeciesProfile Profile => SpeciesProfiles.Reference;

    // Cao et al. 2020, Progress in Fishery Sciences 41(1):145-152 (abstract): eggs off the mother hatched 80.7 +- 2.4 % at
    // the last stage, 28.2 +- 2.6 % at cleavage; on the mother 79.1 +- 4.9 %.
    [Fact]
    public void Late_eggs_hatch_as_well_as_on_her_and_early_ones_about_a_quarter()
    {
        var late = DroppedEggs.ShareAt(Profile, Interval.Exactly(0.97))!.Value;
        var early = DroppedEggs.ShareAt(Profile, Interval.Exactly(0.04))!.Value;

        Assert.Equal((0.783, 0.807, 0.831), (late.Low, Math.Round(late.Middle, 12), late.High));
        Assert.Equal((0.256, 0.282, 0.308), (early.Low, early.Middle, early.High));
        var between = DroppedEggs.ShareAt(Profile, Interval.Exactly(0.5))!.Value;
        Assert.Equal((0.256, 0.831), (between.Low, between.High));
        Assert.InRange(between.Middle, 0.4, 0.7);
    }

    [Fact]
    public void The_share_rises_with_the_age_of_the_eggs()
    {
        var before = DroppedEggs.ShareAt(Profile, Interval.Exactly(0))!.Value;
        for (var at = 0.02; at <= 1; at += 0.02)
        {
            var share = DroppedEggs.ShareAt(Profile, Interval.Exactly(at))!.Value;
            Assert.True(
                share.Low >= before.Low && share.Middle >= before.Middle && share.High >= before.High
            );
            before = share;
        }
    }

    private static KeptJournal Drop(int day)
    {
        var kept = WithBrood(readingDays: day - 2);
        return kept.Write(
                At(5, day, 8),
                new VesselSetUp(EggJar, "Egg jar", VesselRole.EggVessel, TypedNumber.Of(1, "L"))
            )
            .Write(At(5, day, 8), new VesselFilled(EggJar, new FillId(Fixed(61)), TypedNumber.Of(1, "L")))
            .Write(At(5, day, 9), new EggsDropped(Brood1, EggJar, 150));
    }

    [Fact]
    public void A_drop_of_eyed_eggs_is_tended_twice_a_day_forecast_and_gathered()
    {
        var kept = WithBrood(readingDays: 18)
            .Write(At(5, 18, 20), new EggsObserved(Brood1, Carried: true, Eyed: true))
            .Write(
                At(5, 20, 8),
                new VesselSetUp(EggJar, "Egg jar", VesselRole.EggVessel, TypedNumber.Of(1, "L"))
            )
            .Write(At(5, 20, 8), new VesselFilled(EggJar, new FillId(Fixed(61)), TypedNumber.Of(1, "L")))
            .Write(At(5, 20, 9), new EggsDropped(Brood1, EggJar, 150));

        var eggs = DroppedEggs.Of(kept.Seen(At(5, 20, 10)), Brood1)!;
        Assert.Equal(EggWorth.Worth, eggs.Worth);
        Assert.True(eggs.DevelopedShare.Middle > 0.6, $"{eggs.DevelopedShare}");
        Assert.InRange(eggs.Larvae!.Value.Middle, 75, 125);
        Assert.Equal(29, eggs.WarmestWithoutLoss!.Value);
        // Same model, same eggs, now in the jar: near 26 or 27 May.
        Assert.InRange(eggs.Forecast.Median, At(5, 23), At(5, 30));

        // Morning: tend, and read the jar's water.
        var morning = kept.Due(At(5, 20, 10)).Items.Select(item => item.Action).ToList();
        var tend = morning.Where(action => action.Code == ActionCodes.TendDroppedEggs).ToList();
        Assert.Equal(2, tend.Count);
        Assert.DoesNotContain(
            morning,
            action => action.Code is ActionCodes.Isolate or ActionCodes.ReadyHatchingBox
        );
        var warmth = morning.Single(action =>
            action.Code == ActionCodes.ReadTemperature && action.About == Subject.Of(EggJar)
        );
        Assert.Equal(29.0, warmth.Reason["celsius"]);
        kept.Write(At(5, 20, 10, 5), new ActionDone(tend.MinBy(action => action.From)!.Key))
            .Write(At(5, 20, 10, 6), new ReadingTaken(TypedNumber.Of(25, "Cel"), EggJar));
        var noon = kept.Due(At(5, 20, 11)).Items.Select(item => item.Action).ToList();
        Assert.Single(noon, action => action.Code == ActionCodes.TendDroppedEggs);
        Assert.DoesNotContain(
            noon,
            action => action.Code == ActionCodes.ReadTemperature && action.About == Subject.Of(EggJar)
        );

        // Day by day until the nights come: then the list asks to look three times a day.
        var looked = 0;
        for (var day = 21; day <= 26; day++)
        {
            kept.Write(At(5, day, 7), new ReadingTaken(TypedNumber.Of(25, "Cel"), EggJar));
            looked = Math.Max(
                looked,
                kept.Due(At(5, day, 6)).Items.Count(item => item.Action.Code == ActionCodes.LookForLarvae)
            );
        }

        Assert.Equal(3, looked);

        kept.Write(At(5, 26, 22), new HatchingSeen(Brood1, EggJar));
        Assert.Equal(At(5, 20, 9), DroppedEggs.Of(kept.Seen(At(5, 26, 22, 10)), Brood1)!.Since);
        var out0 = kept.Due(At(5, 26, 22, 10)).Items.Select(item => item.Action.Code).ToList();
        Assert.Contains(ActionCodes.GatherLarvae, out0);
        Assert.DoesNotContain(ActionCodes.TendDroppedEggs, out0);
        kept.Write(At(5, 28, 8), new HatchingSeen(Brood1, EggJar, Over: true));
        Assert.Contains(
            DroppedEggs.Of(kept.Seen(At(5, 28, 9)), Brood1)!.Assumed,
            remark => remark.Code == "eggs-hatching-over"
        );
    }

    [Fact]
    public void Eggs_dropped_in_the_first_days_are_hardly_worth_it()
    {
        var eggs = DroppedEggs.Of(Drop(5).Seen(At(5, 5, 10)), Brood1)!;

        Assert.True(eggs.DevelopedShare.Middle < 0.25, $"{eggs.DevelopedShare}");
        Assert.Equal(EggWorth.Hardly, eggs.Worth);
        Assert.True(eggs.HatchingShare!.Value.Contains(0.282));
    }

    [Fact]
    public void Three_gatherings_keep_out_of_the_keepers_sleep()
    {
        var hours = new KeeperHours([new(new LocalTime(21, 0), new LocalTime(8, 0))]);
        var eggs = DroppedEggs.Of(Drop(18).Seen(At(5, 18, 10)), Brood1, hours)!;

        Assert.Equal(3, eggs.GatherAt.Length);
        Assert.All(eggs.GatherAt, at => Assert.True(hours.Able(at)));
    }

    [Fact]
    public void Of_a_species_without_figures_nobody_tells_a_share()
    {
        var species = SpeciesProfiles
            .All.First(profile => profile.Find("hatched-share-removed-late") is null)
            .ScientificName;
        var kept = new KeptJournal()
            .Write(At(4, 20), new VesselSetUp(Tank, "Tank", VesselRole.BroodTank))
            .Write(At(4, 20), new AnimalAcquired(Female, "F1", species, Sex.Female, Tank))
            .Write(At(5, 2, 8), new AnimalSeenBerried(Female, Brood1, "Brood 1"))
            .Write(At(5, 12), new EggsDropped(Brood1));
        var eggs = DroppedEggs.Of(Outlook.Of(kept.Account(), At(5, 12, 14), Zone), Brood1)!;

        Assert.Equal("Unknown", eggs.Worth.ToString());
        Assert.Contains(
            eggs.First,
            remark => remark.Code is "eggs-not-warmer" or "eggs-not-warmer-than-she-lived"
        );
    }
}
