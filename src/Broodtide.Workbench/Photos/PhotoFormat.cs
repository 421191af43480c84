namespace Broodtide.Workbench.Photos;

/// <summary>The sorts of picture file that are kept: every browser shows them, and none can hold a script.</summary>
public enum PhotoFormat
{
    /// <summary>JPEG (ITU-T T.81).</summary>
    Jpeg,

    /// <summary>PNG (ISO/IEC 15948).</summary>
    Png,

    /// <summary>WebP (RFC 9649), still pictures.</summary>
    WebP,
}

/// <summary>What a file is, read from its first bytes: a name or what the sender says is not asked.</summary>
public static class PhotoFormats
{
    /// <summary>The formats that are kept, for a sentence.</summary>
    public const string Allowed = "JPEG, PNG, WebP";

    /// <summary>The media type of a format, as entries and answers say it.</summary>
    public static string MediaTypeOf(PhotoFormat format) =>
        format switch
        {
            PhotoFormat.Jpeg => "image/jpeg",
            PhotoFormat.Png => "image/png",
            PhotoFormat.WebP => "image/webp",
            _ => throw new ArgumentOutOfRangeException(nameof(format)),
        };

    /// <summary>The ending of a file's name, with its dot.</summary>
    public static string EndingOf(PhotoFormat format) =>
        format switch
        {
            PhotoFormat.Jpeg => ".jpg",
            PhotoFormat.Png => ".png",
            PhotoFormat.WebP => ".webp",
            _ => throw new ArgumentOutOfRangeException(nameof(format)),
        };

    /// <summary>The format of a file that is kept; none for anything else.</summary>
    public static PhotoFormat? Find(ReadOnlySpan<byte> bytes) =>
        bytes.StartsWith(JpegFile.Beginning) ? PhotoFormat.Jpeg
        : bytes.StartsWith(PngFile.Signature) ? PhotoFormat.Png
        : IsRiff(bytes) && bytes[8..12].SequenceEqual("WEBP"u8) ? PhotoFormat.WebP
        : null;

    /// <summary>What a file that is not kept seems to be, for a sentence; "something else" where it is not known.</summary>
    internal static string NameOf(ReadOnlySpan<byte> bytes) =>
        bytes.StartsWith("GIF8"u8) ? "GIF"
        : bytes.StartsWith("II*\0"u8) || bytes.StartsWith("MM\0*"u8) ? "TIFF"
        : bytes.StartsWith("BM"u8) ? "BMP"
        : bytes.StartsWith("%PDF"u8) ? "PDF"
        : bytes.StartsWith<byte>([0xff, 0x0a]) || bytes.StartsWith("\0\0\0\fJXL "u8) ? "JPEG XL"
        : bytes.Length >= 12 && bytes[4..8].SequenceEqual("ftyp"u8) ? Brand(bytes[8..12])
        : IsRiff(bytes) ? "RIFF"
        : LooksLikeSvg(bytes) ? "SVG"
        : "something else";

    private static bool IsRiff(ReadOnlySpan<byte> bytes) => bytes.Length >= 12 && bytes.StartsWith("RIFF"u8);

    // Brands of ISO/IEC 23008-12 (HEIF) and of AV1 pictures; other brands are films.
    private static string Brand(ReadOnlySpan<byte> brand) =>
        brand.SequenceEqual("avif"u8) || brand.SequenceEqual("avis"u8) ? "AVIF"
        : brand.StartsWith("he"u8) || brand.SequenceEqual("mif1"u8) || brand.SequenceEqual("msf1"u8) ? "HEIC"
        : "MP4";

    private static bool LooksLikeSvg(ReadOnlySpan<byte> bytes)
    {
        var start = bytes[..Math.Min(bytes.Length, 1024)];
        return start.IndexOf("<svg"u8) >= 0;
    }
}
