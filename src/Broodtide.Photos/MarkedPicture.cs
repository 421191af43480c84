using SkiaSharp;

namespace Broodtide.Photos;

/// <summary>What a mark on a picture says.</summary>
public enum MarkLook
{
    /// <summary>Found: a thin ring.</summary>
    Found,

    /// <summary>Found and left out of the number: a broken ring.</summary>
    LeftOut,

    /// <summary>Added by a person: a ring with a cross.</summary>
    Added,
}

/// <summary>A ring about a place of a picture, in its pixels from the middle of its first one.</summary>
public readonly record struct RingMark(double X, double Y, double Radius, MarkLook Look = MarkLook.Found);

/// <summary>A line over a picture, in its pixels; a rule of a chamber, a length that was measured.</summary>
public readonly record struct LineMark(double FromX, double FromY, double ToX, double ToY);

/// <summary>A picture with what was found drawn over it, as the bytes of a PNG file.</summary>
public static class MarkedPicture
{
    // Magenta with a dark edge, to be seen on dark water and on bright.
    private static readonly SKColor Ink = new(0xf4, 0x8a, 0xc4);
    private static readonly SKColor Edge = new(0x10, 0x10, 0x10);

    /// <summary>The picture with rings and lines.</summary>
    public static byte[] Png(
        Picture picture,
        IReadOnlyCollection<RingMark> rings,
        IReadOnlyCollection<LineMark>? lines = null
    )
    {
        var form = new SKImageInfo(
            picture.Shape.Across,
            picture.Shape.Down,
            SKColorType.Rgba8888,
            SKAlphaType.Opaque
        );
        using var bitmap = new SKBitmap(form);
        picture.Colours.Span.CopyTo(bitmap.GetPixelSpan());
        using var canvas = new SKCanvas(bitmap);
        // One in six hundred of the longer side, so that it is seen when the whole picture is.
        var width = Math.Max(1, Math.Max(form.Width, form.Height) / 600f);
        foreach (var (colour, times) in new[] { (Edge, 2.2f), (Ink, 1f) })
        {
            using var pen = new SKPaint
            {
                Color = colour,
                IsAntialias = true,
                Style = SKPaintStyle.Stroke,
                StrokeWidth = width * times,
            };
            foreach (var ring in rings)
            {
                Draw(canvas, pen, ring, width);
            }

            foreach (var line in lines ?? [])
            {
                canvas.DrawLine(
                    Across(line.FromX),
                    Across(line.FromY),
                    Across(line.ToX),
                    Across(line.ToY),
                    pen
                );
            }
        }

        canvas.Flush();
        using var data = bitmap.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }

    private static void Draw(SKCanvas canvas, SKPaint pen, RingMark ring, float width)
    {
        var (x, y) = (Across(ring.X), Across(ring.Y));
        var radius = (float)Math.Max(ring.Radius, 3 * width);
        pen.PathEffect?.Dispose();
        pen.PathEffect =
            ring.Look == MarkLook.LeftOut ? SKPathEffect.CreateDash([3 * width, 3 * width], 0) : null;
        canvas.DrawCircle(x, y, radius, pen);
        if (ring.Look == MarkLook.Added)
        {
            canvas.DrawLine(x - radius, y, x + radius, y, pen);
            canvas.DrawLine(x, y - radius, x, y + radius, pen);
        }
    }

    // The middle of the first pixel is half a pixel from the edge.
    private static float Across(double at) => (float)(at + 0.5);
}
