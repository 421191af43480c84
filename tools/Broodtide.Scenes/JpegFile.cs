using SkiaSharp;

namespace Broodtide.Scenes;

/// <summary>A frame as a camera writes it.</summary>
public static class JpegFile
{
    public static byte[] Encode(InventedFrame frame, int quality)
    {
        using var bitmap = new SKBitmap(frame.Width, frame.Height, SKColorType.Rgba8888, SKAlphaType.Opaque);
        var colours = new byte[4 * frame.Width * frame.Height];
        for (int from = 0, to = 0; from < frame.Colours.Length; from += 3, to += 4)
        {
            (colours[to], colours[to + 1], colours[to + 2], colours[to + 3]) = (
                frame.Colours[from],
                frame.Colours[from + 1],
                frame.Colours[from + 2],
                255
            );
        }

        System.Runtime.InteropServices.Marshal.Copy(colours, 0, bitmap.GetPixels(), colours.Length);
        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, quality);
        return data.ToArray();
    }
}
