using Broodtide.Science.Imaging;

namespace Broodtide.LookingPace;

/// <summary>
/// An invented burst: what lies still is the same in all frames, what moves is drawn anew; the hand shakes by a few pixels.
/// </summary>
internal static class InventedBurst
{
    // Room for a larva to the edge, in pixels.
    private const int Room = 100;

    /// <summary>Five frames.</summary>
    /// <param name="shape">Of each; more than 200 pixels across and down.</param>
    /// <param name="moving">How many larvae move, 60 pixels long and 12 wide.</param>
    public static List<float[]> Frames(GridShape shape, int moving) =>
        [.. Enumerable.Range(0, 5).Select(index => Frame(shape, moving, index))];

    private static float[] Frame(GridShape shape, int moving, int index)
    {
        var (right, down) = (3.0 * index, -2.0 * index);
        var grid = Invented.Grid(shape, 1, right, down);
        var random = new Random(100 + index);
        for (var larva = 0; larva < moving; larva++)
        {
            var (x, y) = (
                (random.NextDouble() * (shape.Across - (2 * Room))) + Room,
                (random.NextDouble() * (shape.Down - (2 * Room))) + Room
            );
            var turn = random.NextDouble() * Math.PI;
            var (c, s) = (Math.Cos(turn), Math.Sin(turn));
            for (var v = (int)y - 40; v < y + 40; v++)
            {
                for (var u = (int)x - 40; u < x + 40; u++)
                {
                    var (along, aside) = (((u - x) * c) + ((v - y) * s), ((v - y) * c) - ((u - x) * s));
                    var far = Math.Sqrt(Math.Pow(along / 30, 2) + Math.Pow(aside / 6, 2));
                    var at = (v * shape.Across) + u;
                    grid[at] = Math.Min(255, grid[at] + (float)(90 / (1 + Math.Exp(8 * (far - 1)))));
                }
            }
        }

        return grid;
    }
}
