using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;

namespace Broodtide.Photos.Tests;

/// <summary>Picture files that a codec library does not write, made by hand.</summary>
internal static class BadPictures
{
    /// <summary>A PNG of 16 bits a channel (ISO/IEC 15948): dark, with bright dots.</summary>
    public static byte[] SixteenBitPng(int across, int down, Func<int, int, int> grey)
    {
        using var rows = new MemoryStream();
        using (var packed = new ZLibStream(rows, CompressionLevel.Fastest, leaveOpen: true))
        {
            Span<byte> value = stackalloc byte[2];
            for (var y = 0; y < down; y++)
            {
                packed.WriteByte(0);
                for (var x = 0; x < across; x++)
                {
                    BinaryPrimitives.WriteUInt16BigEndian(value, (ushort)grey(x, y));
                    packed.Write(value);
                }
            }
        }

        return Png(across, down, 16, rows.ToArray());
    }

    /// <summary>A PNG whose header claims a size that no row follows.</summary>
    public static byte[] ClaimingPng(int across, int down) =>
        Png(across, down, 8, [0x78, 0x9c, 3, 0, 0, 0, 0, 1]);

    /// <summary>
    /// A JPEG of four inks, baseline, one shade all over: each block is a DC difference of none and an end of block
    /// (ITU-T T.81, tables of one code each), with Adobe's segment that says CMYK.
    /// </summary>
    public static byte[] FourInkJpeg()
    {
        // Four components, each with table 0; one code of one bit: "0".
        byte[] scan = [4, 1, 0, 2, 0, 3, 0, 4, 0, 0, 63, 0];
        byte[] frame = [8, 0, 32, 0, 32, 4, 1, 0x11, 0, 2, 0x11, 0, 3, 0x11, 0, 4, 0x11, 0];
        byte[] quantum = [0, .. Enumerable.Repeat((byte)1, 64)];
        byte[] lengths = [1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0];
        return
        [
            0xff,
            0xd8,
            .. Segment(0xee, [.. "Adobe"u8, 0, 100, 0, 0, 0, 0, 0]),
            .. Segment(0xdb, quantum),
            .. Segment(0xc0, frame),
            .. Segment(0xc4, [0x00, .. lengths, 0]),
            .. Segment(0xc4, [0x10, .. lengths, 0]),
            .. Segment(0xda, scan),
            // 16 blocks of four inks, two bits each, none of them set.
            .. new byte[16],
            0xff,
            0xd9,
        ];
    }

    /// <summary>A WebP that says it moves (RFC 9649): one frame of a lossless picture, twice.</summary>
    public static byte[] MovingWebP(byte[] still)
    {
        // The picture chunk of the still file, behind "RIFF", its size and "WEBP".
        var picture = still.AsSpan(12).ToArray();
        byte[] frame = [0, 0, 0, 0, 0, 0, 63, 0, 0, 47, 0, 0, 100, 0, 0, 0, .. picture];
        byte[] body =
        [
            .. "WEBP"u8,
            .. Chunk("VP8X", [2, 0, 0, 0, 63, 0, 0, 47, 0, 0]),
            .. Chunk("ANIM", [0, 0, 0, 0, 0, 0]),
            .. Chunk("ANMF", frame),
            .. Chunk("ANMF", frame),
        ];
        return [.. "RIFF"u8, .. Little(body.Length), .. body];
    }

    private static byte[] Png(int across, int down, byte bits, byte[] packed)
    {
        var head = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(head, across);
        BinaryPrimitives.WriteInt32BigEndian(head.AsSpan(4), down);
        head[8] = bits;
        return
        [
            0x89,
            .. "PNG\r\n"u8,
            0x1a,
            0x0a,
            .. PngChunk("IHDR", head),
            .. PngChunk("IDAT", packed),
            .. PngChunk("IEND", []),
        ];
    }

    private static byte[] PngChunk(string name, byte[] content)
    {
        byte[] named = [.. Encoding.ASCII.GetBytes(name), .. content];
        var (length, check) = (new byte[4], new byte[4]);
        BinaryPrimitives.WriteInt32BigEndian(length, content.Length);
        BinaryPrimitives.WriteUInt32BigEndian(check, Crc(named));
        return [.. length, .. named, .. check];
    }

    // ISO/IEC 15948 annex D, bit by bit.
    private static uint Crc(byte[] bytes)
    {
        var crc = uint.MaxValue;
        foreach (var value in bytes)
        {
            crc ^= value;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) == 1 ? (crc >> 1) ^ 0xedb88320 : crc >> 1;
            }
        }

        return ~crc;
    }

    private static byte[] Segment(byte marker, byte[] content) =>
        [0xff, marker, (byte)((content.Length + 2) >> 8), (byte)(content.Length + 2), .. content];

    private static byte[] Chunk(string name, byte[] content) =>
        [
            .. Encoding.ASCII.GetBytes(name),
            .. Little(content.Length),
            .. content,
            .. content.Length % 2 == 1 ? new byte[1] : [],
        ];

    private static byte[] Little(int number)
    {
        var bytes = new byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(bytes, number);
        return bytes;
    }
}
