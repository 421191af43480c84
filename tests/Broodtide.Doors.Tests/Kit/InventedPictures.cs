using Broodtide.Photos;
using Broodtide.Science.Imaging;

namespace Broodtide.Doors.Tests.Kit;

/// <summary>Invented pictures: soft bright dots on dark ground that move from frame to frame, and dirt that lies still.</summary>
internal static class InventedPictures
{
    public const int Across = 320;
    public const int Down = 240;

    /// <summary>A frame of a burst with so many dots, as a PNG; the same seed places the dirt alike in every frame.</summary>
    public static byte[] Frame(int dots, int frame, int dirt = 4, int across = Across, int down = Down)
    {
        var grey = new double[across * down];
        var still = new Grain(7);
        for (var i = 0; i < dirt; i++)
        {
            Add(grey, across, still.Next(across), still.Next(down), 150, 4);
        }

        var begun = new Grain(99);
        for (var i = 0; i < dots; i++)
        {
            // A place of its own in a loose row of places, and a step of its own at each frame.
            var columns = (int)Math.Ceiling(Math.Sqrt(dots));
            var (column, row) = (i % columns, i / columns);
            var moved = new Grain((uint)((i * 31) + (frame * 7919) + 5));
            var x = ((column + 0.5) * across / columns) + begun.Next(8) - 4 + moved.Next(14) - 7;
            var y = ((row + 0.5) * down / columns) + begun.Next(8) - 4 + moved.Next(14) - 7;
            Add(grey, across, x, y, 190, 2.2);
        }

        var noise = new Grain((uint)(1234 + frame));
        var colours = new byte[4 * grey.Length];
        for (var at = 0; at < grey.Length; at++)
        {
            var value = (byte)
                Math.Clamp(
                    Light(at % across, at / across, across, down) + grey[at] + noise.Next(7) - 3,
                    0,
                    255
                );
            (colours[4 * at], colours[(4 * at) + 1], colours[(4 * at) + 2]) = (value, value, value);
            colours[(4 * at) + 3] = 255;
        }

        return MarkedPicture.Png(new Picture(new GridShape(across, down), colours), []);
    }

    /// <summary>A folder with the frames of a burst.</summary>
    public static async Task<string> BurstAsync(
        Kitchen kitchen,
        int dots = 30,
        int frames = 5,
        string name = "frames"
    )
    {
        var folder = Directory.CreateDirectory(kitchen.At(name)).FullName;
        for (var frame = 1; frame <= frames; frame++)
        {
            await File.WriteAllBytesAsync(
                Path.Combine(folder, $"f{frame}.png"),
                Frame(dots, frame),
                TestContext.Current.CancellationToken
            );
        }

        return folder;
    }

    // The cone of the torch: the same in every frame.
    private static double Light(int x, int y, int across, int down) =>
        20
        + (
            40
            * Math.Exp(-Math.Pow((x - (0.5 * across)) / across, 2) - Math.Pow((y - (0.3 * down)) / down, 2))
        );

    private static void Add(double[] grey, int across, double x, double y, double bright, double spread)
    {
        var down = grey.Length / across;
        var reach = (int)Math.Ceiling(4 * spread);
        for (var v = Math.Max(0, (int)y - reach); v <= Math.Min(down - 1, (int)y + reach); v++)
        {
            for (var u = Math.Max(0, (int)x - reach); u <= Math.Min(across - 1, (int)x + reach); u++)
            {
                var apart = Math.Pow(u - x, 2) + Math.Pow(v - y, 2);
                grey[(v * across) + u] += bright * Math.Exp(-apart / (2 * spread * spread));
            }
        }
    }

    // Neighbouring seeds give unlike numbers (the finaliser of MurmurHash3 over a counter).
    private sealed class Grain(uint seed)
    {
        private uint _count = seed * 1000;

        public int Next(int below)
        {
            var mixed = ++_count;
            mixed = (mixed ^ (mixed >> 16)) * 0x85ebca6b;
            mixed = (mixed ^ (mixed >> 13)) * 0xc2b2ae35;
            return (int)((mixed ^ (mixed >> 16)) % (uint)below);
        }
    }
}
