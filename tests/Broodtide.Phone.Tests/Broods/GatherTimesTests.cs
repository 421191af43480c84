using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Phone.Browser;
using Broodtide.Phone.Pages.Broods;
using Broodtide.Workbench;
using Broodtide.Workbench.Demo;
using Broodtide.Workbench.Recording;
using Bunit;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;

namespace Broodtide.Phone.Tests.Broods;

public sealed class GatherTimesTests : PhoneContext
{
    public GatherTimesTests() =>
        Services.AddSingleton(
            new Slicer(TimeSpan.FromDays(1), () => Task.CompletedTask, TimeProvider.System)
        );

    private static readonly Instant Evening = Instant.FromUtc(2026, 5, 20, 18, 30);

    [Fact]
    public async Task Nothing_is_worked_out_until_it_is_asked_for_and_then_each_time_says_what_skipping_costs()
    {
        var (outlook, brood) = await HatchingTonight();
        var page = Render<GatherTimes>(told => told.Add(p => p.Outlook, outlook).Add(p => p.Brood, brood));
        Assert.Empty(page.FindAll("table"));

        await page.Find("button").ClickAsync(new());

        var rows = page.FindAll("table tbody tr");
        Assert.NotEmpty(rows);
        Assert.All(
            rows,
            row => Assert.Contains("skipping it costs about", row.TextContent, StringComparison.Ordinal)
        );
        Assert.DoesNotContain("say.", page.Markup, StringComparison.Ordinal);
        Assert.DoesNotContain("gather.", page.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Other_hours_asleep_give_other_times()
    {
        var (outlook, brood) = await HatchingTonight();
        var page = Render<GatherTimes>(told => told.Add(p => p.Outlook, outlook).Add(p => p.Brood, brood));
        await page.Find("button").ClickAsync(new());
        var before = page.Find("table").TextContent;

        await page.FindAll("input[type=time]")[1].ChangeAsync(new() { Value = "05:00" });
        Assert.NotEqual(before, page.Find("table").TextContent);
        await page.FindAll("input[type=time]")[1].ChangeAsync(new() { Value = "" });
        await page.FindAll("input[type=time]")[1].ChangeAsync(new() { Value = "07:00" });
        Assert.Equal(before, page.Find("table").TextContent);
    }

    [Fact]
    public async Task It_is_offered_while_larvae_come_and_not_when_hatching_is_over()
    {
        var (outlook, brood) = await HatchingTonight();
        Assert.True(GatherTimes.IsDue(outlook, outlook.House.Brood(brood), null));
        var over = outlook.House.Broods.First(other => other.HatchingOver is not null);
        Assert.False(GatherTimes.IsDue(outlook, over, null));
    }

    private static async Task<(Outlook, BroodId)> HatchingTonight()
    {
        var zone = DateTimeZone.Utc;
        await using var journal = new MemoryJournal(new ReplicaId(Guid.CreateVersion7()));
        var entries = await journal.AppendAsync([.. InventedHouse.Drafts(Evening, zone)]);
        var carried = new House(Account.Of(entries)).Broods.Last(brood => brood.FirstLarvae is null).Id;
        var seen = await journal.AppendAsync([
            new Draft(
                new EntryId(Guid.CreateVersion7()),
                new Author("Broodtide", "0.1.0"),
                Evening,
                zone.Id,
                Happened.At(Evening),
                new HatchingSeen(carried)
            ),
        ]);
        return (Outlook.Of(Account.Of([.. entries, .. seen]), Evening, zone), carried);
    }
}
