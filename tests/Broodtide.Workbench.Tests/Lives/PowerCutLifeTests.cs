using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Workbench.BadDays;
using Broodtide.Workbench.Planning;
using static Broodtide.Workbench.Tests.KeptJournal;
using static Broodtide.Workbench.Tests.Lives.Household;

namespace Broodtide.Workbench.Tests.Lives;

public sealed class PowerCutLifeTests
{
    [Fact]
    public void A_power_cut_from_the_first_minute_to_the_look_round_after_it()
    {
        var kept = Until(8);
        Assert.DoesNotContain(
            kept.Due(At(6, 9, 13)).Items,
            item => item.Action.Code is ActionCodes.MindPowerCut or ActionCodes.AfterPowerCut
        );

        // 14:10: the pumps are silent.
        kept.Write(At(6, 9, 14), new PowerFailed());
        var first = kept.Due(At(6, 9, 14, 10))
            .Items.Single(item => item.Action.Code == ActionCodes.MindPowerCut);
        Assert.Equal(DoorCode.BadDay, first.Action.Door.Code);
        Assert.False(first.Action.MaySlip);

        var told = PowerCut.Of(kept.Seen(At(6, 9, 14, 10)));
        Assert.Equal(At(6, 9, 14), told.Since);
        Assert.Equal(3, told.Vessels.Length);
        Assert.Contains(told.First, remark => remark.Code == "badday-power-no-food");
        Assert.All(
            told.Vessels,
            one =>
            {
                Assert.True((one.ToLow.EarlyHours ?? 48) <= (one.ToDanger.EarlyHours ?? 48));
                Assert.InRange(one.OxygenNow.Middle, 5, 10);
                Assert.True(one.ToDangerWithBattery.Chance.Value <= one.ToDanger.Chance.Value);
            }
        );

        // The round is written; four hours later the next is due under another key.
        kept.Write(At(6, 9, 14, 30), new ActionDone(first.Action.Key));
        Assert.DoesNotContain(
            kept.Due(At(6, 9, 15)).Items,
            item => item.Action.Code == ActionCodes.MindPowerCut
        );
        var second = kept.Due(At(6, 9, 18, 5))
            .Items.Single(item => item.Action.Code == ActionCodes.MindPowerCut);
        Assert.NotEqual(first.Action.Key, second.Action.Key);

        // 20:00: light. The look round stands for a day.
        kept.Write(At(6, 9, 20), new PowerRestored());
        var after = kept.Due(At(6, 9, 20, 5)).Items;
        Assert.DoesNotContain(after, item => item.Action.Code == ActionCodes.MindPowerCut);
        var look = after.Single(item => item.Action.Code == ActionCodes.AfterPowerCut);
        kept.Write(At(6, 9, 20, 30), new ActionDone(look.Action.Key));
        Assert.DoesNotContain(
            kept.Due(At(6, 9, 21)).Items,
            item => item.Action.Code == ActionCodes.AfterPowerCut
        );
    }

    // 1.36 g of oxygen a gram of yeast (CH1.8O0.5N0.2): 9 mg/L daily for a week in still water is more than its surface
    // brings, 2 mg/L is not (food-and-growth 3.4, as in the tests of safety).
    [Fact]
    public void The_vessel_with_much_food_in_its_water_is_first_and_a_battery_pump_holds_it()
    {
        var fouled = PowerCut.Of(Until(9, yeastMilligrams: 4, smallMilligrams: 20).Seen(At(6, 9, 21)));
        var small = fouled.Vessels[0];
        Assert.Equal(SmallJar, small.Vessel);
        Assert.Equal("badday-breath-first", fouled.First[0].Code);
        Assert.Equal(SmallJar, fouled.First[0]["vessel"]);
        Assert.True(small.ToDanger.Chance.Value >= 0.5, $"{small.ToDanger}");
        Assert.True(small.ToDangerWithBattery.Chance.Value < 0.3, $"{small.ToDangerWithBattery}");

        var clean = PowerCut.Of(Until(9, yeastMilligrams: 4, smallMilligrams: 1).Seen(At(6, 9, 21)));
        var same = clean.Vessels.Single(one => one.Vessel == SmallJar);
        Assert.True(same.ToDanger.Chance.Value < small.ToDanger.Chance.Value);
        Assert.True((same.ToLow.MiddleHours ?? 48) > (small.ToLow.MiddleHours ?? 48));
    }

    [Fact]
    public void A_dead_pump_is_told_for_its_own_vessel_with_the_lamp_on()
    {
        var outlook = Until(9, smallMilligrams: 20).Seen(At(6, 10, 9));
        var dead = PowerCut.DeadPump(outlook, SmallJar);

        var one = Assert.Single(dead.Vessels);
        Assert.Equal(SmallJar, one.Vessel);
        Assert.Contains(dead.First, remark => remark.Code == "badday-sponge-stands");
        var dark = PowerCut.Of(outlook).Vessels.Single(other => other.Vessel == SmallJar);
        Assert.True((one.ToDanger.MiddleHours ?? 48) >= (dark.ToDanger.MiddleHours ?? 48));
    }

    [Fact]
    public void Without_any_water_nothing_is_told_to_breathe()
    {
        var told = PowerCut.Of(Outlook.Of(new KeptJournal().Account(), At(6, 1), Zone));

        Assert.Empty(told.Vessels);
        Assert.Equal("badday-nothing-breathes", told.First[0].Code);
    }
}
