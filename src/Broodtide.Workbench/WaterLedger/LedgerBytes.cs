using Broodtide.Domain;
using Broodtide.Science.Estimation;
using Broodtide.Units;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.WaterLedger;

/// <summary>
/// What ledgers are made of as bytes, every number to its last bit. The bytes may be thrown away, so a shape of our own will do.
/// </summary>
internal static class LedgerBytes
{
    public static void Put(this BinaryWriter to, Guid id)
    {
        Span<byte> bytes = stackalloc byte[16];
        id.TryWriteBytes(bytes);
        to.Write(bytes);
    }

    public static Guid Id(this BinaryReader from)
    {
        Span<byte> bytes = stackalloc byte[16];
        from.BaseStream.ReadExactly(bytes);
        return new Guid(bytes);
    }

    public static void Put(this BinaryWriter to, Instant at)
    {
        var since = at - NodaConstants.UnixEpoch;
        to.Write(since.Days);
        to.Write(since.NanosecondOfDay);
    }

    public static Instant Instant(this BinaryReader from) =>
        NodaConstants.UnixEpoch
        + Duration.FromDays(from.ReadInt32())
        + Duration.FromNanoseconds(from.ReadInt64());

    public static void Put(this BinaryWriter to, Interval interval)
    {
        to.Write(interval.Low);
        to.Write(interval.Middle);
        to.Write(interval.High);
    }

    public static Interval Interval(this BinaryReader from) =>
        Units.Interval.FromPoints(from.ReadDouble(), from.ReadDouble(), from.ReadDouble());

    public static Temperature Temperature(this BinaryReader from) =>
        Units.Temperature.FromCelsius(from.ReadDouble());

    public static void Put(this BinaryWriter to, ReadOnlySpan<byte> bytes)
    {
        to.Write(bytes.Length);
        to.Write(bytes);
    }

    public static byte[] Bytes(this BinaryReader from) => from.ReadBytes(Count(from));

    /// <summary>A number of things that follow, each of at least one byte.</summary>
    /// <exception cref="InvalidDataException">So many cannot follow.</exception>
    public static int Count(this BinaryReader from) =>
        from.ReadInt32() is var count
        && count >= 0
        && count <= from.BaseStream.Length - from.BaseStream.Position
            ? count
            : throw new InvalidDataException("More is announced than follows.");

    public static void Put(this BinaryWriter to, WaterSaltFilter filter)
    {
        var state = filter.State();
        to.Write(state.Slots.Count);
        foreach (var slot in state.Slots)
        {
            to.Write(slot.Row);
            to.Write(slot.Temperature.Celsius);
            to.Write(slot.EvaporationPriorKgPerDay);
            to.Write(slot.SensorWanderSd is not null);
            to.Write(slot.SensorWanderSd ?? 0);
        }

        to.Put(state.Mean);
        to.Put(state.Covariance);
    }

    public static WaterSaltFilter Filter(this BinaryReader from)
    {
        var slots = new WaterSaltSlot[Count(from)];
        for (var at = 0; at < slots.Length; at++)
        {
            var (row, temperature, prior) = (from.ReadInt32(), from.Temperature(), from.ReadDouble());
            var (isSensor, wander) = (from.ReadBoolean(), from.ReadDouble());
            slots[at] = new(row, temperature, prior, isSensor ? wander : null);
        }

        return WaterSaltFilter.Of(new WaterSaltState(slots, from.Doubles(), from.Doubles()));
    }

    /// <summary>Whether every argument of a remark is of a kind that can be kept.</summary>
    public static bool CanBeKept(Remark remark) =>
        remark.Arguments.All(argument =>
            argument.Value is double or EntryId or VesselId or NodaTime.Instant or string
        );

    public static void Put(this BinaryWriter to, Remark remark)
    {
        to.Write(remark.Code);
        to.Write(remark.Arguments.Count);
        foreach (var (name, value) in remark.Arguments)
        {
            to.Write(name);
            switch (value)
            {
                case double number:
                    to.Write('d');
                    to.Write(number);
                    break;
                case EntryId entry:
                    to.Write('e');
                    to.Put(entry.Value);
                    break;
                case VesselId vessel:
                    to.Write('v');
                    to.Put(vessel.Value);
                    break;
                case Instant at:
                    to.Write('i');
                    to.Put(at);
                    break;
                default:
                    to.Write('s');
                    to.Write((string)value);
                    break;
            }
        }
    }

    public static Remark Remark(this BinaryReader from)
    {
        var code = from.ReadString();
        var arguments = new Argument[Count(from)];
        for (var at = 0; at < arguments.Length; at++)
        {
            var name = from.ReadString();
            arguments[at] = new(
                name,
                from.ReadChar() switch
                {
                    'd' => from.ReadDouble(),
                    'e' => new EntryId(from.Id()),
                    'v' => new VesselId(from.Id()),
                    'i' => from.Instant(),
                    _ => from.ReadString(),
                }
            );
        }

        return new Remark(code, arguments);
    }

    private static void Put(this BinaryWriter to, IReadOnlyList<double> numbers)
    {
        to.Write(numbers.Count);
        foreach (var number in numbers)
        {
            to.Write(number);
        }
    }

    private static double[] Doubles(this BinaryReader from)
    {
        var numbers = new double[Count(from)];
        for (var at = 0; at < numbers.Length; at++)
        {
            numbers[at] = from.ReadDouble();
        }

        return numbers;
    }
}
