using System.Buffers.Binary;
using Broodtide.Units;

namespace Broodtide.Workbench.Photos;

/// <summary>
/// Takes a WebP apart by its chunks (RFC 9649 section 2). Kept are the picture, its transparency, the colour profile
/// and the extended header with its bits put right; EXIF, XMP, unknown chunks and whatever follows are left behind.
/// Moving pictures are not taken in.
/// </summary>
internal static class WebPFile
{
    private const PhotoFormat Format = PhotoFormat.WebP;

    // "RIFF", length, "WEBP" (2.4).
    private const int HeaderLength = 12;

    // Bits of the extended header (2.7).
    private const byte MovesBit = 0x02;
    private const byte XmpBit = 0x04;
    private const byte ExifBit = 0x08;

    public static Parsed<PhotoPieces> Read(ReadOnlySpan<byte> file)
    {
        if (file.Length < HeaderLength)
        {
            return PhotoFaults.CutOff(Format);
        }

        var said = BinaryPrimitives.ReadUInt32LittleEndian(file[4..]) + 8L;
        if (said > file.Length)
        {
            return PhotoFaults.CutOff(Format);
        }

        var kept = new List<PhotoPiece>();
        var exif = ExifBlock.None;
        var hasMore = said < file.Length;
        int? extended = null;
        (int Across, int Down)? canvas = null;
        (int Across, int Down)? picture = null;
        var at = HeaderLength;
        while (at < said)
        {
            if (at + 8 > said)
            {
                return PhotoFaults.CutOff(Format);
            }

            var length = BinaryPrimitives.ReadUInt32LittleEndian(file[(at + 4)..]);
            // A chunk of odd length has one byte more (2.3).
            var padded = length + (length & 1L);
            if (padded > said - at - 8)
            {
                return PhotoFaults.CutOff(Format);
            }

            var name = file.Slice(at, 4);
            var content = file.Slice(at + 8, (int)length);
            var whole = new PhotoPiece(at, 8 + (int)padded);
            if (name.SequenceEqual("VP8X"u8) && at == HeaderLength && content.Length == 10)
            {
                canvas = (Three(content[4..]) + 1, Three(content[7..]) + 1);
                extended = at;
                if ((content[0] & MovesBit) != 0)
                {
                    return PhotoFaults.Moves(Format);
                }
            }
            else if (name.SequenceEqual("ANIM"u8) || name.SequenceEqual("ANMF"u8))
            {
                return PhotoFaults.Moves(Format);
            }
            else if (name.SequenceEqual("VP8 "u8) || name.SequenceEqual("VP8L"u8))
            {
                picture = picture is null ? SizeOf(name, content) : null;
                if (picture is null)
                {
                    return PhotoFaults.Damaged(Format, at);
                }

                kept.Add(whole);
            }
            else if (extended is not null && (name.SequenceEqual("ICCP"u8) || name.SequenceEqual("ALPH"u8)))
            {
                kept.Add(whole);
            }
            else if (extended is not null && name.SequenceEqual("EXIF"u8) && exif == ExifBlock.None)
            {
                // Some writers put JPEG's name before the block.
                var block = content.StartsWith("Exif\0\0"u8) ? content[6..] : content;
                exif = ExifBlock.Read(block);
                hasMore |= !content.SequenceEqual(ExifBlock.Write(exif.Orientation));
            }
            else
            {
                hasMore = true;
            }

            at += whole.Length;
        }

        // A header that says another size than the picture is a trap for whoever trusts it.
        if (picture is not { } size || (canvas is not null && canvas != picture))
        {
            return PhotoFaults.Damaged(Format, at);
        }

        if (PhotoFaults.OfSize(size.Across, size.Down) is { } tooLarge)
        {
            return Parsed<PhotoPieces>.No(tooLarge);
        }

        Finish(file, kept, extended, exif.Orientation);
        return Parsed<PhotoPieces>.Of(
            new(
                new(Format, size.Across, size.Down, exif.Orientation, exif.Taken, exif.HoldsPlace, hasMore),
                kept
            )
        );
    }

    private static void Finish(ReadOnlySpan<byte> file, List<PhotoPiece> kept, int? extended, int orientation)
    {
        if (extended is { } start)
        {
            var header = file.Slice(start, 18).ToArray();
            header[8] = (byte)(header[8] & ~(XmpBit | ExifBit) | (orientation != 1 ? ExifBit : 0));
            kept.Insert(0, PhotoPiece.Of(header));
        }

        if (orientation != 1)
        {
            var block = ExifBlock.Write(orientation);
            kept.Add(PhotoPiece.Of([.. "EXIF"u8, (byte)block.Length, 0, 0, 0, .. block]));
        }

        byte[] riff = [.. "RIFF"u8, 0, 0, 0, 0, .. "WEBP"u8];
        BinaryPrimitives.WriteInt32LittleEndian(riff.AsSpan(4), 4 + kept.Sum(piece => piece.Length));
        kept.Insert(0, PhotoPiece.Of(riff));
    }

    private static (int, int)? SizeOf(ReadOnlySpan<byte> name, ReadOnlySpan<byte> content)
    {
        // RFC 6386 section 9.1: a key frame's start code, then two numbers of 14 bits.
        if (name[3] == (byte)' ')
        {
            return
                content.Length >= 10
                && (content[0] & 1) == 0
                && content[3..6].SequenceEqual<byte>([0x9d, 0x01, 0x2a])
                && (
                    BinaryPrimitives.ReadUInt16LittleEndian(content[6..]) & 0x3fff,
                    BinaryPrimitives.ReadUInt16LittleEndian(content[8..]) & 0x3fff
                )
                    is (> 0, > 0) lossy
                ? lossy
                : null;
        }

        // RFC 9649 section 3.4: a signature, then two numbers of 14 bits, one less than they mean.
        if (content.Length < 5 || content[0] != 0x2f)
        {
            return null;
        }

        var bits = BinaryPrimitives.ReadUInt32LittleEndian(content[1..]);
        return ((int)(bits & 0x3fff) + 1, (int)((bits >> 14) & 0x3fff) + 1);
    }

    private static int Three(ReadOnlySpan<byte> bytes) => bytes[0] | (bytes[1] << 8) | (bytes[2] << 16);
}
