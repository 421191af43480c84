using System.Buffers.Binary;
using Broodtide.Units;

namespace Broodtide.Workbench.Photos;

/// <summary>
/// Takes a PNG apart by its chunks (ISO/IEC 15948 clauses 5, 11; W3C PNG third edition). Kept are the chunks that say
/// how the picture looks; texts, times, EXIF, moving frames, chunks of others and whatever follows the end are left
/// behind.
/// </summary>
internal static class PngFile
{
    private const PhotoFormat Format = PhotoFormat.Png;

    // A chunk is length, name, content, check: 12 bytes beside the content.
    private const int Frame = 12;

    // The critical chunks and those that carry transparency, colour and background.
    private static readonly HashSet<string> Kept =
    [
        "IHDR",
        "PLTE",
        "IDAT",
        "IEND",
        "tRNS",
        "cHRM",
        "gAMA",
        "iCCP",
        "sBIT",
        "sRGB",
        "cICP",
        "mDCV",
        "cLLI",
        "bKGD",
    ];

    public static ReadOnlySpan<byte> Signature => [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

    public static Parsed<PhotoPieces> Read(ReadOnlySpan<byte> file)
    {
        var kept = new List<PhotoPiece> { new(0, Signature.Length) };
        var exif = ExifBlock.None;
        var (hasMore, hasPixels, at) = (false, false, Signature.Length);
        (long Across, long Down)? size = null;
        while (true)
        {
            if (at + Frame > file.Length)
            {
                return PhotoFaults.CutOff(Format);
            }

            var length = BinaryPrimitives.ReadUInt32BigEndian(file[at..]);
            if (length > file.Length - at - Frame)
            {
                return PhotoFaults.CutOff(Format);
            }

            var named = file.Slice(at + 4, 4 + (int)length);
            var content = named[4..];
            var name = NameOf(named);
            if (name is null || (size is null) != (name == "IHDR"))
            {
                return PhotoFaults.Damaged(Format, at);
            }

            // Names of chunks without which there is no picture begin with a capital (5.4).
            var isKept = Kept.Contains(name);
            if (!isKept && char.IsAsciiLetterUpper(name[0]))
            {
                return PhotoFaults.Unusual(Format);
            }

            if (
                isKept
                && Crc32.Of(named) != BinaryPrimitives.ReadUInt32BigEndian(file[(at + 8 + (int)length)..])
            )
            {
                return PhotoFaults.Damaged(Format, at);
            }

            if (name == "IHDR")
            {
                size = SizeIn(content);
                if (size is null)
                {
                    return PhotoFaults.Damaged(Format, at);
                }
            }

            if (name == "eXIf" && exif == ExifBlock.None)
            {
                exif = ExifBlock.Read(content);
                hasMore |= !content.SequenceEqual(ExifBlock.Write(exif.Orientation));
            }
            else
            {
                hasMore |= !isKept;
            }

            if (isKept)
            {
                kept.Add(new(at, Frame + (int)length));
            }

            hasPixels |= name == "IDAT";
            at += Frame + (int)length;
            if (name == "IEND")
            {
                hasMore |= at < file.Length;
                break;
            }
        }

        if (!hasPixels)
        {
            return PhotoFaults.Damaged(Format, at);
        }

        var (across, down) = size!.Value;
        if (PhotoFaults.OfSize(across, down) is { } tooLarge)
        {
            return Parsed<PhotoPieces>.No(tooLarge);
        }

        if (exif.Orientation != 1)
        {
            kept.Insert(2, PhotoPiece.Of(Exif(exif.Orientation)));
        }

        return Parsed<PhotoPieces>.Of(
            new(
                new(Format, (int)across, (int)down, exif.Orientation, exif.Taken, exif.HoldsPlace, hasMore),
                kept
            )
        );
    }

    // 11.2.1: width, height, bit depth, colour type, and three methods of which the first two have one value only.
    private static (long, long)? SizeIn(ReadOnlySpan<byte> header)
    {
        if (header.Length != 13)
        {
            return null;
        }

        var (across, down) = (
            BinaryPrimitives.ReadUInt32BigEndian(header),
            BinaryPrimitives.ReadUInt32BigEndian(header[4..])
        );
        var isDepth = header[9] switch
        {
            0 => header[8] is 1 or 2 or 4 or 8 or 16,
            3 => header[8] is 1 or 2 or 4 or 8,
            2 or 4 or 6 => header[8] is 8 or 16,
            _ => false,
        };
        return isDepth && header[10] == 0 && header[11] == 0 && header[12] <= 1 && across > 0 && down > 0
            ? (across, down)
            : null;
    }

    private static string? NameOf(ReadOnlySpan<byte> named)
    {
        Span<char> name = stackalloc char[4];
        for (var letter = 0; letter < 4; letter++)
        {
            name[letter] = (char)named[letter];
            if (!char.IsAsciiLetter(name[letter]))
            {
                return null;
            }
        }

        return new string(name);
    }

    private static byte[] Exif(int orientation)
    {
        byte[] named = [.. "eXIf"u8, .. ExifBlock.Write(orientation)];
        var chunk = new byte[named.Length + 8];
        BinaryPrimitives.WriteInt32BigEndian(chunk, named.Length - 4);
        named.CopyTo(chunk, 4);
        BinaryPrimitives.WriteUInt32BigEndian(chunk.AsSpan(chunk.Length - 4), Crc32.Of(named));
        return chunk;
    }
}

/// <summary>The check of a PNG's chunk (ISO/IEC 15948 annex D): CRC-32 with the polynomial 0xEDB88320.</summary>
internal static class Crc32
{
    private static readonly uint[] Table = MakeTable();

    public static uint Of(ReadOnlySpan<byte> bytes)
    {
        var crc = uint.MaxValue;
        foreach (var value in bytes)
        {
            crc = Table[(byte)(crc ^ value)] ^ (crc >> 8);
        }

        return ~crc;
    }

    private static uint[] MakeTable()
    {
        var table = new uint[256];
        for (var n = 0u; n < table.Length; n++)
        {
            var c = n;
            for (var bit = 0; bit < 8; bit++)
            {
                c = (c & 1) != 0 ? 0xedb88320u ^ (c >> 1) : c >> 1;
            }

            table[n] = c;
        }

        return table;
    }
}
