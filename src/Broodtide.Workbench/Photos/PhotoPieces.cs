using Broodtide.Units;

namespace Broodtide.Workbench.Photos;

/// <summary>
/// A photo taken apart: what its headers say, and the pieces of it that make the picture, in their order. A piece is a
/// stretch of the file itself, so that pixel data stays byte for byte, or a few bytes of our own.
/// </summary>
internal sealed record PhotoPieces(PhotoLook Look, IReadOnlyList<PhotoPiece> Kept)
{
    /// <summary>The pieces, one behind the other.</summary>
    public byte[] Join(ReadOnlySpan<byte> file)
    {
        var joined = new byte[Kept.Sum(piece => piece.Length)];
        var at = 0;
        foreach (var piece in Kept)
        {
            var bytes = piece.Own is { } own ? own : file.Slice(piece.Start, piece.Length);
            bytes.CopyTo(joined.AsSpan(at));
            at += piece.Length;
        }

        return joined;
    }
}

/// <summary>A piece of a file, or bytes of our own in its place.</summary>
internal readonly record struct PhotoPiece(int Start, int Length, byte[]? Own = null)
{
    public static PhotoPiece Of(byte[] own) => new(0, own.Length, own);
}

/// <summary>Why a photo is not taken in, said in one way by all formats.</summary>
internal static class PhotoFaults
{
    public static Parsed<PhotoPieces> Damaged(PhotoFormat format, long at) =>
        Parsed<PhotoPieces>.No("photo-damaged", new("format", NameOf(format)), new("at", at));

    public static Parsed<PhotoPieces> CutOff(PhotoFormat format) =>
        Parsed<PhotoPieces>.No("photo-cut-off", new Argument("format", NameOf(format)));

    public static Parsed<PhotoPieces> Unusual(PhotoFormat format) =>
        Parsed<PhotoPieces>.No("photo-unusual", new Argument("format", NameOf(format)));

    public static Parsed<PhotoPieces> Moves(PhotoFormat format) =>
        Parsed<PhotoPieces>.No("photo-moves", new Argument("format", NameOf(format)));

    /// <summary>Why a picture of this size is not taken in, if so.</summary>
    public static Remark? OfSize(long across, long down) =>
        across > PhotoLimits.LongestSidePixels || down > PhotoLimits.LongestSidePixels
            ? new Remark(
                "photo-side-too-long",
                new("acrossPixels", across),
                new("downPixels", down),
                new("allowedPixels", PhotoLimits.LongestSidePixels)
            )
        : across * down > PhotoLimits.MostPixels
            ? new Remark(
                "photo-too-many-pixels",
                new("acrossPixels", across),
                new("downPixels", down),
                new("allowedMegapixels", PhotoLimits.MostPixels / 1_000_000)
            )
        : null;

    public static string NameOf(PhotoFormat format) =>
        format switch
        {
            PhotoFormat.Jpeg => "JPEG",
            PhotoFormat.Png => "PNG",
            _ => "WebP",
        };
}
