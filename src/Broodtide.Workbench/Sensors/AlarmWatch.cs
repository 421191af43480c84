using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using Broodtide.Domain;
using NodaTime;

namespace Broodtide.Workbench.Sensors;

/// <summary>
/// Watches one sensor. A value must stay outside its limit for the holding time before there is an alarm, and come back by
/// the hysteresis for as long before the alarm ends: a value that trembles on its limit is one alarm and not a hundred.
/// </summary>
public sealed class AlarmWatch
{
    private readonly SensorId _sensor;
    private readonly Side _low = new(AlarmKind.TooLow);
    private readonly Side _high = new(AlarmKind.TooHigh);
    private Instant? _last;
    private AlarmSpan? _silent;

    /// <summary>A watch that begins.</summary>
    /// <param name="sensor">The sensor.</param>
    /// <param name="lasting">Alarms of it that were raised before and last.</param>
    /// <param name="last">Its newest reading so far; none before the first.</param>
    public AlarmWatch(SensorId sensor, IEnumerable<AlarmSpan>? lasting = null, Instant? last = null)
    {
        (_sensor, _last) = (sensor, last);
        foreach (var alarm in lasting ?? [])
        {
            switch (alarm.Kind)
            {
                case AlarmKind.TooLow:
                    _low.Raised = alarm;
                    break;
                case AlarmKind.TooHigh:
                    _high.Raised = alarm;
                    break;
                default:
                    _silent = alarm;
                    break;
            }
        }
    }

    /// <summary>The time of the newest reading it has seen; none before the first.</summary>
    public Instant? Newest => _last;

    /// <summary>Sees a reading. One that is older than the newest seen tells nothing of now.</summary>
    /// <param name="reading">The reading.</param>
    /// <param name="limits">The limits that hold.</param>
    /// <param name="vessel">The vessel that the sensor stands in.</param>
    /// <param name="now">When it is seen.</param>
    /// <returns>Alarms that were raised, grew worse or ended.</returns>
    public IReadOnlyList<AlarmSpan> See(
        RawReading reading,
        SensorLimits limits,
        VesselId? vessel,
        Instant now
    )
    {
        ArgumentNullException.ThrowIfNull(limits);
        if (_last is { } last && reading.At <= last)
        {
            return [];
        }

        _last = reading.At;
        var changed = new List<AlarmSpan>();
        if (_silent is { } silent)
        {
            changed.Add(silent with { Until = reading.At });
            _silent = null;
        }

        Judge(_low, limits.Low, -1);
        Judge(_high, limits.High, 1);
        return changed;

        void Judge(Side side, double? limit, int sign)
        {
            if (Watched(side, limit, sign, reading, limits, vessel, now) is { } alarm)
            {
                changed.Add(alarm);
            }
        }
    }

    /// <summary>Sees that time goes by.</summary>
    /// <param name="limits">The limits that hold; none where no alarm is wanted any more.</param>
    /// <param name="vessel">The vessel that the sensor stands in.</param>
    /// <param name="now">The time.</param>
    /// <returns>Alarms that were raised or ended.</returns>
    public IReadOnlyList<AlarmSpan> Wait(SensorLimits? limits, VesselId? vessel, Instant now)
    {
        if (limits is null)
        {
            var over = new[] { _low.Raised, _high.Raised, _silent }
                .OfType<AlarmSpan>()
                .Select(alarm => alarm with { Until = now })
                .ToList();
            (_silent, _low.Raised, _high.Raised, _low.Since, _high.Since) = (null, null, null, null, null);
            return over;
        }

        if (
            _silent is null
            && _last is { } last
            && limits.SilentSeconds is { } seconds
            && now - last > Duration.FromSeconds(seconds)
        )
        {
            _silent = Make(AlarmKind.Silent, seconds, null, last, limits, vessel, now);
            return [_silent];
        }

        return [];
    }

    /// <summary>The identity of an alarm: the same wherever and whenever it is found.</summary>
    /// <param name="sensor">The sensor.</param>
    /// <param name="kind">What it is about.</param>
    /// <param name="from">When it began.</param>
    public static Guid IdOf(SensorId sensor, AlarmKind kind, Instant from)
    {
        ArgumentNullException.ThrowIfNull(sensor);
        Span<byte> time = stackalloc byte[8];
        BinaryPrimitives.WriteInt64BigEndian(time, from.ToUnixTimeMilliseconds());
        var hash = SHA256.HashData([.. Encoding.UTF8.GetBytes($"{sensor} {kind} "), .. time]);
        // Version 8 of RFC 9562: made by a rule of our own.
        hash[6] = (byte)((hash[6] & 0x0F) | 0x80);
        hash[8] = (byte)((hash[8] & 0x3F) | 0x80);
        return new Guid(hash.AsSpan(0, 16), bigEndian: true);
    }

    private AlarmSpan? Watched(
        Side side,
        double? limit,
        int sign,
        RawReading reading,
        SensorLimits limits,
        VesselId? vessel,
        Instant now
    )
    {
        var hold = Duration.FromSeconds(limits.HoldSeconds);
        if (side.Raised is { } raised)
        {
            // The limit may have been moved since; an alarm without one is over.
            var isInside = limit is not { } kept || sign * (reading.Value - kept) <= -limits.Hysteresis;
            if (!isInside)
            {
                side.Since = null;
                if (raised.Worst is { } worst && sign * (reading.Value - worst) <= 0)
                {
                    return null;
                }

                side.Raised = raised with { Worst = reading.Value };
                return side.Raised;
            }

            side.Since ??= reading.At;
            if (reading.At - side.Since.Value < hold)
            {
                return null;
            }

            var ended = raised with { Until = side.Since };
            (side.Raised, side.Since) = (null, null);
            return ended;
        }

        if (limit is not { } edge || sign * (reading.Value - edge) <= 0)
        {
            side.Since = null;
            return null;
        }

        if (side.Since is null)
        {
            (side.Since, side.Worst) = (reading.At, reading.Value);
        }

        side.Worst = sign * (reading.Value - side.Worst) > 0 ? reading.Value : side.Worst;
        if (reading.At - side.Since.Value < hold)
        {
            return null;
        }

        side.Raised = Make(side.Kind, edge, side.Worst, side.Since.Value, limits, vessel, now);
        side.Since = null;
        return side.Raised;
    }

    private AlarmSpan Make(
        AlarmKind kind,
        double limit,
        double? worst,
        Instant from,
        SensorLimits limits,
        VesselId? vessel,
        Instant now
    ) =>
        new()
        {
            Id = IdOf(_sensor, kind, from),
            Sensor = _sensor,
            Vessel = vessel,
            Kind = kind,
            Limit = limit,
            Worst = worst,
            From = from,
            Raised = RawReading.Cut(now),
            IsLifeThreatening = limits.IsLifeThreatening,
        };

    // Outside while no alarm is raised, or inside while one is: since when.
    private sealed class Side(AlarmKind kind)
    {
        public AlarmKind Kind { get; } = kind;

        public Instant? Since { get; set; }

        public double Worst { get; set; }

        public AlarmSpan? Raised { get; set; }
    }
}
