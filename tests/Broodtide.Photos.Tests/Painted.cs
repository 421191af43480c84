using SkiaSharp;

namespace Broodtide.Photos.Tests;

/// <summary>Invented pictures, encoded and decoded by a library that is not ours.</summary>
internal static class Painted
{
    public static byte[] Jpeg(int across = 64, int down = 48, SKColorSpace? colours = null) =>
        Encoded(SKEncodedImageFormat.Jpeg, across, down, colours);

    public static byte[] Png(int across = 64, int down = 48) =>
        Encoded(SKEncodedImageFormat.Png, across, down, null);

    public static byte[] WebP(int across = 64, int down = 48, bool isLossless = false)
    {
        using var picture = Paint(across, down, null);
        using var pixels = picture.PeekPixels();
        using var data = pixels!.Encode(
            new SKWebpEncoderOptions(
                isLossless ? SKWebpEncoderCompression.Lossless : SKWebpEncoderCompression.Lossy,
                90
            )
        );
        return data!.ToArray();
    }

    /// <summary>The pixels that a file shows, before it is turned.</summary>
    public static byte[] Pixels(byte[] file)
    {
        using var codec = SKCodec.Create(new MemoryStream(file));
        Assert.NotNull(codec);
        using var picture = new SKBitmap(codec.Info);
        Assert.Equal(SKCodecResult.Success, codec.GetPixels(picture.Info, picture.GetPixels()));
        return picture.Bytes;
    }

    /// <summary>The way a file is turned, as that library reads it.</summary>
    public static int Orientation(byte[] file)
    {
        using var codec = SKCodec.Create(new MemoryStream(file));
        return (int)codec.EncodedOrigin;
    }

    /// <summary>Says why these tests do not run where the library's native part is missing; never so in CI.</summary>
    public static void Required()
    {
        try
        {
            using var _ = new SKBitmap(1, 1);
        }
        catch (Exception missing) when (missing is TypeInitializationException or DllNotFoundException)
        {
            const string Reason = "the picture library SkiaSharp has no native part for this machine";
            Assert.False(Environment.GetEnvironmentVariable("CI") == "true", Reason);
            Assert.Skip(Reason);
        }
    }

    private static byte[] Encoded(SKEncodedImageFormat format, int across, int down, SKColorSpace? colours)
    {
        using var picture = Paint(across, down, colours);
        using var data = picture.Encode(format, 92);
        return data.ToArray();
    }

    // Slopes with grain: no two rows alike, so that a shifted byte shows.
    private static SKBitmap Paint(int across, int down, SKColorSpace? colours)
    {
        Required();
        var picture = new SKBitmap(
            new SKImageInfo(across, down, SKColorType.Rgba8888, SKAlphaType.Opaque, colours)
        );
        var pixels = picture.GetPixelSpan();
        var grain = 12345u;
        for (var at = 0; at < pixels.Length; at += 4)
        {
            grain = (grain * 1664525) + 1013904223;
            var (x, y) = (at / 4 % across, at / 4 / across);
            pixels[at] = (byte)((255 * x / across) ^ (grain >> 28));
            pixels[at + 1] = (byte)((255 * y / down) ^ (grain >> 29));
            pixels[at + 2] = (byte)(128 ^ (grain >> 27));
            pixels[at + 3] = 255;
        }

        return picture;
    }
}
