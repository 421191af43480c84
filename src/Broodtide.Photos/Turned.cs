using System.Runtime.InteropServices;
using Broodtide.Science.Imaging;
using SkiaSharp;

namespace Broodtide.Photos;

/// <summary>A camera writes how it was held; here the picture is turned so that up is up.</summary>
internal static class Turned
{
    public static Picture Upright(GridShape shape, byte[] colours, SKEncodedOrigin origin)
    {
        if (origin == SKEncodedOrigin.TopLeft)
        {
            return new(shape, colours);
        }

        var isLying = origin >= SKEncodedOrigin.LeftTop;
        var upright = isLying ? new GridShape(shape.Down, shape.Across) : shape;
        var turned = new byte[colours.Length];
        var from = MemoryMarshal.Cast<byte, int>(colours);
        var to = MemoryMarshal.Cast<byte, int>(turned.AsSpan());
        for (var y = 0; y < upright.Down; y++)
        {
            for (var x = 0; x < upright.Across; x++)
            {
                var (u, v) = Source(shape, origin, x, y);
                to[(y * upright.Across) + x] = from[(v * shape.Across) + u];
            }
        }

        return new(upright, turned);
    }

    // The names say where the first row and the first column of the file lie (EXIF 2.32, tag 274).
    private static (int X, int Y) Source(GridShape shape, SKEncodedOrigin origin, int x, int y)
    {
        var (right, bottom) = (shape.Across - 1, shape.Down - 1);
        return origin switch
        {
            SKEncodedOrigin.TopRight => (right - x, y),
            SKEncodedOrigin.BottomRight => (right - x, bottom - y),
            SKEncodedOrigin.BottomLeft => (x, bottom - y),
            SKEncodedOrigin.LeftTop => (y, x),
            SKEncodedOrigin.RightTop => (y, bottom - x),
            SKEncodedOrigin.RightBottom => (right - y, bottom - x),
            SKEncodedOrigin.LeftBottom => (right - y, x),
            _ => (x, y),
        };
    }
}
