using Broodtide.Science.Imaging;
using Broodtide.Units;
using SkiaSharp;

namespace Broodtide.Photos;

/// <summary>From the bytes of a picture file to a grid of colours. The name of the file is not asked.</summary>
public static class PictureFile
{
    /// <summary>The most pixels that are decoded: 100 million, the largest sensors of telephones twice halved.</summary>
    public const long MostPixels = 100_000_000;

    /// <summary>Decodes the bytes, or says why not.</summary>
    /// <param name="file">The whole file.</param>
    /// <returns>
    /// A picture; or no picture, with a code: picture-not-readable, picture-moving, picture-too-large (acrossPixels,
    /// downPixels) or picture-broken-off.
    /// </returns>
    public static Parsed<Picture> Decode(ReadOnlySpan<byte> file)
    {
        using var data = SKData.CreateCopy(file);
        using var codec = SKCodec.Create(data);
        if (codec is null)
        {
            return Parsed<Picture>.No("picture-not-readable");
        }

        if (codec.FrameCount > 1)
        {
            return Parsed<Picture>.No("picture-moving");
        }

        var (across, down) = (codec.Info.Width, codec.Info.Height);
        if (
            across > GridShape.LongestSide
            || down > GridShape.LongestSide
            || (long)across * down > MostPixels
        )
        {
            return Parsed<Picture>.No(
                "picture-too-large",
                new("acrossPixels", across),
                new("downPixels", down)
            );
        }

        var form = new SKImageInfo(across, down, SKColorType.Rgba8888, SKAlphaType.Unpremul);
        var colours = new byte[form.BytesSize64];
        SKCodecResult result;
        unsafe
        {
            fixed (byte* pixels = colours)
            {
                result = codec.GetPixels(form, (nint)pixels);
            }
        }

        return result == SKCodecResult.Success
            ? Parsed<Picture>.Of(Turned.Upright(new(across, down), colours, codec.EncodedOrigin))
            : Parsed<Picture>.No("picture-broken-off");
    }
}
