using Broodtide.Domain.Journal;
using Broodtide.Units;
using NodaTime;
using NodaTime.Text;

namespace Broodtide.Cli.Door;

/// <summary>
/// Reads when something happened: "now", "21:05", "yesterday 21:05", "2026-03-01 21:05", an instant with its offset,
/// "3h ago"; a day alone is the whole day; "A .. B" is some time between the two.
/// </summary>
internal static class WhenText
{
    public const string Allowed =
        "now, 21:05, yesterday 21:05, 2026-03-01 21:05, 2026-03-01, 3h ago, or A .. B";

    private static readonly LocalTimePattern Time = LocalTimePattern.CreateWithInvariantCulture("H':'mm");

    private static readonly LocalDateTimePattern[] Local =
    [
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu'-'MM'-'dd' 'H':'mm"),
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu'-'MM'-'dd'T'HH':'mm"),
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu'-'MM'-'dd'T'HH':'mm':'ss"),
    ];

    private static readonly OffsetDateTimePattern[] Offset =
    [
        OffsetDateTimePattern.ExtendedIso,
        OffsetDateTimePattern.CreateWithInvariantCulture("uuuu'-'MM'-'dd'T'HH':'mmo<G>"),
    ];

    public static Parsed<Happened> Parse(string text, string field, Instant now, DateTimeZone zone)
    {
        var typed = text.Trim();
        var parts = typed.Split("..", 2, StringSplitOptions.TrimEntries);
        if (parts.Length == 1)
        {
            return One(typed, now, zone) is { } whole ? Parsed<Happened>.Of(whole) : No(field, typed);
        }

        if (One(parts[0], now, zone) is not { } first || One(parts[1], now, zone) is not { } last)
        {
            return No(field, typed);
        }

        return last.Latest >= first.Earliest
            ? Parsed<Happened>.Of(Happened.Between(first.Earliest, last.Latest))
            : Parsed<Happened>.No("time-ends-before-it-begins", new("field", field), new("typed", typed));
    }

    private static Parsed<Happened> No(string field, string typed) =>
        Parsed<Happened>.No(
            "time-not-read",
            new("field", field),
            new("typed", typed),
            new("allowed", Allowed)
        );

    private static Happened? One(string text, Instant now, DateTimeZone zone)
    {
        var today = now.InZone(zone).Date;
        if (text is "now")
        {
            return Happened.At(now);
        }

        if (text.EndsWith(" ago", StringComparison.Ordinal))
        {
            return Ago(text[..^4].Trim()) is { } span ? Happened.At(now - span) : null;
        }

        foreach (var pattern in Offset)
        {
            if (pattern.Parse(text) is { Success: true, Value: var told })
            {
                return Happened.At(told.ToInstant());
            }
        }

        foreach (var pattern in Local)
        {
            if (pattern.Parse(text) is { Success: true, Value: var told })
            {
                return At(told, zone);
            }
        }

        var (day, rest) =
            text.StartsWith("yesterday", StringComparison.Ordinal) ? (today.PlusDays(-1), text[9..])
            : text.StartsWith("today", StringComparison.Ordinal) ? (today, text[5..])
            : (today, " " + text);
        if (rest.Length == 0)
        {
            return Day(day, now, zone);
        }

        return Time.Parse(rest.Trim()) is { Success: true, Value: var time } && rest[0] == ' '
                ? At(day + time, zone)
            : LocalDatePattern.Iso.Parse(text) is { Success: true, Value: var date } ? Day(date, now, zone)
            : null;
    }

    private static Happened At(LocalDateTime local, DateTimeZone zone) =>
        Happened.At(zone.AtLeniently(local).ToInstant());

    // The whole civil day, as far as it is over.
    private static Happened Day(LocalDate date, Instant now, DateTimeZone zone)
    {
        var from = zone.AtStartOfDay(date).ToInstant();
        var to = zone.AtStartOfDay(date.PlusDays(1)).ToInstant() - Duration.FromSeconds(1);
        return Happened.Between(from, from <= now && to > now ? now : to);
    }

    private static Duration? Ago(string text)
    {
        var read = Workbench.Recording.AmountText.Parse(text, "ago", Dimension.Duration);
        // Ten years is longer than anything is remembered to an hour.
        return
            read.Succeeded && ((TypedNumber?)read.Value).AsMinutes() is >= 0 and < 5_256_000 and var minutes
            ? Duration.FromMinutes(minutes)
            : null;
    }
}
