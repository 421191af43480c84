using Broodtide.Phone.Browser;
using Broodtide.Workbench.Photos;

namespace Broodtide.Phone.Photos;

/// <summary>Small pictures, made by the browser of the bytes as stored.</summary>
internal static class Thumbnails
{
    /// <summary>The size of a photo's thumbnail, turned as it is seen; a small photo stays as large as it is.</summary>
    public static (int Across, int Down) SizeOf(PhotoLook look)
    {
        var isOnItsSide = look.Orientation >= 5;
        var (across, down) = isOnItsSide ? (look.Down, look.Across) : (look.Across, look.Down);
        var share = Math.Min(1.0, (double)PhotoLimits.ThumbnailSidePixels / Math.Max(across, down));
        return (Side(across, share), Side(down, share));
    }

    /// <summary>The thumbnail as a file; none if this browser cannot show the photo.</summary>
    public static async Task<PhotoTaken?> MakeAsync(PhotoTaken photo)
    {
        await PhotoGlue.Load();
        var (across, down) = SizeOf(photo.Look);
        using var bytes = Bytes.ToScript(photo.Bytes);
        var small = await PhotoGlue.Shrink(bytes, PhotoFormats.MediaTypeOf(photo.Look.Format), across, down);
        // Taken in like any photo: a browser may write something beside the picture too.
        return small is not null && PhotoIntake.Take(Bytes.FromScript(small)) is { Succeeded: true } read
            ? read.Value
            : null;
    }

    private static int Side(int pixels, double share) => Math.Max(1, (int)Math.Round(pixels * share));
}
