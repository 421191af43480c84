using System.Collections.Concurrent;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Threading.RateLimiting;
using Broodtide.Domain.Journal;
using Broodtide.Phone.Reminding;
using Broodtide.Storage.Households;
using Broodtide.Workbench;
using Broodtide.Workbench.Reminders;
using Broodtide.Workbench.Sensors;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Server.Calendar;

/// <summary>
/// Tells calendars, one at a time and no more than once in five minutes for the same person: a program that asks every
/// second costs no more than one that asks every hour.
/// </summary>
internal sealed class CalendarFeed(IJournal journal, IClock clock, IReadingStore? readings = null)
    : IDisposable
{
    /// <summary>Times that one address may ask in five minutes; decided.</summary>
    public const int MostInWindow = 60;

    private static readonly TimeSpan Window = TimeSpan.FromMinutes(5);
    private static readonly Duration Fresh = Duration.FromMinutes(5);

    private readonly SemaphoreSlim _one = new(1);
    private readonly ConcurrentDictionary<PersonId, (Instant At, string Text)> _told = new();
    private readonly PartitionedRateLimiter<string> _asks = PartitionedRateLimiter.Create<string, string>(
        address =>
            RateLimitPartition.GetSlidingWindowLimiter(
                address,
                _ =>
                    new()
                    {
                        PermitLimit = MostInWindow,
                        Window = Window,
                        SegmentsPerWindow = 5,
                        QueueLimit = 0,
                    }
            )
    );

    /// <summary>How long somebody waits at most who asked too often.</summary>
    public static string WaitSeconds { get; } =
        ((int)Window.TotalSeconds).ToString(CultureInfo.InvariantCulture);

    /// <summary>Whether this address may ask once more: a right secret and a wrong one count alike.</summary>
    public bool MayAsk(IPAddress? address)
    {
        using var lease = _asks.AttemptAcquire(NetworkOf(address));
        return lease.IsAcquired;
    }

    /// <summary>The calendar of an address.</summary>
    public async Task<string> TextAsync(CalendarAddress address, CancellationToken cancel)
    {
        if (AtHand(address) is { } text)
        {
            return text;
        }

        await _one.WaitAsync(cancel);
        try
        {
            // Whoever waited may find what another one had told.
            return AtHand(address) ?? await TellAsync(address, cancel);
        }
        finally
        {
            _one.Release();
        }
    }

    /// <summary>Forgets what was told to a person, since the address is another one.</summary>
    public void Forget(PersonId person) => _told.TryRemove(person, out _);

    public void Dispose()
    {
        _one.Dispose();
        _asks.Dispose();
    }

    private string? AtHand(CalendarAddress address) =>
        _told.TryGetValue(address.Person, out var told)
        && told.At >= address.Made
        && clock.GetCurrentInstant() - told.At < Fresh
            ? told.Text
            : null;

    private async Task<string> TellAsync(CalendarAddress address, CancellationToken cancel)
    {
        var entries = await journal.ReadAllAsync(cancel);
        var now = clock.GetCurrentInstant();
        var alarms = readings is null ? [] : await readings.AlarmsAsync(now, cancel);
        var text = await Task.Run(() => Told(entries, alarms, address, now), cancel);
        _told[address.Person] = (now, text);
        return text;
    }

    private static string Told(
        IReadOnlyList<Entry> entries,
        IReadOnlyList<AlarmSpan> alarms,
        CalendarAddress address,
        Instant now
    )
    {
        var zone = DateTimeZoneProviders.Tzdb.GetZoneOrNull(address.Zone) ?? DateTimeZone.Utc;
        var manner = Manner.Read(address.Manner);
        var outlook = Outlook.Of(Account.Of(entries), now, zone);
        return CalendarText.Write(
            ReminderList.Of(outlook, manner.Hours).With(alarms),
            manner.WordsFor(outlook.House, zone, now),
            CalendarUse.Feed,
            now
        );
    }

    // Whoever has one address of the sixth version has the whole network behind its first half.
    private static string NetworkOf(IPAddress? address) =>
        address is null ? ""
        : address.IsIPv4MappedToIPv6 ? address.MapToIPv4().ToString()
        : address.AddressFamily is AddressFamily.InterNetworkV6
            ? Convert.ToHexString(address.GetAddressBytes().AsSpan(0, 8))
        : address.ToString();
}
