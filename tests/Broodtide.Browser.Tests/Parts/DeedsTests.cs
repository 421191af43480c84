using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Vessels;
using Broodtide.Phone.Pages.Due;
using Broodtide.Units;
using Broodtide.Workbench.Planning;
using NodaTime;

namespace Broodtide.Browser.Tests.Parts;

public sealed class DeedsTests
{
    private static readonly VesselId Jar = new(Guid.CreateVersion7());

    [Fact]
    public async Task A_poured_top_up_is_written_as_the_water_that_was_told_and_as_done()
    {
        var outlook = await DemoOutlook.Of(daysAgo: 0);

        var facts = Deeds.Of(TopUp(0.1923, 2), outlook.House)!;

        var poured = Assert.IsType<WaterMoved>(facts[0]);
        Assert.Equal(Jar, poured.To);
        Assert.Equal(190, poured.Volume!.Value);
        Assert.Equal("mL", poured.Volume.Unit);
        Assert.Equal("top-up/1", Assert.IsType<ActionDone>(facts[1]).Action);
    }

    [Fact]
    public async Task What_needs_more_than_a_key_says_leads_to_its_page()
    {
        var outlook = await DemoOutlook.Of(daysAgo: 0);
        var reading = TopUp(0.2, 1) with { Door = new(DoorCode.WriteReading, Subject.Of(Jar)) };

        Assert.Null(Deeds.Of(reading, outlook.House));
        Assert.Contains(Jar.Value.ToString(), Doors.Of(reading), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Moving_the_female_writes_where_she_went()
    {
        var outlook = await DemoOutlook.Of(daysAgo: 0);
        var brood = outlook.BroodsUnderWay.Single(it => it.FirstLarvae is null);
        var move = TopUp(0.2, 1) with
        {
            About = Subject.Of(brood.Id),
            Door = new(DoorCode.WriteIsolated, Subject.Of(brood.Id)),
        };

        var moved = Assert.IsType<Domain.Broods.AnimalIsolated>(Deeds.Of(move, outlook.House)![0]);
        Assert.Equal(brood.Animal, moved.Animal);
        Assert.Equal("Hatching box", outlook.House.Vessel(moved.To).Name);
    }

    private static PlannedAction TopUp(double litres, int portions) =>
        new()
        {
            Key = "top-up/1",
            Code = ActionCodes.TopUp,
            About = Subject.Of(Jar),
            From = Instant.FromUtc(2026, 5, 20, 12, 0),
            By = Instant.FromUtc(2026, 5, 20, 22, 0),
            Reason = new Remark("due-leaves-its-band"),
            Amounts = [new Remark("amount-top-up", new("eachLitres", litres), new("portions", portions))],
            Door = new(DoorCode.WriteWaterMove, Subject.Of(Jar)),
        };
}
