using NodaTime;

namespace Broodtide.Phone.Browser;

/// <summary>The phone's clock and its time zone, as the browser names it.</summary>
internal sealed class PhoneClock : IClock
{
    public DateTimeZone Zone { get; private set; } = DateTimeZone.Utc;

    /// <summary>Whether the browser named a zone that we know; otherwise times are told in UTC.</summary>
    public bool KnowsZone { get; private set; }

    public ZonedDateTime Here => GetCurrentInstant().InZone(Zone);

    /// <summary>A clock in a zone that is known beforehand, where there is no browser to name one.</summary>
    public static PhoneClock In(DateTimeZone zone) => new() { Zone = zone, KnowsZone = true };

    public void Watch()
    {
        var zone = DateTimeZoneProviders.Tzdb.GetZoneOrNull(Glue.TimeZone());
        KnowsZone = zone is not null;
        Zone = zone ?? DateTimeZone.Utc;
    }

    public Instant GetCurrentInstant() => SystemClock.Instance.GetCurrentInstant();
}
