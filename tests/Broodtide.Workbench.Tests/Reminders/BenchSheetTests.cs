using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Demo;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.Reminders;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;

namespace Broodtide.Workbench.Tests.Reminders;

public class BenchSheetTests
{
    private static readonly Instant Now = Instant.FromUtc(2026, 7, 20, 16, 0);
    private static readonly LocalDate Today = new(2026, 7, 20);

    private static async Task<Outlook> DemoAsync()
    {
        await using var journal = new MemoryJournal(new ReplicaId(Guid.CreateVersion7()));
        var outlook = Outlook.Of(
            Account.Of(
                await journal.AppendAsync(
                    [.. InventedHouse.Drafts(Now, Zone)],
                    TestContext.Current.CancellationToken
                )
            ),
            Now,
            Zone
        );
        foreach (var step in outlook.Steps())
        {
            step();
        }

        return outlook;
    }

    [Fact]
    public async Task Everything_that_is_due_now_stands_on_the_sheet_of_today_once()
    {
        var outlook = await DemoAsync();
        var sheet = BenchSheet.Of(outlook, Today);

        var now = outlook
            .Due.Items.Select(item => item.Action)
            .Where(action => action.From <= Now)
            .Select(action => action.Key)
            .ToList();
        Assert.NotEmpty(now);
        Assert.Empty(now.Except(sheet.Lines.Select(line => line.Action.Key)));
        Assert.Equal(sheet.Lines.Count, sheet.Lines.Select(line => line.Action.Key).Distinct().Count());
    }

    [Fact]
    public async Task Times_come_in_order_then_the_day_then_what_has_more_days()
    {
        var outlook = await DemoAsync();
        for (var ahead = 0; ahead < 7; ahead++)
        {
            var sheet = BenchSheet.Of(outlook, Today.PlusDays(ahead));
            var times = sheet.Lines.Select(line => line.At).OfType<Instant>().ToList();
            Assert.Equal(times.Order(), times);
            Assert.All(times, at => Assert.Equal(sheet.Day, at.InZone(Zone).Date));
            var ranks = sheet
                .Lines.Select(line =>
                    line.IsForSpareTime ? 2
                    : line.At is null ? 1
                    : 0
                )
                .ToList();
            Assert.Equal(ranks.Order(), ranks);
        }
    }

    [Fact]
    public async Task The_back_page_tells_of_a_reading_what_the_ledger_expects_of_it()
    {
        var outlook = await DemoAsync();
        var sheet = BenchSheet.Of(outlook, Today.PlusDays(1));
        var line = sheet.Lines.First(line => line.Action.Code is ActionCodes.ReadSalinity);
        var expected = Assert.Single(
            sheet.Expected,
            it => it.What is SheetBlank.Salinity && it.About == line.Action.About
        );

        var ledger = outlook.LedgerOf(new VesselId(line.Action.About.Id))!;
        Assert.InRange(expected.Value!.Value.Middle, ledger.SalinityPpt.Low - 1, ledger.SalinityPpt.High + 2);
    }

    [Fact]
    public void Mains_and_the_charging_phone_are_said_on_every_sheet()
    {
        var empty = Outlook.Of(new KeptJournal().Account(), Now, Zone);
        var sheet = BenchSheet.Of(empty, Today);

        Assert.Empty(sheet.Lines);
        Assert.Equal([CautionCode.MainsBesideSaltWater, CautionCode.WetHandsChargingPhone], sheet.Cautions);
    }

    [Fact]
    public async Task What_is_done_daily_stands_on_a_later_sheet_with_that_day_in_its_key()
    {
        var sheet = BenchSheet.Of(await DemoAsync(), Today.PlusDays(2));

        Assert.Contains(
            sheet.Lines,
            line =>
                line.Action.Code is ActionCodes.ReadSalinity
                && line.Action.Key.EndsWith("/2026-07-22", StringComparison.Ordinal)
        );
    }
}
