namespace Broodtide.Scenes;

/// <summary>Light that spills about what is saturated.</summary>
internal static class Glow
{
    private const int Step = 8;
    private const double Reach = 30;

    public static void Add(float[] light, int width, int height, double share, double scale)
    {
        var (across, down) = ((width + Step - 1) / Step, (height + Step - 1) / Step);
        var spilled = new float[across * down];
        for (var i = 0; i < light.Length; i++)
        {
            var over = light[i] - 0.8f;
            if (over > 0)
            {
                spilled[(i / width / Step * across) + (i % width / Step)] += over / (Step * Step);
            }
        }

        spilled = Soft.Blurred(spilled, across, down, Reach * scale / Step);
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                light[(y * width) + x] += (float)(share * 8) * Between(spilled, across, down, x, y);
            }
        }
    }

    private static float Between(float[] grid, int across, int down, int x, int y)
    {
        var (u, v) = (
            Math.Clamp(((x + 0.5f) / Step) - 0.5f, 0, across - 1.001f),
            Math.Clamp(((y + 0.5f) / Step) - 0.5f, 0, down - 1.001f)
        );
        var at = ((int)v * across) + (int)u;
        var (right, low) = (u - (int)u, v - (int)v);
        var above = grid[at] + (right * (grid[at + 1] - grid[at]));
        at += across;
        return above + (low * (grid[at] + (right * (grid[at + 1] - grid[at])) - above));
    }
}
