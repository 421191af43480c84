namespace Broodtide.Doors.Tests.Kit;

/// <summary>A JPEG of a few bytes, made by hand: headers of 40 by 30 pixels, an EXIF block with an invented place.</summary>
internal static class SmallPhoto
{
    public static byte[] WithPlace() =>
        [
            0xff,
            0xd8,
            .. Segment(0xe1, [.. "Exif\0\0"u8, .. Exif()]),
            .. Segment(0xfe, "the invented pond"u8.ToArray()),
            .. Segment(0xc0, [8, 0, 30, 0, 40, 1, 1, 0x11, 0]),
            .. Segment(0xda, [1, 1, 0, 0, 63, 0]),
            0x12,
            0x34,
            0xff,
            0xd9,
        ];

    // One directory: orientation 6, and a pointer to a GPS directory that says "N".
    private static byte[] Exif() =>
        [
            .. "MM\0*"u8,
            .. new byte[] { 0, 0, 0, 8, 0, 2 },
            .. new byte[] { 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, 6, 0, 0 },
            .. new byte[] { 0x88, 0x25, 0, 4, 0, 0, 0, 1, 0, 0, 0, 38 },
            .. new byte[] { 0, 0, 0, 0 },
            .. new byte[] { 0, 1, 0, 1, 0, 2, 0, 0, 0, 2, (byte)'N', 0, 0, 0, 0, 0, 0, 0 },
        ];

    private static byte[] Segment(byte marker, byte[] content) =>
        [0xff, marker, (byte)((content.Length + 2) >> 8), (byte)(content.Length + 2), .. content];
}
