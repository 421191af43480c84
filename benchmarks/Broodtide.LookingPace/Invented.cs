using Broodtide.Science.Imaging;

namespace Broodtide.LookingPace;

/// <summary>Invented pictures: soft hills, bright discs about 20 pixels wide, a little noise; the same for the same seed.</summary>
internal static class Invented
{
    public static float[] Grid(GridShape shape, int seed, double right = 0, double down = 0)
    {
        var random = new Random(seed);
        var grid = new float[shape.Count];
        for (var i = 0; i < grid.Length; i++)
        {
            var (x, y) = (i % shape.Across, i / shape.Across);
            grid[i] = (float)(30 + (10 * Math.Sin((x - right) / 97.0)) + (10 * Math.Cos((y - down) / 71.0)));
        }

        for (var disc = 0; disc < shape.Count / 20_000; disc++)
        {
            var (x, y) = (
                (random.NextDouble() * shape.Across) + right,
                (random.NextDouble() * shape.Down) + down
            );
            var (radius, light) = (5 + (random.NextDouble() * 8), 60 + (random.NextDouble() * 120));
            for (var v = Math.Max(0, (int)(y - radius - 4)); v < Math.Min(shape.Down, y + radius + 4); v++)
            {
                for (
                    var u = Math.Max(0, (int)(x - radius - 4));
                    u < Math.Min(shape.Across, x + radius + 4);
                    u++
                )
                {
                    var far = Math.Sqrt(Math.Pow(u - x, 2) + Math.Pow(v - y, 2)) - radius;
                    var at = (v * shape.Across) + u;
                    grid[at] = Math.Min(255, grid[at] + (float)(light / (1 + Math.Exp(2 * far))));
                }
            }
        }

        for (var i = 0; i < grid.Length; i++)
        {
            grid[i] += (float)((random.NextDouble() * 4) - 2);
        }

        return grid;
    }
}
