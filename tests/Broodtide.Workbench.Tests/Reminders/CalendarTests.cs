using System.Text;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Workbench.Demo;
using Broodtide.Workbench.Hatching;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.Reminders;
using CsCheck;
using NodaTime;
using static Broodtide.Workbench.Tests.KeptJournal;
using Calendar = Ical.Net.Calendar;

namespace Broodtide.Workbench.Tests.Reminders;

/// <summary>The calendar as a second parser reads it, Ical.Net 5.2.4, and as RFC 5545 asks of its lines.</summary>
public class CalendarTests
{
    private static readonly Instant Now = At(5, 14, 18);

    private static ReminderList ListOf(KeptJournal kept, Instant now) =>
        ReminderList.Of(Outlook.Of(kept.Account(), now, Zone));

    private static Calendar Read(string text) => Calendar.Load(text)!;

    private static async Task<Outlook> DemoAsync()
    {
        await using var journal = new MemoryJournal(new ReplicaId(Guid.CreateVersion7()));
        var now = Instant.FromUtc(2026, 7, 20, 16, 0);
        return Outlook.Of(
            Account.Of(
                await journal.AppendAsync(
                    [.. InventedHouse.Drafts(now, Zone)],
                    TestContext.Current.CancellationToken
                )
            ),
            now,
            Zone
        );
    }

    [Fact]
    public async Task A_second_parser_reads_every_reminder_of_a_busy_house_with_its_times()
    {
        var list = ReminderList.Of(await DemoAsync());
        var text = CalendarText.Write(list, new PlainWords(), CalendarUse.File, list.Now);
        var read = Read(text);

        Assert.True(list.Items.Count > 20, $"{list.Items.Count} reminders");
        Assert.Equal(
            list.Items.Select(item => item.Uid).Order(StringComparer.Ordinal),
            read.Events.Select(it => it.Uid).Order(StringComparer.Ordinal)
        );
        foreach (var item in list.Items)
        {
            var it = read.Events[item.Uid]!;
            switch (item.Time)
            {
                case ReminderTime.Hours hours:
                    Assert.True(it.Start!.HasTime);
                    Assert.Equal(ToSecond(hours.From), Instant.FromDateTimeUtc(it.Start.AsUtc));
                    Assert.Equal(ToSecond(hours.To), Instant.FromDateTimeUtc(it.End!.AsUtc));
                    break;
                case ReminderTime.Days days:
                    Assert.False(it.Start!.HasTime);
                    Assert.Equal(days.First, LocalDate.FromDateTime(it.Start.Value));
                    // The end of days is not in them: RFC 5545, section 3.6.1.
                    Assert.Equal(days.Last.PlusDays(1), LocalDate.FromDateTime(it.End!.Value));
                    break;
            }

            Assert.Equal("R " + item.Uid, it.Summary);
            Assert.Equal(item.Matters && !item.IsOverdue && !item.IsOff ? 1 : 0, it.Alarms.Count);
            Assert.Equal(
                item.IsOff ? "CANCELLED"
                    : item.IsForetold ? "TENTATIVE"
                    : "CONFIRMED",
                it.Status
            );
        }

        Assert.Contains(list.Items, item => item.Kind is ReminderKind.HatchWindow);
        Assert.Contains(list.Items, item => item.Kind is ReminderKind.SettlementWindow);
        Assert.Contains(list.Items, item => item.IsOff);
    }

    [Fact]
    public async Task Every_line_is_at_most_75_octets_and_ends_with_CR_LF()
    {
        var list = ReminderList.Of(await DemoAsync());
        Sound(
            CalendarText.Write(
                list,
                new PlainWords("ä🦐, " + new string('x', 500)),
                CalendarUse.Feed,
                list.Now
            )
        );
    }

    private static readonly Lazy<ReminderList> Brood = new(() => ListOf(WithBrood(), Now));

    private static readonly string[] Awkward =
    [
        "\n",
        "\r\n",
        ",",
        ";",
        "\\",
        "\\n",
        ":",
        "\"",
        "🦐",
        "👩‍🔬",
        "é",
        "水",
        "END:VEVENT",
        "\t",
        " ",
        "\u0000",
        "\ud83e",
    ];

    // Newlines, commas, what must be escaped, wide letters, faces of several code points, controls, half a pair.
    private static readonly Gen<string> Texts = Gen.OneOf(
            Gen.String,
            Gen.Int[0, Awkward.Length - 1].Select(at => Awkward[at]),
            Gen.String[Gen.Char.AlphaNumeric, 60, 200]
        )
        .Array[1, 12]
        .Select(parts => string.Concat(parts));

    [Fact]
    public void Any_text_survives_the_way_through_a_second_parser() =>
        Texts.Sample(
            text =>
            {
                var written = CalendarText.Write(Brood.Value, new PlainWords(text), CalendarUse.Feed, Now);
                Sound(written);
                var events = Read(written).Events;
                Assert.Equal(Brood.Value.Items.Count(item => !item.IsOff), events.Count);
                Assert.All(
                    events,
                    it =>
                    {
                        Assert.Equal(Kept(text + it.Uid), it.Summary);
                        Assert.Equal(Kept(it.Uid + "\n" + text), it.Description);
                    }
                );
            },
            iter: 300
        );

    [Fact]
    public void A_second_forecast_moves_what_a_calendar_holds_and_doubles_nothing()
    {
        var kept = WithBrood();
        var before = ListOf(kept, Now);
        for (var day = 15; day < 19; day++)
        {
            kept.Write(At(5, day, 9), new ReadingTaken(TypedNumber.Of(22, "Cel"), Tank));
        }

        var after = ListOf(kept, At(5, 19, 18));
        var moved = before
            .Items.Join(after.Items, item => item.Uid, item => item.Uid, (then, now) => (then, now))
            .Where(pair => pair.then.Time != pair.now.Time)
            .ToList();
        Assert.Contains(moved, pair => pair.now.Kind is ReminderKind.HatchWindow);
        Assert.True(moved.Count > 5, $"{moved.Count} moved");
        Assert.Equal(after.Items.Count, after.Items.Select(item => item.Uid).Distinct().Count());

        var first = Read(CalendarText.Write(before, new PlainWords(), CalendarUse.File, Now));
        var second = Read(CalendarText.Write(after, new PlainWords(), CalendarUse.File, At(5, 19, 18)));
        foreach (var (_, item) in moved)
        {
            Assert.True(second.Events[item.Uid]!.Sequence > first.Events[item.Uid]!.Sequence);
            Assert.True(
                second.Events[item.Uid]!.LastModified!.AsUtc > first.Events[item.Uid]!.LastModified!.AsUtc
            );
        }
    }

    [Fact]
    public void What_is_done_vanishes_from_a_feed_and_is_cancelled_in_a_file()
    {
        var action = Brood.Value.Items.First(item => item.Action is { IsOpen: true }).Action!;
        var kept = WithBrood();
        kept.Write(Now, new ActionDone(action.Key, action.About.Id));
        var list = ListOf(kept, Now + Duration.FromMinutes(1));
        var uid = Brood.Value.Items.Single(item => item.Action?.Key == action.Key).Uid;

        var feed = Read(CalendarText.Write(list, new PlainWords(), CalendarUse.Feed, Now));
        var file = Read(CalendarText.Write(list, new PlainWords(), CalendarUse.File, Now));

        Assert.DoesNotContain(feed.Events, it => it.Uid == uid);
        Assert.Equal("CANCELLED", file.Events[uid]!.Status);
        Assert.Empty(file.Events[uid]!.Alarms);
    }

    [Fact]
    public void The_gatherings_of_a_hatch_night_stand_by_the_minute_with_an_alarm_and_keep_you()
    {
        var kept = WithBrood().Write(At(5, 25, 22), new HatchingSeen(Brood1));
        var hours = new KeeperHours([]);
        var outlook = Outlook.Of(kept.Account(), At(5, 25, 22, 30), Zone);
        var list = ReminderList.Of(outlook, hours);
        var times = outlook.CollectionTimesOf(Brood1, hours).Times!;
        var read = Read(CalendarText.Write(list, new PlainWords(), CalendarUse.Feed, list.Now));

        Assert.NotEmpty(times.Gatherings);
        var told = list.Items.Where(item => item.Kind is ReminderKind.Gathering).ToList();
        Assert.Equal(times.Gatherings, told.Select(item => item.Gathering));
        foreach (var item in told)
        {
            var it = read.Events[item.Uid]!;
            Assert.Equal(item.Gathering!.At, Instant.FromDateTimeUtc(it.Start!.AsUtc));
            Assert.Equal("OPAQUE", it.Transparency);
            Assert.Equal("-PT15M", Assert.Single(it.Alarms).Trigger!.Duration.ToString());
        }
    }

    [Fact]
    public void A_house_with_nothing_due_gives_a_calendar_that_says_so()
    {
        var list = ListOf(new KeptJournal(), Now);
        var read = Read(CalendarText.Write(list, new PlainWords(), CalendarUse.Feed, Now));

        Assert.Equal("nothing", Assert.Single(read.Events).Summary);
    }

    [Fact]
    public void A_calendar_asks_again_after_an_hour_and_has_a_name()
    {
        var read = Read(CalendarText.Write(Brood.Value, new PlainWords(), CalendarUse.Feed, Now));

        Assert.Equal("PT1H", read.Properties["REFRESH-INTERVAL"]?.Value?.ToString());
        Assert.Equal("PT1H", read.Properties["X-PUBLISHED-TTL"]?.Value?.ToString());
        Assert.Equal("R", read.Properties["NAME"]?.Value?.ToString());
        Assert.Equal("2.0", read.Version);
        Assert.Equal("PUBLISH", read.Method);
    }

    [Fact]
    public void What_is_overdue_stands_on_today()
    {
        var list = ListOf(WithBrood(), At(6, 20, 18));
        var overdue = list.Items.Where(item => item.IsOverdue).ToList();

        Assert.NotEmpty(overdue);
        Assert.All(
            overdue,
            item =>
                Assert.Equal(
                    new ReminderTime.Days(new LocalDate(2026, 6, 20), new LocalDate(2026, 6, 20)),
                    item.Time
                )
        );
    }

    private static Instant ToSecond(Instant instant) =>
        Instant.FromUnixTimeSeconds(instant.ToUnixTimeSeconds());

    // What a text may keep: one kind of line end, no controls, whole characters.
    private static string Kept(string text)
    {
        var kept = new StringBuilder();
        foreach (var rune in text.ReplaceLineEndings("\n").EnumerateRunes())
        {
            if (rune.Value is '\n' or '\t' or (>= ' ' and not 0x7F))
            {
                kept.Append(rune.ToString());
            }
        }

        return kept.ToString();
    }

    private static void Sound(string text)
    {
        Assert.EndsWith("END:VCALENDAR\r\n", text, StringComparison.Ordinal);
        var lines = text.Split("\r\n");
        Assert.All(lines, line => Assert.DoesNotContain(line, mark => mark is '\r' or '\n'));
        Assert.All(lines, line => Assert.InRange(Encoding.UTF8.GetByteCount(line), 0, 75));
        // No character is cut in two: strict decoding of each line alone.
        var strict = new UTF8Encoding(false, throwOnInvalidBytes: true);
        Assert.All(lines, line => Assert.Equal(line, strict.GetString(strict.GetBytes(line))));
    }

    private sealed class PlainWords(string? text = null) : IReminderWords
    {
        public string CalendarName => "R";

        public string Nothing => "nothing";

        public string Summary(Reminder reminder) => (text ?? "R ") + reminder.Uid;

        public IEnumerable<string> Lines(Reminder reminder) => [reminder.Uid, text ?? ""];
    }
}
