using System.Security.Cryptography;
using Broodtide.Units;

namespace Broodtide.Workbench.Photos;

/// <summary>A photo as it is stored.</summary>
/// <param name="Bytes">The file.</param>
/// <param name="Look">What its headers said when it came.</param>
/// <param name="PlaceKept">Whether it was stored as it came, whatever the camera wrote into it.</param>
public sealed record PhotoTaken(byte[] Bytes, PhotoLook Look, bool PlaceKept)
{
    /// <summary>SHA-256 of <see cref="Bytes"/>, 64 lower-case hex figures: its name from now on.</summary>
    public string Sha256 { get; } = PhotoIntake.HashOf(Bytes);
}

/// <summary>
/// Takes a photo in: reads what it is, refuses what is too large or not a photo, and leaves behind everything that is
/// not the picture: where it was taken, by which camera, when, with what program, small pictures inside it, and what was
/// hung behind its end. Pixel data, colour profile and the way it is turned stay as they are. Nothing is decoded.
/// </summary>
public static class PhotoIntake
{
    /// <summary>What the headers say, or why it cannot be taken in.</summary>
    public static Parsed<PhotoLook> Look(ReadOnlySpan<byte> file)
    {
        var read = Read(file);
        return read.Succeeded ? Parsed<PhotoLook>.Of(read.Value.Look) : Parsed<PhotoLook>.No(read.Reason);
    }

    /// <summary>The photo as it is to be stored, or why it cannot be taken in.</summary>
    /// <param name="file">The file as it came.</param>
    /// <param name="keepPlace">Whether everything in it stays, the place where it was taken with it.</param>
    public static Parsed<PhotoTaken> Take(ReadOnlySpan<byte> file, bool keepPlace = false)
    {
        var read = Read(file);
        return read.Succeeded
            ? Parsed<PhotoTaken>.Of(
                new(
                    keepPlace || !read.Value.Look.HoldsMore ? file.ToArray() : read.Value.Join(file),
                    read.Value.Look,
                    keepPlace
                )
            )
            : Parsed<PhotoTaken>.No(read.Reason);
    }

    /// <summary>Why a file of so many bytes is not taken in; for doors that know its length before its bytes.</summary>
    /// <param name="bytes">More than <see cref="PhotoLimits.LargestFileBytes"/>.</param>
    public static Remark TooLarge(long bytes) =>
        new(
            "photo-file-too-large",
            new("megabytes", Math.Ceiling(bytes / 1e5) / 10),
            new("allowedMegabytes", PhotoLimits.LargestFileBytes / 1_000_000)
        );

    /// <summary>SHA-256 of a file as photos are named: 64 lower-case hex figures.</summary>
    public static string HashOf(ReadOnlySpan<byte> file) => Convert.ToHexStringLower(SHA256.HashData(file));

    /// <summary>Whether a text is a photo's name: 64 lower-case hex figures.</summary>
    public static bool IsHash(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.Length == 64 && text.All(char.IsAsciiHexDigitLower);
    }

    private static Parsed<PhotoPieces> Read(ReadOnlySpan<byte> file)
    {
        if (file.IsEmpty)
        {
            return Parsed<PhotoPieces>.No("photo-empty");
        }

        if (file.Length > PhotoLimits.LargestFileBytes)
        {
            return Parsed<PhotoPieces>.No(TooLarge(file.Length));
        }

        return PhotoFormats.Find(file) switch
        {
            PhotoFormat.Jpeg => JpegFile.Read(file),
            PhotoFormat.Png => PngFile.Read(file),
            PhotoFormat.WebP => WebPFile.Read(file),
            _ => Parsed<PhotoPieces>.No(
                "photo-kind-not-kept",
                new("found", PhotoFormats.NameOf(file)),
                new("allowed", PhotoFormats.Allowed)
            ),
        };
    }
}
