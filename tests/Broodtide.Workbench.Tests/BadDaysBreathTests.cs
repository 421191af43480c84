using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench.BadDays;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;
using static Broodtide.Workbench.Tests.Lives.Household;

namespace Broodtide.Workbench.Tests;

/// <summary>Whose breath is told in a power cut, and whose is not because nobody knows it.</summary>
public sealed class BadDaysBreathTests
{
    private static readonly VesselId Other = new(Fixed(72));

    private static VesselBreath? Told(PowerDay day, VesselId vessel) =>
        day.Vessels.SingleOrDefault(one => one.Vessel == vessel);

    private static bool IsRefused(PowerDay day, string code, VesselId vessel) =>
        day.First.Any(remark => remark.Code == code && Equals(remark["vessel"], vessel));

    [Fact]
    public void Juveniles_in_water_on_its_way_home_breathe()
    {
        var home = new JuvenilesReturned(Jar, Jar, 150);
        var kept = WithBrood().SetUp(Jar, VesselRole.LarvalVessel).Filled(Jar, 8, ppt: 4);
        var day = PowerCut.Of(kept.Write(At(5, 14, 9), home).Seen(At(5, 15, 9)));

        Assert.InRange(Told(day, Jar)!.Animals.Middle, 75, 150);
        Assert.Equal(300, Told(day, Jar)!.Animals.High);
    }

    [Fact]
    public void Where_the_number_is_not_known_no_hours_are_told_and_stirring_is_at_its_closest()
    {
        var kept = WithBrood().Filled(Tank, 40).SetUp(Other, VesselRole.EggVessel).Filled(Other, 1);
        var day = PowerCut.Of(kept.Seen(At(5, 15, 9)));

        Assert.Null(Told(day, Other));
        Assert.True(IsRefused(day, "badday-breath-not-known", Other));
        Assert.Equal(0.5, day.First.Single(it => it.Code == "badday-power-stir")["everyHours"]);
        Assert.NotNull(Told(day, Tank));
        var nursery = WithBrood().SetUp(Other, VesselRole.Nursery).Filled(Other, 20).Seen(At(5, 15, 9));
        Assert.True(IsRefused(PowerCut.Of(nursery), "badday-breath-not-known", Other));
    }

    [Fact]
    public void Adults_whose_weight_nobody_knows_are_not_taken_for_a_gram_each()
    {
        var kept = WithBrood()
            .SetUp(Other, VesselRole.BroodTank, "Macrobrachium rosenbergii")
            .Filled(Other, 60)
            .Write(
                At(5, 4),
                new AnimalAcquired(new(Fixed(73)), "M1", "Macrobrachium rosenbergii", Sex.Male, Other)
            );
        var day = PowerCut.Of(kept.Filled(Tank, 40).Seen(At(5, 15, 9)));

        Assert.Null(Told(day, Other));
        Assert.True(IsRefused(day, "badday-breath-mass-not-known", Other));
        Assert.Contains(Told(day, Tank)!.Assumed, remark => remark.Code == "badday-adults-weigh");
    }

    [Fact]
    public void Juveniles_that_grew_use_their_oxygen_sooner()
    {
        PowerDay After(int days) =>
            PowerCut.Of(
                WithBrood()
                    .SetUp(Other, VesselRole.Nursery)
                    .Filled(Other, 10)
                    .Write(At(5, 4), new JuvenilesReturned(Jar, Other, 60))
                    .Write(
                        At(5, 4) + Duration.FromDays(days),
                        new JuvenilesCounted(Other, 60, CountMethod.Full)
                    )
                    .Seen(At(5, 4, 13) + Duration.FromDays(days))
            );

        var young = Told(After(1), Other)!;
        var grown = Told(After(80), Other)!;
        Assert.True(grown.ToLow.Chance.Value >= young.ToLow.Chance.Value);
        Assert.True(
            (grown.ToLow.MiddleHours ?? 99) < (young.ToLow.MiddleHours ?? 99),
            $"{young.ToLow} {grown.ToLow}"
        );
    }

    [Fact]
    public void A_battery_pump_beside_a_dead_one_is_told_with_the_lamp_on_too()
    {
        // So much food that even a gently aired jar runs short: lit, it goes another way than in the dark.
        var outlook = Until(9, smallMilligrams: 150).Seen(At(6, 10, 9));
        var dead = PowerCut.DeadPump(outlook, SmallJar).Vessels.Single();
        var dark = PowerCut.Of(outlook).Vessels.Single(one => one.Vessel == SmallJar);

        Assert.True(
            dead.ToDangerWithBattery != dark.ToDangerWithBattery,
            $"{dead.ToDangerWithBattery} {dark.ToDangerWithBattery} {dead.ToDanger} {dark.ToDanger}"
        );
    }
}
