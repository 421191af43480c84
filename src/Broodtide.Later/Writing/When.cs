using Broodtide.Domain.Journal;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Phone.Writing;

/// <summary>How a keeper says when something happened.</summary>
public enum WhenSort
{
    /// <summary>At the moment of writing.</summary>
    Now,

    /// <summary>Nobody looked in between.</summary>
    SinceLastNight,

    /// <summary>At a time.</summary>
    At,

    /// <summary>Between two times.</summary>
    Between,

    /// <summary>As the entry that is corrected says.</summary>
    AsTold,
}

/// <summary>What a keeper says of the time.</summary>
public sealed class When
{
    // Evening for a keeper; our choice.
    private static readonly LocalTime Evening = new(21, 0);

    public WhenSort Sort { get; set; }

    public string At { get; set; } = "";

    public string Until { get; set; } = "";

    /// <summary>The time of the entry that is corrected, if one is.</summary>
    public Happened? Told { get; init; }

    public IReadOnlyList<WhenSort> Sorts =>
        Told is null
            ? [WhenSort.Now, WhenSort.SinceLastNight, WhenSort.At, WhenSort.Between]
            : [WhenSort.AsTold, WhenSort.At, WhenSort.Between];

    /// <summary>The evening that "last night" begins with.</summary>
    public static Instant LastEvening(Instant now, DateTimeZone zone) =>
        now.InZone(zone).Date.PlusDays(-1).At(Evening).InZoneLeniently(zone).ToInstant();

    /// <summary>The time, or why there is none.</summary>
    public (Happened? Happened, Remark? Reason) Read(Instant now, DateTimeZone zone)
    {
        switch (Sort)
        {
            case WhenSort.Now:
                return (Happened.At(now), null);
            case WhenSort.SinceLastNight:
                return (Happened.Between(LastEvening(now, zone), now), null);
            case WhenSort.AsTold:
                return (Told, null);
        }

        if (MomentField.Read(At, zone) is not { } at)
        {
            return (null, new Remark("time-not-read", new("field", "when"), new("typed", At)));
        }

        if (Sort == WhenSort.At)
        {
            return (Happened.At(at), null);
        }

        return MomentField.Read(Until, zone) is not { } until
                ? (null, new Remark("time-not-read", new("field", "when"), new("typed", Until)))
            : until < at ? (null, new Remark("times-crossed", new Argument("field", "when")))
            : (Happened.Between(at, until), null);
    }
}
