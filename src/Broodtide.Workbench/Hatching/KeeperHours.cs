using System.Globalization;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Hatching;

/// <summary>A stretch of the clock, over midnight if it ends before it begins.</summary>
/// <param name="From">Its beginning.</param>
/// <param name="Until">Its end, not in it.</param>
public readonly record struct ClockStretch(LocalTime From, LocalTime Until)
{
    /// <summary>Whether a time of day lies in it; never if it begins as it ends.</summary>
    public bool Holds(LocalTime time) =>
        From <= Until ? time >= From && time < Until : time >= From || time < Until;
}

/// <summary>The hours of the day at which nobody can gather larvae.</summary>
/// <param name="Unable">Asleep, out, at work.</param>
public sealed record KeeperHours(IReadOnlyList<ClockStretch> Unable)
{
    /// <summary>Asleep from 23 to 7; common practice, no source.</summary>
    public static KeeperHours Usual { get; } = new([new(new LocalTime(23, 0), new LocalTime(7, 0))]);

    /// <summary>Reads a stretch as a person writes it: <c>23-7</c>, <c>22:30-06:00</c>.</summary>
    /// <param name="text">The text.</param>
    /// <param name="field">What a reason calls it.</param>
    public static Parsed<ClockStretch> Read(string text, string field)
    {
        var ends = text.Split('-', StringSplitOptions.TrimEntries);
        return ends.Length == 2 && Clock(ends[0]) is { } from && Clock(ends[1]) is { } until
            ? Parsed<ClockStretch>.Of(new(from, until))
            : Parsed<ClockStretch>.No("clock-stretch-unreadable", new("field", field), new("typed", text));
    }

    private static LocalTime? Clock(string text)
    {
        var parts = text.Split(':');
        return
            parts.Length is 1 or 2
            && int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var hour)
            && int.TryParse(
                parts.Length == 2 ? parts[1] : "0",
                NumberStyles.None,
                CultureInfo.InvariantCulture,
                out var minute
            )
            && hour is >= 0 and <= 24
            && minute is >= 0 and < 60
            && (hour < 24 || minute == 0)
            ? new LocalTime(hour % 24, minute)
            : null;
    }

    /// <summary>Whether somebody can gather at a time of day.</summary>
    public bool Able(LocalTime time) => !Unable.Any(stretch => stretch.Holds(time));
}
