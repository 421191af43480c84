using System.Collections.Concurrent;
using Broodtide.Units;
using Broodtide.Workbench.Sensors;
using NodaTime;

namespace Broodtide.Server.Sensors;

/// <summary>A message as it came from the broker.</summary>
internal readonly record struct ArrivedMessage(string Topic, ReadOnlyMemory<byte> Payload);

/// <summary>
/// Takes what devices send into the store: many messages in one write. What is wrong with a message is told by a code and
/// counted; its neighbours are taken all the same.
/// </summary>
internal sealed class SensorIntake(IReadingStore store, IClock clock, int keepWholeDays)
{
    /// <summary>Most sensors of a house: whoever makes up names fills no disk.</summary>
    public const int MostSensors = 10_000;

    /// <summary>Most new readings of one sensor in a day of UTC: ten a second.</summary>
    public const int MostADay = 864_000;

    // Device clocks go ahead a little; practice.
    private static readonly Duration Ahead = Duration.FromMinutes(5);

    // So long a number counts as the same reading sent again, where a device has no clock.
    private static readonly Duration SentAgainWithin = Duration.FromMinutes(10);

    private readonly ConcurrentDictionary<SensorId, SensorAbout> _known = new();
    private readonly ConcurrentDictionary<string, Instant> _gone = new(StringComparer.Ordinal);
    private readonly Dictionary<(SensorId, long), (Instant At, double Value)> _numbers = [];
    private readonly Dictionary<SensorId, (LocalDate Day, int Count)> _today = [];
    private long _new;
    private long _doubled;

    /// <summary>Readings that were kept, new ones and others; after they are on the disk.</summary>
    public Action<IReadOnlyList<SensorReading>>? Took { get; set; }

    public long New => Interlocked.Read(ref _new);

    public long Doubled => Interlocked.Read(ref _doubled);

    /// <summary>What was refused.</summary>
    public RefusedMessages Refused { get; } = new();

    /// <summary>Since when a device said, or had it said, that it is gone; none while it is there.</summary>
    public Instant? GoneSince(string device) => _gone.TryGetValue(device, out var since) ? since : null;

    /// <summary>Learns which sensors the store knows.</summary>
    public async Task OpenAsync(CancellationToken cancel)
    {
        foreach (var sensor in await store.SensorsAsync(cancel))
        {
            _known[sensor.Id] = sensor.About;
        }
    }

    /// <summary>Takes messages. When this returns, what was right in them is on the disk. One call at a time.</summary>
    public async Task TakeAsync(IReadOnlyList<ArrivedMessage> messages, CancellationToken cancel)
    {
        var now = clock.GetCurrentInstant();
        var taken = new List<SensorReading>();
        foreach (var message in messages)
        {
            if (await HearAsync(message, taken, now, cancel) is { } refusal)
            {
                Refused.Add(message.Topic, refusal, now);
            }
        }

        await KeepAsync(taken, cancel);
    }

    /// <summary>Keeps readings that came another way, of a sensor described here or before. One call at a time.</summary>
    public async Task<Taken> KeepAsync(
        SensorId sensor,
        SensorAbout about,
        IReadOnlyList<RawReading> readings,
        CancellationToken cancel
    )
    {
        if (!_known.ContainsKey(sensor))
        {
            await store.DescribeAsync(sensor, about, clock.GetCurrentInstant(), cancel);
            _known[sensor] = about;
        }

        return await KeepAsync([.. readings.Select(reading => new SensorReading(sensor, reading))], cancel);
    }

    /// <summary>What is known of a sensor; none before it was heard of.</summary>
    public SensorAbout? AboutOf(SensorId sensor) => _known.GetValueOrDefault(sensor);

    private async Task<Taken> KeepAsync(List<SensorReading> readings, CancellationToken cancel)
    {
        if (readings.Count == 0)
        {
            return default;
        }

        var taken = await store.TakeAsync(readings, cancel);
        Interlocked.Add(ref _new, taken.New);
        Interlocked.Add(ref _doubled, taken.Known);
        Took?.Invoke(readings);
        return taken;
    }

    private async Task<Remark?> HearAsync(
        ArrivedMessage message,
        List<SensorReading> taken,
        Instant now,
        CancellationToken cancel
    )
    {
        var topic = SensorTopic.Read(message.Topic);
        if (!topic.Succeeded)
        {
            return topic.Reason;
        }

        switch (topic.Value.Kind)
        {
            case SensorTopicKind.Status:
                return HearStatus(topic.Value.Device, message.Payload, now);
            case SensorTopicKind.About:
                // An empty retained message takes a description away; what was heard stays.
                return message.Payload.IsEmpty
                    ? null
                    : await DescribeAsync(
                        topic.Value.Sensor!,
                        SensorMessages.ReadAbout(message.Payload),
                        now,
                        cancel
                    );
            default:
                var sent = SensorMessages.ReadReadings(message.Payload);
                return sent.Succeeded
                    ? await TakeAsync(topic.Value.Sensor!, sent.Value, taken, now, cancel)
                    : sent.Reason;
        }
    }

    private Remark? HearStatus(string device, ReadOnlyMemory<byte> payload, Instant now)
    {
        var status = payload.IsEmpty ? Parsed<bool>.Of(true) : SensorMessages.ReadStatus(payload);
        if (!status.Succeeded)
        {
            return status.Reason;
        }

        if (status.Value)
        {
            _gone.TryRemove(device, out _);
        }
        else if (_gone.Count < MostSensors)
        {
            _gone.TryAdd(device, now);
        }

        return null;
    }

    private async Task<Remark?> DescribeAsync(
        SensorId sensor,
        Parsed<SensorAbout> about,
        Instant now,
        CancellationToken cancel
    )
    {
        if (!about.Succeeded)
        {
            return about.Reason;
        }

        if (_known.TryGetValue(sensor, out var known))
        {
            if (known.Unit != about.Value.Unit)
            {
                return new Remark("sensor-unit-changed");
            }

            if (known == about.Value)
            {
                return null;
            }
        }
        else if (_known.Count >= MostSensors)
        {
            return new Remark("sensors-too-many");
        }

        await store.DescribeAsync(sensor, about.Value, now, cancel);
        _known[sensor] = about.Value;
        return null;
    }

    // All readings of a message or none: half a message is nobody's.
    private async Task<Remark?> TakeAsync(
        SensorId sensor,
        IReadOnlyList<SentReading> sent,
        List<SensorReading> taken,
        Instant now,
        CancellationToken cancel
    )
    {
        var oldest = now - Duration.FromDays(keepWholeDays);
        foreach (var reading in sent)
        {
            if (_known.TryGetValue(sensor, out var known) && known.Unit != reading.Unit)
            {
                return new Remark("sensor-unit-changed");
            }

            if (reading.Unit != sent[0].Unit)
            {
                return new Remark("sensor-unit-changed");
            }

            if (reading.At > now + Ahead)
            {
                return new Remark("sensor-time-ahead");
            }

            if (reading.At < oldest)
            {
                return new Remark("sensor-time-too-old");
            }
        }

        if (sent.Count == 0)
        {
            return null;
        }

        if (!HasRoom(sensor, sent.Count, now))
        {
            return new Remark("sensor-readings-too-many");
        }

        if (!_known.ContainsKey(sensor))
        {
            var refusal = await DescribeAsync(sensor, Parsed<SensorAbout>.Of(new(sent[0].Unit)), now, cancel);
            if (refusal is not null)
            {
                return refusal;
            }
        }

        foreach (var reading in sent)
        {
            if (reading.At is { } at)
            {
                taken.Add(new(sensor, new(at, reading.Value)));
            }
            else if (IsSentAgain(sensor, reading, now))
            {
                Interlocked.Increment(ref _doubled);
            }
            else
            {
                // Two without a time in one write must not fall on one millisecond.
                taken.Add(new(sensor, new(FreeTime(sensor, taken, now), reading.Value)));
            }
        }

        return null;
    }

    private static Instant FreeTime(SensorId sensor, List<SensorReading> taken, Instant now)
    {
        var at = RawReading.Cut(now);
        while (taken.Exists(other => other.Reading.At == at && other.Sensor == sensor))
        {
            at += Duration.FromMilliseconds(1);
        }

        return at;
    }

    private bool IsSentAgain(SensorId sensor, SentReading reading, Instant now)
    {
        if (reading.Sequence is not { } number)
        {
            return false;
        }

        if (_numbers.Count > 4 * MostSensors)
        {
            foreach (var (key, heard) in _numbers.ToList())
            {
                if (heard.At + SentAgainWithin < now)
                {
                    _numbers.Remove(key);
                }
            }
        }

        var isAgain =
            _numbers.TryGetValue((sensor, number), out var before)
            && before.Value == reading.Value
            && before.At + SentAgainWithin >= now;
        if (!isAgain)
        {
            _numbers[(sensor, number)] = (now, reading.Value);
        }

        return isAgain;
    }

    private bool HasRoom(SensorId sensor, int count, Instant now)
    {
        var day = now.InUtc().Date;
        var before = _today.TryGetValue(sensor, out var heard) && heard.Day == day ? heard.Count : 0;
        if (before + count > MostADay)
        {
            return false;
        }

        _today[sensor] = (day, before + count);
        return true;
    }
}
