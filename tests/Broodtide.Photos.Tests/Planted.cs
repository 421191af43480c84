using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;
using Broodtide.Workbench.Photos;

namespace Broodtide.Photos.Tests;

/// <summary>What a camera or a program hangs into a file beside the picture, made by hand: every place is invented.</summary>
internal static class Planted
{
    public const string Xmp =
        "<x:xmpmeta xmlns:x='adobe:ns:meta/'><rdf:RDF xmlns:rdf='http://www.w3.org/1999/02/22-rdf-syntax-ns#'>"
        + "<rdf:Description rdf:about='' xmlns:exif='http://ns.adobe.com/exif/1.0/' exif:GPSLatitude='12,34.5N' "
        + "exif:GPSLongitude='56,7.8E'/></rdf:RDF></x:xmpmeta>";

    /// <summary>
    /// An EXIF block as a phone writes it (EXIF 2.32 section 4.6): orientation, maker, description, time with offset,
    /// maker note, and a GPS directory at 12 34 30 N, 56 7 48 E.
    /// </summary>
    public static byte[] Exif(int orientation = 6, bool isLittle = true, string? offset = "+02:00")
    {
        var tiff = new TiffWriter(isLittle);
        var place = tiff.Directory([
            new(1, 2, "N\0"u8.ToArray()),
            new(2, 5, tiff.Rationals((12, 1), (34, 1), (30, 1))),
            new(3, 2, "E\0"u8.ToArray()),
            new(4, 5, tiff.Rationals((56, 1), (7, 1), (48, 1))),
        ]);
        List<Field> taken = [new(0x9003, 2, "2026:03:01 21:04:05\0"u8.ToArray())];
        if (offset is not null)
        {
            taken.Add(new(0x9011, 2, Encoding.ASCII.GetBytes(offset + "\0")));
        }

        taken.Add(new(0x927c, 7, Encoding.ASCII.GetBytes("NOTE OF THE MAKER 12.575 56.13")));
        var exif = tiff.Directory(taken);
        var first = tiff.Directory([
            new(0x010e, 2, "the cellar\0"u8.ToArray()),
            new(0x010f, 2, "Invented\0"u8.ToArray()),
            new(0x0112, 3, tiff.Short(orientation)),
            new(0x8769, 4, tiff.Long(exif)),
            new(0x8825, 4, tiff.Long(place)),
        ]);
        return tiff.Whole(first);
    }

    /// <summary>A JPEG with everything that can hang in it, and a second picture with a place behind its end.</summary>
    public static byte[] InJpeg(byte[] jpeg, byte[] exif)
    {
        byte[] trailing = [0xff, 0xd8, .. Segment(0xe1, [.. "Exif\0\0"u8, .. exif]), .. jpeg.AsSpan(2)];
        var from =
            jpeg[2] == 0xff && jpeg[3] == 0xe0 ? 4 + BinaryPrimitives.ReadUInt16BigEndian(jpeg.AsSpan(4)) : 2;
        return
        [
            .. jpeg[..from],
            .. Segment(0xe1, [.. "Exif\0\0"u8, .. exif]),
            .. Segment(0xe1, [.. "http://ns.adobe.com/xap/1.0/\0"u8, .. Encoding.UTF8.GetBytes(Xmp)]),
            .. Segment(0xe2, [.. "MPF\0II*\0"u8, 8, 0, 0, 0, 0, 0, 0, 0, 0, 0]),
            .. Segment(0xed, Iptc()),
            .. Segment(0xe5, "SOMEBODY'S OWN"u8.ToArray()),
            .. Segment(0xfe, "taken at the invented pond"u8.ToArray()),
            .. jpeg[from..],
            .. trailing,
            .. "TAIL OF A MAKER"u8,
        ];
    }

    /// <summary>A PNG with texts, time and EXIF, a chunk of somebody's own, and bytes behind its end.</summary>
    public static byte[] InPng(byte[] png, byte[] exif)
    {
        byte[] header = png[..33];
        return
        [
            .. header,
            .. Chunk("eXIf", exif),
            .. Chunk("tEXt", "Comment\0the invented pond"u8.ToArray()),
            .. Chunk("iTXt", [.. "XML:com.adobe.xmp\0\0\0\0\0"u8, .. Encoding.UTF8.GetBytes(Xmp)]),
            .. Chunk("zTXt", [.. "Description\0\0"u8, .. Packed("the invented pond"u8)]),
            .. Chunk("tIME", [7, 234, 3, 1, 21, 4, 5]),
            .. Chunk("prVt", "12.575 56.13"u8.ToArray()),
            .. png[33..],
            .. "TAIL"u8,
        ];
    }

    /// <summary>A WebP in its extended form with EXIF, XMP and a chunk of somebody's own.</summary>
    public static byte[] InWebP(byte[] webP, byte[] exif)
    {
        var look = PhotoIntake.Look(webP).Value;
        var (w, h) = (look.Across - 1, look.Down - 1);
        byte[] body =
        [
            .. RiffChunk("VP8X", [0x0c, 0, 0, 0, (byte)w, (byte)(w >> 8), 0, (byte)h, (byte)(h >> 8), 0]),
            .. webP[12..],
            .. RiffChunk("EXIF", exif),
            .. RiffChunk("XMP ", Encoding.UTF8.GetBytes(Xmp)),
            .. RiffChunk("prVt", "12.575 56.13!"u8.ToArray()),
        ];
        return [.. Riff(body), .. "TAIL"u8];
    }

    public static byte[] Riff(byte[] body)
    {
        byte[] file = [.. "RIFF"u8, 0, 0, 0, 0, .. "WEBP"u8, .. body];
        BinaryPrimitives.WriteInt32LittleEndian(file.AsSpan(4), file.Length - 8);
        return file;
    }

    public static byte[] RiffChunk(string name, byte[] content)
    {
        byte[] chunk =
        [
            .. Encoding.ASCII.GetBytes(name),
            0,
            0,
            0,
            0,
            .. content,
            .. new byte[content.Length & 1],
        ];
        BinaryPrimitives.WriteInt32LittleEndian(chunk.AsSpan(4), content.Length);
        return chunk;
    }

    public static byte[] Segment(byte marker, byte[] content) =>
        [0xff, marker, (byte)((content.Length + 2) >> 8), (byte)(content.Length + 2), .. content];

    public static byte[] Chunk(string name, byte[] content)
    {
        byte[] named = [.. Encoding.ASCII.GetBytes(name), .. content];
        var chunk = new byte[named.Length + 8];
        BinaryPrimitives.WriteInt32BigEndian(chunk, content.Length);
        named.CopyTo(chunk, 4);
        BinaryPrimitives.WriteUInt32BigEndian(chunk.AsSpan(chunk.Length - 4), SlowCrc(named));
        return chunk;
    }

    /// <summary>The check of a chunk bit by bit, as ISO/IEC 15948 annex D defines it.</summary>
    public static uint SlowCrc(ReadOnlySpan<byte> bytes)
    {
        var crc = uint.MaxValue;
        foreach (var value in bytes)
        {
            crc ^= value;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc >> 1) ^ (0xedb88320 & (0 - (crc & 1)));
            }
        }

        return ~crc;
    }

    // Photoshop's segment with one record of IPTC-IIM: 2:120, a caption.
    private static byte[] Iptc()
    {
        byte[] record = [0x1c, 2, 120, 0, 8, .. "the pond"u8];
        return [.. "Photoshop 3.0\0"u8, .. "8BIM"u8, 4, 4, 0, 0, 0, 0, 0, (byte)record.Length, .. record, 0];
    }

    private static byte[] Packed(ReadOnlySpan<byte> bytes)
    {
        using var packed = new MemoryStream();
        using (var zlib = new ZLibStream(packed, CompressionLevel.Optimal))
        {
            zlib.Write(bytes);
        }

        return packed.ToArray();
    }

    internal readonly record struct Field(ushort Tag, ushort Type, byte[] Value);

    private sealed class TiffWriter(bool isLittle)
    {
        private readonly List<byte> _bytes = [.. new byte[8]];

        public byte[] Short(int value) =>
            isLittle ? [(byte)value, (byte)(value >> 8)] : [(byte)(value >> 8), (byte)value];

        public byte[] Long(long value)
        {
            byte[] bytes = [(byte)value, (byte)(value >> 8), (byte)(value >> 16), (byte)(value >> 24)];
            return isLittle ? bytes : [.. bytes.Reverse()];
        }

        public byte[] Rationals(params (long Above, long Below)[] values) =>
            [.. values.SelectMany(value => Long(value.Above).Concat(Long(value.Below)))];

        public long Directory(IReadOnlyList<Field> fields)
        {
            var values = new List<byte[]>();
            foreach (var field in fields)
            {
                if (field.Value.Length <= 4)
                {
                    values.Add([.. field.Value, .. new byte[4 - field.Value.Length]]);
                    continue;
                }

                values.Add(Long(_bytes.Count));
                _bytes.AddRange(field.Value);
                _bytes.AddRange(new byte[field.Value.Length & 1]);
            }

            var start = _bytes.Count;
            _bytes.AddRange(Short(fields.Count));
            foreach (var (field, value) in fields.Zip(values))
            {
                var size = field.Type switch
                {
                    3 => 2,
                    4 => 4,
                    5 => 8,
                    _ => 1,
                };
                _bytes.AddRange([
                    .. Short(field.Tag),
                    .. Short(field.Type),
                    .. Long(field.Value.Length / size),
                    .. value,
                ]);
            }

            _bytes.AddRange(new byte[4]);
            return start;
        }

        public byte[] Whole(long first)
        {
            byte[] head = [.. isLittle ? "II*\0"u8 : "MM\0*"u8, .. Long(first)];
            return [.. head, .. _bytes.Skip(8)];
        }
    }
}
