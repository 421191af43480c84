namespace Broodtide.Workbench.Photos;

/// <summary>
/// What a photo may be at most. Checked from the headers, before anything is decoded: a picture of a few kilobytes can
/// unfold into gigabytes. The figures are decisions of this program, each with its reason; none is a measured limit.
/// </summary>
public static class PhotoLimits
{
    /// <summary>
    /// Longest file, in bytes: 25 MB. The best JPEG of a 50 megapixel camera stays under it, and a body of this
    /// length is still held in memory by a small board.
    /// </summary>
    public const long LargestFileBytes = 25_000_000;

    /// <summary>
    /// Most pixels: 64 million. Decoded at 4 bytes a pixel they take 256 MB, about what a browser gives one page on an
    /// older phone.
    /// </summary>
    public const long MostPixels = 64_000_000;

    /// <summary>
    /// Longest side in pixels: 16,383, what the narrowest of the three formats can say (WebP, RFC 9649 section 2.5
    /// and RFC 6386 section 9.1: 14 bits).
    /// </summary>
    public const int LongestSidePixels = 16_383;

    /// <summary>
    /// Most scans of a JPEG: 100. A progressive picture needs about ten (ITU-T T.81 annex G); thousands of them over
    /// one large picture are a known way to stop a decoder.
    /// </summary>
    public const int MostScans = 100;

    /// <summary>Longest side of a thumbnail in pixels: sharp at 160 points on a screen of three dots a point.</summary>
    public const int ThumbnailSidePixels = 480;

    /// <summary>Longest file of a thumbnail, in bytes: 256 KiB, several times what such a picture needs.</summary>
    public const int LargestThumbnailBytes = 256 * 1024;
}
