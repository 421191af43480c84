using System.Security.Cryptography;
using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Workbench.Sensors;

/// <summary>
/// One sensor's readings of one day of UTC, closed and named by its content. It is never changed: a late reading makes
/// another block, which takes its place. How it is written down stands in docs/sensors.md.
/// </summary>
public sealed class DayBlock
{
    /// <summary>Most readings of a block: twenty a second.</summary>
    public const int Most = 1_728_000;

    private DayBlock(
        SensorDay day,
        string unit,
        IReadOnlyList<RawReading> readings,
        int cameAs,
        byte[] content
    )
    {
        Day = day;
        Unit = unit;
        Readings = readings;
        CameAs = cameAs;
        Content = content;
        Sha256 = NameOf(content);
    }

    /// <summary>The sensor and the day.</summary>
    public SensorDay Day { get; }

    /// <summary>Unit of the readings, a code of the journal's list.</summary>
    public string Unit { get; }

    /// <summary>The readings, by time, each time once.</summary>
    public IReadOnlyList<RawReading> Readings { get; }

    /// <summary>How many readings there were before some were left out.</summary>
    public int CameAs { get; }

    /// <summary>Whether some were left out.</summary>
    public bool IsThinned => CameAs > Readings.Count;

    /// <summary>SHA-256 of the content, 64 lower-case hex figures: its name.</summary>
    public string Sha256 { get; }

    /// <summary>What the name vouches for.</summary>
    public ReadOnlyMemory<byte> Content { get; }

    /// <summary>The block of a day's readings.</summary>
    /// <param name="day">The sensor and the day.</param>
    /// <param name="unit">Unit of the readings, a code of the journal's list.</param>
    /// <param name="readings">Readings of that day, in any order; of one time the first stays.</param>
    /// <param name="cameAs">How many there were before some were left out; all of them if left out.</param>
    /// <exception cref="ArgumentException">
    /// The unit is none, a reading is of another day or no finite number, there is none, or there are too many.
    /// </exception>
    public static DayBlock Of(
        SensorDay day,
        string unit,
        IEnumerable<RawReading> readings,
        int? cameAs = null
    )
    {
        if (day.Sensor is null)
        {
            throw new ArgumentException("The day has no sensor.", nameof(day));
        }

        ArgumentNullException.ThrowIfNull(readings);
        if (UnitCode.Find(unit) is null)
        {
            throw new ArgumentException("The unit is none of the list.", nameof(unit));
        }

        RawReading[] sorted = [.. readings.DistinctBy(reading => reading.At).OrderBy(reading => reading.At)];
        if (
            sorted.Length is 0 or > Most
            || sorted[0].At < day.From
            || sorted[^1].At >= day.To
            || sorted.Any(reading =>
                !double.IsFinite(reading.Value) || RawReading.Cut(reading.At) != reading.At
            )
        )
        {
            throw new ArgumentException(
                "A block holds finite readings of its day, at whole milliseconds.",
                nameof(readings)
            );
        }

        var came = Math.Max(cameAs ?? 0, sorted.Length);
        return new(day, unit, sorted, came, DayBlockContent.Write(day, unit, sorted, came));
    }

    /// <summary>The bytes as a store keeps them: the content, compressed.</summary>
    public byte[] ToBytes() => DayBlockContent.Compress(Content.Span);

    /// <summary>Reads a block, whose bytes may come from anywhere.</summary>
    /// <param name="bytes">What <see cref="ToBytes"/> gave.</param>
    /// <param name="sha256">The name that it must have.</param>
    /// <returns>The block, or why it is none.</returns>
    public static Parsed<DayBlock> Read(ReadOnlySpan<byte> bytes, string sha256)
    {
        if (
            DayBlockContent.Expand(bytes) is not { } content
            || !string.Equals(NameOf(content), sha256, StringComparison.Ordinal)
            || DayBlockContent.Read(content) is not var (day, unit, readings, came)
        )
        {
            return Parsed<DayBlock>.No("sensor-block-damaged", new Argument("block", sha256));
        }

        return Parsed<DayBlock>.Of(new(day, unit, readings, came, content));
    }

    private static string NameOf(ReadOnlySpan<byte> content) =>
        Convert.ToHexStringLower(SHA256.HashData(content));
}
