using System.Buffers.Binary;
using Broodtide.Units;

namespace Broodtide.Workbench.Photos;

/// <summary>
/// Takes a JPEG apart by its markers (ITU-T T.81 annex B). Kept are the tables, the frame, the scans, the density
/// (JFIF), the colour profile (ICC.1, annex B.4) and the colour transform (Adobe's APP14); every other application
/// segment, every comment and whatever follows the end of the picture is left behind.
/// </summary>
internal static class JpegFile
{
    private const PhotoFormat Format = PhotoFormat.Jpeg;
    private const byte StartOfScan = 0xda;
    private const byte EndOfImage = 0xd9;
    private const int JfifLength = 18;

    public static ReadOnlySpan<byte> Beginning => [0xff, 0xd8, 0xff];

    private static ReadOnlySpan<byte> ExifName => "Exif\0\0"u8;

    public static Parsed<PhotoPieces> Read(ReadOnlySpan<byte> file)
    {
        var kept = new List<PhotoPiece> { new(0, 2) };
        var exif = ExifBlock.None;
        var (hasExif, hasMore) = (false, false);
        (int Across, int Down)? size = null;
        var (scans, exifPlace, at) = (0, 1, 2);
        while (true)
        {
            // Any number of fill bytes may stand before a marker (B.1.1.2).
            var start = at;
            while (at < file.Length && file[at] == 0xff)
            {
                at++;
            }

            if (at >= file.Length)
            {
                return PhotoFaults.CutOff(Format);
            }

            if (at == start)
            {
                return PhotoFaults.Damaged(Format, at);
            }

            start = at - 1;
            var marker = file[at++];
            if (marker == EndOfImage)
            {
                if (scans == 0)
                {
                    return PhotoFaults.Damaged(Format, start);
                }

                kept.Add(new(start, 2));
                hasMore |= at < file.Length;
                break;
            }

            // Markers without a length: none of them may stand here.
            if (marker is 0x00 or 0x01 or 0xff or (>= 0xd0 and <= 0xd8))
            {
                return PhotoFaults.Damaged(Format, start);
            }

            if (at + 2 > file.Length)
            {
                return PhotoFaults.CutOff(Format);
            }

            var length = BinaryPrimitives.ReadUInt16BigEndian(file[at..]);
            if (length < 2)
            {
                return PhotoFaults.Damaged(Format, at);
            }

            if (at + length > file.Length)
            {
                return PhotoFaults.CutOff(Format);
            }

            var content = file.Slice(at + 2, length - 2);
            at += length;
            var whole = new PhotoPiece(start, at - start);
            switch (marker)
            {
                // Baseline, extended and progressive frames; others are shown by no browser.
                case 0xc0 or 0xc1 or 0xc2:
                    if (size is not null || content.Length < 6 || content.Length != 6 + (3 * content[5]))
                    {
                        return PhotoFaults.Damaged(Format, start);
                    }

                    if (content[0] != 8 || content[5] is not (1 or 3 or 4))
                    {
                        return PhotoFaults.Unusual(Format);
                    }

                    size = (
                        BinaryPrimitives.ReadUInt16BigEndian(content[3..]),
                        BinaryPrimitives.ReadUInt16BigEndian(content[1..])
                    );
                    if (size is (0, _) or (_, 0))
                    {
                        return PhotoFaults.Damaged(Format, start);
                    }

                    kept.Add(whole);
                    break;
                case 0xc3 or (>= 0xc5 and <= 0xc7) or (>= 0xc8 and <= 0xcb) or (>= 0xcd and <= 0xcf):
                    return PhotoFaults.Unusual(Format);
                // Huffman and arithmetic tables, quantisation, restart interval.
                case 0xc4 or 0xcc or 0xdb or 0xdd:
                    kept.Add(whole);
                    break;
                case StartOfScan:
                    if (size is null)
                    {
                        return PhotoFaults.Damaged(Format, start);
                    }

                    if (++scans > PhotoLimits.MostScans)
                    {
                        return PhotoFaults.Unusual(Format);
                    }

                    at = EndOfScan(file, at);
                    if (at < 0)
                    {
                        return PhotoFaults.CutOff(Format);
                    }

                    kept.Add(new(start, at - start));
                    break;
                case 0xe0 when content.StartsWith("JFIF\0"u8) && content.Length >= 14 && kept.Count == 1:
                    // Its own thumbnail is left behind.
                    hasMore |= content.Length > 14;
                    kept.Add(content.Length == 14 ? whole : PhotoPiece.Of(Jfif(content)));
                    exifPlace = 2;
                    break;
                case 0xe1 when content.StartsWith(ExifName) && !hasExif:
                    hasExif = true;
                    exif = ExifBlock.Read(content[ExifName.Length..]);
                    hasMore |= !content[ExifName.Length..].SequenceEqual(ExifBlock.Write(exif.Orientation));
                    break;
                case 0xe2 when content.StartsWith("ICC_PROFILE\0"u8):
                case 0xee when content.StartsWith("Adobe"u8):
                    kept.Add(whole);
                    break;
                case (>= 0xe0 and <= 0xef) or 0xfe:
                    hasMore = true;
                    break;
                default:
                    return PhotoFaults.Damaged(Format, start);
            }
        }

        var (across, down) = size!.Value;
        if (PhotoFaults.OfSize(across, down) is { } tooLarge)
        {
            return Parsed<PhotoPieces>.No(tooLarge);
        }

        if (exif.Orientation != 1)
        {
            kept.Insert(exifPlace, PhotoPiece.Of(Exif(exif.Orientation)));
        }

        return Parsed<PhotoPieces>.Of(
            new(new(Format, across, down, exif.Orientation, exif.Taken, exif.HoldsPlace, hasMore), kept)
        );
    }

    // Coded data ends at the first marker that is neither a stuffed zero nor a restart (B.1.1.5, B.2.1).
    private static int EndOfScan(ReadOnlySpan<byte> file, int at)
    {
        while (true)
        {
            var found = file[at..].IndexOf((byte)0xff);
            if (found < 0 || at + found + 1 >= file.Length)
            {
                return -1;
            }

            at += found;
            if (file[at + 1] is not (0x00 or 0xff or (>= 0xd0 and <= 0xd7)))
            {
                return at;
            }

            // A fill byte may itself be the first of a marker.
            at += file[at + 1] == 0xff ? 1 : 2;
        }
    }

    private static byte[] Jfif(ReadOnlySpan<byte> content)
    {
        byte[] segment = [0xff, 0xe0, 0, JfifLength - 2, .. content[..14]];
        segment[^2] = segment[^1] = 0;
        return segment;
    }

    private static byte[] Exif(int orientation)
    {
        var block = ExifBlock.Write(orientation);
        return [0xff, 0xe1, 0, (byte)(2 + ExifName.Length + block.Length), .. ExifName, .. block];
    }
}
