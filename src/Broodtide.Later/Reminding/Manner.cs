using Broodtide.Phone.Browser;
using Broodtide.Phone.Language;
using Broodtide.Workbench.Hatching;
using NodaTime;

namespace Broodtide.Phone.Reminding;

/// <summary>
/// How a calendar is to be told where the phone is not: units, hours, decimal sign, and when its keeper sleeps. As a
/// short text, <c>metric.hours24.point.23:00-07:00</c>.
/// </summary>
internal sealed record Manner(UnitSystem Units, ClockFace Clock, DecimalSign Sign, ClockStretch Asleep)
{
    /// <summary>Longer texts are nobody's manner.</summary>
    public const int Longest = 64;

    /// <summary>The hours at which nobody can gather.</summary>
    public KeeperHours Hours => new([Asleep]);

    /// <summary>As this phone shows things.</summary>
    public static Manner Of(Preferences preferences, ClockStretch asleep) =>
        new(preferences.Units, preferences.Clock, preferences.DecimalSign, asleep);

    /// <summary>The manner of a text; what is not understood is as usual.</summary>
    public static Manner Read(string text)
    {
        var parts = text.Split('.');
        return new(
            Part(parts, 0, UnitSystem.Metric),
            Part(parts, 1, ClockFace.Hours24),
            Part(parts, 2, DecimalSign.Point),
            Asleepness.Read(parts.ElementAtOrDefault(3))
        );
    }

    public override string ToString() =>
        $"{Units}.{Clock}.{Sign}.{Asleepness.Write(Asleep)}".ToLowerInvariant();

    /// <summary>The words of a calendar told in this manner.</summary>
    public ReminderWords WordsFor(Domain.House house, DateTimeZone zone, Instant now)
    {
        var words = Words.English();
        var clock = PhoneClock.In(zone);
        var formats = new Formats(Preferences.Of(Units, Clock, Sign), words, clock);
        var naming = new Naming(words);
        var sayings = new Sayings(words, formats, naming, new PhoneZone(clock));
        return new(words, formats, naming, new ActionWords(words, sayings, naming), house, now);
    }

    private static T Part<T>(string[] parts, int at, T otherwise)
        where T : struct, Enum =>
        at < parts.Length
        && Enum.TryParse<T>(parts[at], ignoreCase: true, out var value)
        && Enum.IsDefined(value)
            ? value
            : otherwise;
}
