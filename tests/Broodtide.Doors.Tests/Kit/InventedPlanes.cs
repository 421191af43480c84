using Broodtide.Photos;
using Broodtide.Science.Imaging;

namespace Broodtide.Doors.Tests.Kit;

/// <summary>Invented frames of a ground that slopes away from left to right, each sharp at its own depth.</summary>
internal static class InventedPlanes
{
    public const int Across = 160;
    public const int Down = 120;

    /// <summary>A folder with so many frames.</summary>
    public static async Task<string> WriteAsync(Kitchen kitchen, int frames = 3, string name = "planes")
    {
        var folder = Directory.CreateDirectory(kitchen.At(name)).FullName;
        for (var frame = 0; frame < frames; frame++)
        {
            await File.WriteAllBytesAsync(
                Path.Combine(folder, $"p{frame + 1}.png"),
                Frame(frame, frames),
                TestContext.Current.CancellationToken
            );
        }

        return folder;
    }

    /// <summary>One frame, as a PNG.</summary>
    public static byte[] Frame(int frame, int frames, int seed = 5, int across = Across)
    {
        var dice = new Random(seed);
        var raw = new double[across * Down];
        for (var i = 0; i < raw.Length; i++)
        {
            raw[i] = dice.NextDouble();
        }

        var sharp = Array.ConvertAll(Mean(raw, across, 1), v => 128 + ((v - 0.5) * 500));
        var soft = Mean(Mean(sharp, across, 2), across, 2);
        var colours = new byte[4 * raw.Length];
        for (var i = 0; i < raw.Length; i++)
        {
            var off = Math.Min(1, Math.Abs(((double)(i % across) / across * (frames - 1)) - frame));
            colours.AsSpan(4 * i, 3).Fill((byte)Math.Clamp(sharp[i] + (off * (soft[i] - sharp[i])), 0, 255));
            colours[(4 * i) + 3] = 255;
        }

        return MarkedPicture.Png(new Picture(new GridShape(across, Down), colours), []);
    }

    private static double[] Mean(double[] grid, int across, int reach)
    {
        var mean = new double[grid.Length];
        for (var i = 0; i < grid.Length; i++)
        {
            var (y, x) = Math.DivRem(i, across);
            var (sum, many) = (0.0, 0);
            for (var v = Math.Max(0, y - reach); v <= Math.Min(Down - 1, y + reach); v++)
            {
                for (var u = Math.Max(0, x - reach); u <= Math.Min(across - 1, x + reach); u++, many++)
                {
                    sum += grid[(v * across) + u];
                }
            }

            mean[i] = sum / many;
        }

        return mean;
    }
}
