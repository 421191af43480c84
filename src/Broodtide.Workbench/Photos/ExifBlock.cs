using System.Buffers.Binary;
using System.Text;
using NodaTime.Text;

namespace Broodtide.Workbench.Photos;

/// <summary>
/// The few things asked of an EXIF block: orientation, time, whether a place is in it. The block is a TIFF structure
/// (EXIF 2.32, CIPA DC-008-2019, section 4.5): a byte order, then directories of 12-byte fields.
/// </summary>
/// <param name="Orientation">1 to 8 (tag 0x0112); 1 where none is said.</param>
/// <param name="Taken">Tags 0x9003 and 0x9011.</param>
/// <param name="HoldsPlace">Whether there is a pointer to a GPS directory (tag 0x8825).</param>
internal sealed record ExifBlock(int Orientation, PhotoTime? Taken, bool HoldsPlace)
{
    private const ushort OrientationTag = 0x0112;
    private const ushort ExifPointerTag = 0x8769;
    private const ushort PlacePointerTag = 0x8825;
    private const ushort TakenTag = 0x9003;
    private const ushort OffsetTag = 0x9011;
    private const int FieldLength = 12;

    private static readonly LocalDateTimePattern Clock = LocalDateTimePattern.CreateWithInvariantCulture(
        "uuuu':'MM':'dd HH':'mm':'ss"
    );
    private static readonly OffsetPattern FromUtc = OffsetPattern.CreateWithInvariantCulture("+HH:mm");

    public static ExifBlock None { get; } = new(1, null, false);

    /// <summary>
    /// Reads what is there. A block that makes no sense holds nothing for us: the picture beside it may be whole.
    /// </summary>
    public static ExifBlock Read(ReadOnlySpan<byte> tiff)
    {
        if (tiff.Length < 8)
        {
            return None;
        }

        var isLittle = tiff.StartsWith("II*\0"u8);
        if (!isLittle && !tiff.StartsWith("MM\0*"u8))
        {
            return None;
        }

        var reader = new Tiff(tiff, isLittle);
        var first = reader.Long(4);
        var orientation = reader.Short(reader.ValueAt(first, OrientationTag));
        var exif = reader.Long(reader.ValueAt(first, ExifPointerTag));
        return new(
            orientation is >= 1 and <= 8 ? (int)orientation : 1,
            Time(reader.Text(exif, TakenTag), reader.Text(exif, OffsetTag)),
            reader.ValueAt(first, PlacePointerTag) is not null
        );
    }

    /// <summary>
    /// A block of our own that says the orientation and nothing else: 26 bytes, one directory of one field.
    /// </summary>
    public static byte[] Write(int orientation)
    {
        byte[] block = [.. "MM\0*"u8, 0, 0, 0, 8, 0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0, 0, 0];
        block[19] = (byte)orientation;
        return block;
    }

    private static PhotoTime? Time(string? text, string? offset) =>
        text is not null && Clock.Parse(text) is { Success: true } read
            ? new(
                read.Value,
                offset is not null && FromUtc.Parse(offset) is { Success: true, Value: var from }
                    ? from
                    : null
            )
            : null;

    private readonly ref struct Tiff(ReadOnlySpan<byte> bytes, bool isLittle)
    {
        private readonly ReadOnlySpan<byte> _bytes = bytes;

        /// <summary>Place of a field's four value bytes in a directory, or none.</summary>
        public long? ValueAt(long? directory, ushort tag)
        {
            if (directory is not { } start || Short(start) is not { } count)
            {
                return null;
            }

            for (var field = 0; field < count; field++)
            {
                var at = start + 2 + (field * FieldLength);
                if (Short(at) is not { } found)
                {
                    return null;
                }

                if (found == tag)
                {
                    return at + 8;
                }
            }

            return null;
        }

        /// <summary>The letters of a field, without the zero at their end.</summary>
        public string? Text(long? directory, ushort tag)
        {
            if (ValueAt(directory, tag) is not { } value || Long(value - 4) is not { } length || length > 64)
            {
                return null;
            }

            // Up to four bytes stand in the field itself.
            var at = length <= 4 ? value : Long(value);
            return at is { } start && start + length <= _bytes.Length
                ? Encoding.ASCII.GetString(_bytes.Slice((int)start, (int)length)).TrimEnd('\0', ' ')
                : null;
        }

        public long? Short(long? place) =>
            place is { } at && at >= 0 && at + 2 <= _bytes.Length
                ? isLittle
                    ? BinaryPrimitives.ReadUInt16LittleEndian(_bytes[(int)at..])
                    : BinaryPrimitives.ReadUInt16BigEndian(_bytes[(int)at..])
                : null;

        public long? Long(long? place) =>
            place is { } at && at >= 0 && at + 4 <= _bytes.Length
                ? isLittle
                    ? BinaryPrimitives.ReadUInt32LittleEndian(_bytes[(int)at..])
                    : BinaryPrimitives.ReadUInt32BigEndian(_bytes[(int)at..])
                : null;
    }
}
