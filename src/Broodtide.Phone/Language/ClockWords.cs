using NodaTime;

namespace Broodtide.Phone.Language;

/// <summary>How far a clock is off, in the largest unit that a keeper would say it in.</summary>
internal sealed class ClockWords(Words words)
{
    /// <summary>This phone's clock is so much ahead of the house's, or behind it.</summary>
    public string Off(Duration off) =>
        words[off > Duration.Zero ? "clockoff.ahead" : "clockoff.behind", Length(off)];

    /// <summary>The same of an entry that was written then.</summary>
    public string Marked(Duration off) =>
        words[off > Duration.Zero ? "clockoff.marked.ahead" : "clockoff.marked.behind", Length(off)];

    private string Length(Duration off)
    {
        var far = off < Duration.Zero ? -off : off;
        var (unit, number) =
            far >= Duration.FromHours(36) ? ("days", far.TotalDays)
            : far >= Duration.FromMinutes(90) ? ("hours", far.TotalHours)
            : ("minutes", far.TotalMinutes);
        return words["clockoff." + unit, (int)Math.Round(number)];
    }
}
