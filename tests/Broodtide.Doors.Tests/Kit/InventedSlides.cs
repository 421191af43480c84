using Broodtide.Looking.Invented;
using Broodtide.Photos;
using Broodtide.Science.Imaging;

namespace Broodtide.Doors.Tests.Kit;

/// <summary>Invented looks through a microscope: a ruler, a larva, a counting chamber.</summary>
internal static class InventedSlides
{
    /// <summary>Ticks 8 pixels apart.</summary>
    public static Task RulerAsync(Kitchen kitchen) =>
        SaveAsync(
            kitchen.At("ruler.png"),
            new Ruler(8, 3, 0.8, 2, 0.2, IsBright: false, IsLettered: true).Draw(480, 320, 3),
            new(480, 320)
        );

    /// <summary>A larva 150 pixels long; 360 by 360 pixels.</summary>
    public static Task LarvaAsync(Kitchen kitchen) =>
        SaveAsync(
            kitchen.At("larva.png"),
            new LarvaView(150, 0.16, 0.6, 1, 0.3, IsBright: true, 2, 0.8, 2, 0.2).Draw(360, 360, 3).Grey,
            new(360, 360)
        );

    /// <summary>Corner squares of an improved Neubauer chamber with 200,000 cells a mL; says how many lie in the picture.</summary>
    public static async Task<int> ChamberAsync(Kitchen kitchen)
    {
        var (grey, cells) = new ChamberView(
            0.25,
            4,
            0.1,
            42,
            4,
            2e5,
            4,
            LinesAreDark: true,
            CellLook.Dark,
            0.2,
            0.8,
            2,
            0.2
        ).Draw(480, 480, 12);
        await SaveAsync(kitchen.At("chamber.png"), grey, new(480, 480));
        return cells.Count;
    }

    private static Task SaveAsync(string path, float[] grey, GridShape shape)
    {
        var colours = new byte[4 * grey.Length];
        for (var i = 0; i < grey.Length; i++)
        {
            var level = (byte)grey[i];
            (colours[4 * i], colours[(4 * i) + 1], colours[(4 * i) + 2], colours[(4 * i) + 3]) = (
                level,
                level,
                level,
                255
            );
        }

        return File.WriteAllBytesAsync(
            path,
            MarkedPicture.Png(new Picture(shape, colours), []),
            TestContext.Current.CancellationToken
        );
    }
}
