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

    /// <summary>A clip in a folder: a spot at 20, 20 that beats, on a ground with grain.</summary>
    public static async Task BeatAsync(
        Kitchen kitchen,
        string folder,
        double perMinute,
        double framesPerSecond,
        double seconds
    )
    {
        Directory.CreateDirectory(kitchen.At(folder));
        var dice = new Random(2);
        for (var frame = 0; frame < seconds * framesPerSecond; frame++)
        {
            var beat = Math.Sin(2 * Math.PI * perMinute / 60 * frame / framesPerSecond);
            var grey = new float[64 * 64];
            for (var at = 0; at < grey.Length; at++)
            {
                var apart = Math.Pow((at % 64) - 20, 2) + Math.Pow((at / 64) - 20, 2);
                grey[at] = (float)(100 + (20 * beat * Math.Exp(-apart / 40)) + dice.Next(-8, 9));
            }

            await SaveAsync(kitchen.At($"{folder}/frame{frame}.png"), grey, new(64, 64));
        }
    }

    /// <summary>A burst of five in a folder: twelve slender things that swim.</summary>
    public static async Task SwarmAsync(Kitchen kitchen, string folder)
    {
        Directory.CreateDirectory(kitchen.At(folder));
        for (var frame = 0; frame < 5; frame++)
        {
            var grey = new float[480 * 360];
            for (var at = 0; at < grey.Length; at++)
            {
                var (x, y) = (at % 480, at / 480);
                var light =
                    30 + (30 * Math.Exp(-(Math.Pow((x - 160) / 200.0, 2) + Math.Pow((y - 80) / 150.0, 2))));
                for (var one = 0; one < 12; one++)
                {
                    var u = x - 60 - (one % 4 * 120) - (14 * Math.Cos((one * 2.4) + (frame * 2.1)));
                    var v = y - 60 - (one / 4 * 120) - (14 * Math.Sin((one * 1.7) + (frame * 1.9)));
                    var (sine, cosine) = Math.SinCos((one * 1.1) + (frame * 0.4));
                    var (along, aside) = ((u * cosine) + (v * sine), (v * cosine) - (u * sine));
                    light += 170 * Math.Exp(-(along * along / 50) - (aside * aside / 6));
                }

                grey[at] = (float)
                    Math.Clamp(light + (((x * 7919) ^ (y * 104729) ^ (frame * 1299709)) % 5), 0, 255);
            }

            await SaveAsync(kitchen.At($"{folder}/frame{frame}.png"), grey, new(480, 360));
        }
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
