using System.CommandLine;
using System.Text;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Units;
using Broodtide.Workbench.Reminders;

namespace Broodtide.Cli.Ahead;

/// <summary>One reminder. Of days the last one is in it.</summary>
internal sealed record ReminderJson(
    string Uid,
    string Kind,
    string? From,
    string? To,
    string? FirstDay,
    string? LastDay,
    bool HasAlarm,
    bool IsOff,
    string Words,
    IReadOnlyList<string> Lines
);

/// <summary>What belongs into a calendar.</summary>
internal sealed record CalendarAnswer(string Now, string? File, IReadOnlyList<ReminderJson> Reminders);

/// <summary>Writes what is due and planned as a calendar file.</summary>
internal static class CalendarVerb
{
    public static Command Make()
    {
        var file = Slot.Option(
            "--out",
            "Place of the file; an older calendar there is replaced. Printed if left out.",
            "FILE"
        );
        return new VerbCommand(
            "calendar",
            "What is due and planned as a calendar file (iCalendar) to take into any calendar. A newer one moves what an older one holds.",
            ["calendar", "calendar --out broodtide.ics", "calendar --json"],
            [file],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var list = ReminderList.Of(outlook);
                var words = new ReminderWords(await sitting.SayingAsync(), outlook.House);
                var text = CalendarText.Write(list, words, CalendarUse.File, sitting.Clock);
                var path = file.Text(sitting.Parse);
                if (path is not null)
                {
                    if (File.Exists(path) && !IsCalendar(path))
                    {
                        return sitting.Refuse([
                            new Remark("calendar-would-replace", new Argument("file", path)),
                        ]);
                    }

                    await ReplaceAsync(path, text, sitting.Cancellation);
                }

                if (path is null && !sitting.Json)
                {
                    await sitting.Out.WriteAsync(text);
                    return ExitCode.Done;
                }

                return sitting.Answer(
                    new CalendarAnswer(
                        Saying.Iso(list.Now),
                        path,
                        [.. list.Items.Select(item => Json(item, words))]
                    ),
                    CliJson.Default.CalendarAnswer,
                    page => page.Line($"{list.Items.Count} reminders are in {path}.")
                );
            }
        );
    }

    private static ReminderJson Json(Reminder item, ReminderWords words)
    {
        var hours = item.Time as ReminderTime.Hours;
        var days = item.Time as ReminderTime.Days;
        return new(
            item.Uid,
            EnumWords.Of(item.Kind),
            hours is null ? null : Saying.Iso(hours.From),
            hours is null ? null : Saying.Iso(hours.To),
            days?.First.ToString("uuuu-MM-dd", null),
            days?.Last.ToString("uuuu-MM-dd", null),
            item is { Matters: true, IsOverdue: false, IsOff: false },
            item.IsOff,
            words.Summary(item),
            [.. words.Lines(item)]
        );
    }

    // The old one stands until the new one is whole.
    private static async Task ReplaceAsync(string path, string text, CancellationToken cancel)
    {
        var beside = path + ".new";
        await File.WriteAllTextAsync(beside, text, new UTF8Encoding(false), cancel);
        File.Move(beside, path, overwrite: true);
    }

    // A slip of the name must not cost a journal, or anything else.
    private static bool IsCalendar(string path)
    {
        using var reader = new StreamReader(path);
        var start = new char[15];
        return reader.ReadBlock(start) == start.Length
            && new string(start).Equals("BEGIN:VCALENDAR", StringComparison.Ordinal);
    }
}
