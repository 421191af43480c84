using System.Text;
using System.Text.Json;
using Broodtide.Domain.Journal;
using Broodtide.Workbench;
using Broodtide.Workbench.Sensors;
using NodaTime;
using KnownHouse = Broodtide.Domain.House;

namespace Broodtide.Server.Sensors;

/// <summary>Watches the sensors of the house and sees to it that somebody is told. One pass at a time.</summary>
internal sealed class AlarmRounds(
    IReadingStore store,
    IJournal journal,
    SensorSettings settings,
    IClock clock,
    ILogger log,
    SensorListening? listening
)
{
    private static readonly Duration LookAgain = Duration.FromMinutes(1);
    private static readonly Duration TellAgain = Duration.FromHours(1);
    private static readonly Duration Remembered = Duration.FromDays(7);

    // Longer than a mail may take; so long nobody is told where the server that tells has ended.
    private static readonly Duration ClaimHolds = Duration.FromMinutes(2);
    private const string Telling = "telling-of-alarms";

    private readonly Guid _me = Guid.CreateVersion7();

    private readonly AlarmMail? _mail = settings.Mail is { } mail ? new(mail) : null;
    private readonly Dictionary<SensorId, AlarmWatch> _watches = [];
    private readonly HashSet<(Guid, bool)> _published = [];
    private readonly IReadOnlyList<ToldPerson> _people =
    [
        .. settings.People.Select(person => new ToldPerson(
            person.Key,
            person.Step,
            SensorSettings.TimeOf(person.QuietFrom),
            SensorSettings.TimeOf(person.QuietTo),
            DateTimeZoneProviders.Tzdb.GetZoneOrNull(person.Zone ?? "UTC") ?? DateTimeZone.Utc
        )),
    ];

    private Dictionary<SensorId, (Sensor Sensor, SensorLimits? Limits)> _sensors = [];
    private KnownHouse _house = new(new Account());
    private Instant _looked = Instant.MinValue;
    private Instant _told = Instant.MinValue;
    private volatile bool _isStale = true;

    /// <summary>Whether the settings name nobody who could be told.</summary>
    public bool TellsNobody => _mail is null || _people.Count == 0;

    /// <summary>The limits that hold for a sensor, as looked at last.</summary>
    public SensorLimits? LimitsOf(SensorId sensor) => _sensors.GetValueOrDefault(sensor).Limits;

    /// <summary>Where a sensor stands, or its limits, are not what they were.</summary>
    public void Forget() => _isStale = true;

    /// <summary>One pass: what was read since the last one, what fell silent, who is to be told.</summary>
    public async Task PassAsync(IReadOnlyList<SensorReading> fresh, CancellationToken cancel)
    {
        await LookAsync(cancel);
        var now = clock.GetCurrentInstant();
        foreach (var group in fresh.GroupBy(reading => reading.Sensor))
        {
            if (!_sensors.TryGetValue(group.Key, out var known))
            {
                _isStale = true;
                continue;
            }

            if (known.Limits is not { } limits)
            {
                continue;
            }

            var watch = await WatchOfAsync(known.Sensor, group.Min(reading => reading.Reading.At), cancel);
            var late = LateOf(group.Select(reading => reading.Reading), watch, now);
            foreach (var reading in group.Select(reading => reading.Reading).OrderBy(reading => reading.At))
            {
                await PutAsync(watch.See(reading, limits, known.Sensor.VesselAt(reading.At), now), cancel);
            }

            if (late is { } first)
            {
                foreach (
                    var alarm in await LateReadings.AlarmsAsync(
                        store,
                        known.Sensor,
                        limits,
                        first,
                        now,
                        cancel
                    )
                )
                {
                    await store.PutAsync(alarm, cancel);
                }
            }
        }

        foreach (var (sensor, limits) in _sensors.Values)
        {
            if (limits is not null || _watches.ContainsKey(sensor.Id))
            {
                var watch = await WatchOfAsync(sensor, Instant.MaxValue, cancel);
                await PutAsync(watch.Wait(limits, sensor.Vessel, now), cancel);
            }
        }

        await TellAsync(now, cancel);
    }

    // The earliest of those that the watch passes by since it has seen newer ones.
    private static Instant? LateOf(IEnumerable<RawReading> readings, AlarmWatch watch, Instant now)
    {
        Instant[] late =
        [
            .. readings
                .Select(reading => reading.At)
                .Where(at => watch.Newest is { } newest && at <= newest && at > now - LateReadings.Within),
        ];
        return late.Length > 0 ? late.Min() : null;
    }

    // What was seen before a fall of the program is not seen again: the watch begins with what lasts and where it was.
    private async Task<AlarmWatch> WatchOfAsync(Sensor sensor, Instant before, CancellationToken cancel)
    {
        if (_watches.TryGetValue(sensor.Id, out var watch))
        {
            return watch;
        }

        var lasting = (await store.AlarmsAsync(Instant.MaxValue, cancel)).Where(alarm =>
            alarm.Lasts && alarm.Sensor == sensor.Id
        );
        var last = sensor.Last?.At is { } at && at < before ? at : default(Instant?);
        return _watches[sensor.Id] = new(sensor.Id, lasting, last);
    }

    private async Task PutAsync(IReadOnlyList<AlarmSpan> changed, CancellationToken cancel)
    {
        if (changed.Count == 0)
        {
            return;
        }

        var lasting = (await store.AlarmsAsync(Instant.MaxValue, cancel))
            .Where(alarm => alarm.Lasts)
            .ToList();
        foreach (var alarm in changed)
        {
            // Another server that hears the same sensor may have raised it from another of its readings.
            var other = lasting.Find(one =>
                one.Id != alarm.Id && one.Sensor == alarm.Sensor && one.Kind == alarm.Kind
            );
            await store.PutAsync(
                other is null ? alarm : other with { Until = alarm.Until, Worst = WorseOf(other, alarm) },
                cancel
            );
        }
    }

    private static double? WorseOf(AlarmSpan one, AlarmSpan other) =>
        one.Worst is not { } first || other.Worst is not { } second ? one.Worst ?? other.Worst
        : one.Kind is AlarmKind.TooLow ? Math.Min(first, second)
        : Math.Max(first, second);

    private async Task LookAsync(CancellationToken cancel)
    {
        var now = clock.GetCurrentInstant();
        if (!_isStale && now - _looked < LookAgain)
        {
            return;
        }

        var isStale = _isStale;
        (_isStale, _looked) = (false, now);
        var sensors = await store.SensorsAsync(cancel);
        // Telling the house is costly; the species and stages of its vessels change slowly.
        if (isStale || now - _told > TellAgain)
        {
            _told = now;
            _house = new KnownHouse(Account.Of(await journal.ReadAllAsync(cancel)));
        }

        var profiles = new HouseProfiles(_house, now);
        _sensors = sensors.ToDictionary(
            sensor => sensor.Id,
            sensor =>
                (
                    sensor,
                    sensor.Vessel is null ? null : sensor.Limits ?? DefaultLimits.Of(_house, profiles, sensor)
                )
        );
    }

    private async Task TellAsync(Instant now, CancellationToken cancel)
    {
        if (!await IsOursAsync(cancel))
        {
            return;
        }

        var alarms = OneOfEach(await store.AlarmsAsync(now - Duration.FromHours(1), cancel));
        var tried = (await store.DeliveriesAsync(now - Remembered, cancel)).ToLookup(one => one.Alarm);
        foreach (var alarm in alarms)
        {
            await PublishAsync(alarm, [.. tried[alarm.Id]], now, cancel);
            if (_mail is null || !_sensors.TryGetValue(alarm.Sensor, out var known))
            {
                continue;
            }

            var mails = tried[alarm.Id].Where(one => one.Way == "mail").ToList();
            var wait = Duration.FromMinutes(settings.EscalateAfterMinutes);
            foreach (var due in AlarmTelling.Due(alarm, _people, mails, wait, now))
            {
                if (!await IsOursAsync(cancel))
                {
                    return;
                }

                var person = settings.People.First(one => one.Key == due.Person.Key);
                var name = alarm.Vessel is { } vessel ? _house.Vessel(vessel).Name : null;
                var failure = await _mail.SendAsync(person, alarm, known.Sensor, name, due.Step, cancel);
                await NoteAsync(new(alarm.Id, now, "mail", person.Key, due.Step, failure), cancel);
            }
        }
    }

    // Of two servers on one store one tells; before each mail it says that it is still there, since a mail may take long.
    private async Task<bool> IsOursAsync(CancellationToken cancel)
    {
        var now = clock.GetCurrentInstant();
        return (_mail is not null || listening is not null)
            && await store.ClaimAsync(Telling, _me, now, now + ClaimHolds, cancel);
    }

    // Two that were raised at the same moment by two servers are told as one.
    private static IReadOnlyList<AlarmSpan> OneOfEach(IReadOnlyList<AlarmSpan> alarms) =>
        [
            .. alarms.Where(alarm =>
                !alarm.Lasts
                || !alarms.Any(other =>
                    other.Lasts
                    && other.Sensor == alarm.Sensor
                    && other.Kind == alarm.Kind
                    && (other.From, other.Id).CompareTo((alarm.From, alarm.Id)) < 0
                )
            ),
        ];

    private async Task NoteAsync(AlarmDelivery delivery, CancellationToken cancel)
    {
        await store.AddAsync(delivery, cancel);
        if (delivery.Failure is { } code)
        {
            log.NotDelivered(delivery.Alarm, delivery.Way, delivery.To, code);
        }
    }

    private async Task PublishAsync(
        AlarmSpan alarm,
        IReadOnlyList<AlarmDelivery> tried,
        Instant now,
        CancellationToken cancel
    )
    {
        if (listening is null || _published.Contains((alarm.Id, alarm.Lasts)))
        {
            return;
        }

        var topic = $"{SensorTopic.Root}/{SensorTopic.House}/alarms/{alarm.Id}";
        var text = JsonSerializer.SerializeToUtf8Bytes(
            SensorsTelling.Of(alarm, []),
            SensorsJson.Default.AlarmSeen
        );
        var went = await listening.TellAsync(topic, text, retained: alarm.Lasts, cancel);
        if (went && !alarm.Lasts)
        {
            // Its end is heard by who listens; who comes later finds nothing.
            went = await listening.TellAsync(topic, Encoding.UTF8.GetBytes(""), retained: true, cancel);
        }

        if (went)
        {
            _published.Add((alarm.Id, alarm.Lasts));
        }

        var last = tried.LastOrDefault(one => one.Way == "mqtt");
        var failure = went ? null : "sensor-broker-away";
        if (alarm.Lasts && (last is null ? !went : last.Failure != failure))
        {
            await NoteAsync(new(alarm.Id, now, "mqtt", "", 0, failure), cancel);
        }
    }
}
