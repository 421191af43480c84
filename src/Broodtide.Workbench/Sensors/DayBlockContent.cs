using System.Buffers;
using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;
using Broodtide.Domain.Journal;
using NodaTime;

namespace Broodtide.Workbench.Sensors;

/// <summary>
/// How a block is written down. The name is taken of the content, not of its compressed form: another version of the
/// compressor gives other bytes and the same name.
/// </summary>
internal static class DayBlockContent
{
    private const byte Version = 1;
    private const byte PlainValues = 1;
    private const int MostDecimals = 6;
    private const int MillisecondsOfDay = 86_400_000;

    // A reading takes at most thirteen bytes: five of time, eight of value.
    private const int LongestContent = (DayBlock.Most * 13) + 1024;

    private static ReadOnlySpan<byte> Mark => "BTDB"u8;

    public static byte[] Write(SensorDay day, string unit, IReadOnlyList<RawReading> readings, int cameAs)
    {
        var writer = new Writer();
        writer.Bytes(Mark);
        writer.Byte(Version);
        writer.Text(day.Sensor.ToString());
        writer.Text(unit);
        writer.Signed(Period.DaysBetween(Epoch, day.Day));
        writer.Unsigned((ulong)cameAs);
        writer.Unsigned((ulong)readings.Count);
        var (from, time, step) = (day.From, 0L, 0L);
        foreach (var reading in readings)
        {
            var now = (long)(reading.At - from).TotalMilliseconds;
            writer.Signed(now - time - step);
            (step, time) = (now - time, now);
        }

        if (Decimals(readings) is { } decimals)
        {
            writer.Byte(0);
            writer.Byte((byte)decimals);
            var before = 0L;
            foreach (var reading in readings)
            {
                var steps = Steps(reading.Value, decimals);
                writer.Signed(steps - before);
                before = steps;
            }
        }
        else
        {
            writer.Byte(PlainValues);
            foreach (var reading in readings)
            {
                writer.Double(reading.Value);
            }
        }

        return writer.ToArray();
    }

    public static (SensorDay Day, string Unit, RawReading[] Readings, int CameAs)? Read(byte[] content)
    {
        try
        {
            return ReadWhole(content);
        }
        catch (Exception cut)
            when (cut is ArgumentOutOfRangeException or IndexOutOfRangeException or OverflowException)
        {
            return null;
        }
    }

    public static byte[] Compress(ReadOnlySpan<byte> content)
    {
        using var target = new MemoryStream();
        using (var deflate = new DeflateStream(target, CompressionLevel.Optimal))
        {
            deflate.Write(content);
        }

        return target.ToArray();
    }

    public static byte[]? Expand(ReadOnlySpan<byte> bytes)
    {
        using var source = new MemoryStream(bytes.ToArray());
        using var inflate = new DeflateStream(source, CompressionMode.Decompress);
        using var target = new MemoryStream();
        var part = new byte[64 * 1024];
        try
        {
            while (inflate.Read(part) is > 0 and var count)
            {
                if (target.Length + count > LongestContent)
                {
                    return null;
                }

                target.Write(part, 0, count);
            }
        }
        catch (InvalidDataException)
        {
            return null;
        }

        return target.ToArray();
    }

    private static LocalDate Epoch => new(1970, 1, 1);

    private static (SensorDay, string, RawReading[], int)? ReadWhole(byte[] content)
    {
        var reader = new Reader(content);
        if (!reader.Bytes(Mark.Length).SequenceEqual(Mark) || reader.Byte() != Version)
        {
            return null;
        }

        var (sensor, unit) = (SensorId.Find(reader.Text()), reader.Text());
        var days = reader.Signed();
        var (came, count) = (reader.Unsigned(), reader.Unsigned());
        if (
            sensor is null
            || UnitCode.Find(unit) is null
            || days is < -700_000 or > 2_900_000
            || came is > int.MaxValue
            || count is 0 or > DayBlock.Most
            || came < count
        )
        {
            return null;
        }

        var day = new SensorDay(sensor, Epoch.PlusDays((int)days));
        var readings = new RawReading[count];
        var (from, time, step) = (day.From, 0L, 0L);
        for (var at = 0; at < readings.Length; at++)
        {
            step += reader.Signed();
            time += step;
            if (time is < 0 or >= MillisecondsOfDay || (at > 0 && step <= 0))
            {
                return null;
            }

            readings[at] = new(from + Duration.FromMilliseconds(time), 0);
        }

        var isPlain = reader.Byte() == PlainValues;
        var decimals = isPlain ? 0 : reader.Byte();
        if (decimals > MostDecimals)
        {
            return null;
        }

        var before = 0L;
        for (var at = 0; at < readings.Length; at++)
        {
            var value = isPlain
                ? reader.Double()
                : (before = checked(before + reader.Signed())) / Math.Pow(10, decimals);
            if (!double.IsFinite(value))
            {
                return null;
            }

            readings[at] = readings[at] with { Value = value };
        }

        return reader.IsAtEnd ? (day, unit, readings, (int)came) : null;
    }

    // The fewest decimals with which every value is exactly a whole number of steps.
    private static int? Decimals(IReadOnlyList<RawReading> readings)
    {
        for (var decimals = 0; decimals <= MostDecimals; decimals++)
        {
            if (readings.All(reading => IsWhole(reading.Value, decimals)))
            {
                return decimals;
            }
        }

        return null;
    }

    private static bool IsWhole(double value, int decimals) =>
        Math.Abs(value * Math.Pow(10, decimals)) < 1L << 52
        && BitConverter.DoubleToInt64Bits(Steps(value, decimals) / Math.Pow(10, decimals))
            == BitConverter.DoubleToInt64Bits(value);

    private static long Steps(double value, int decimals) => (long)Math.Round(value * Math.Pow(10, decimals));

    private sealed class Writer
    {
        private readonly ArrayBufferWriter<byte> _bytes = new();

        public byte[] ToArray() => _bytes.WrittenSpan.ToArray();

        public void Byte(byte value) => _bytes.Write([value]);

        public void Bytes(ReadOnlySpan<byte> bytes) => _bytes.Write(bytes);

        public void Text(string text)
        {
            var bytes = Encoding.UTF8.GetBytes(text);
            Unsigned((ulong)bytes.Length);
            Bytes(bytes);
        }

        public void Signed(long value) => Unsigned((ulong)((value << 1) ^ (value >> 63)));

        public void Unsigned(ulong value)
        {
            for (; value >= 0x80; value >>= 7)
            {
                Byte((byte)(value | 0x80));
            }

            Byte((byte)value);
        }

        public void Double(double value)
        {
            Span<byte> bytes = stackalloc byte[8];
            BinaryPrimitives.WriteDoubleLittleEndian(bytes, value);
            Bytes(bytes);
        }
    }

    private sealed class Reader(byte[] content)
    {
        private int _at;

        public bool IsAtEnd => _at == content.Length;

        public byte Byte() => content[_at++];

        public ReadOnlySpan<byte> Bytes(int length)
        {
            var bytes = content.AsSpan(_at, length);
            _at += length;
            return bytes;
        }

        public string Text() => Encoding.UTF8.GetString(Bytes(checked((int)Unsigned())));

        public long Signed()
        {
            var value = Unsigned();
            return (long)(value >> 1) ^ -(long)(value & 1);
        }

        public ulong Unsigned()
        {
            var value = 0UL;
            for (var shift = 0; shift < 64; shift += 7)
            {
                var part = Byte();
                value |= (ulong)(part & 0x7F) << shift;
                if (part < 0x80)
                {
                    return value;
                }
            }

            throw new OverflowException("A number has more than ten bytes.");
        }

        public double Double() => BinaryPrimitives.ReadDoubleLittleEndian(Bytes(8));
    }
}
