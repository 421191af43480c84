namespace Broodtide.Science.Imaging.Chambers;

/// <summary>
/// A chamber's picture with its ruled lines taken off: what goes on along a line, the median over a step and a half of it,
/// is line and light; cells are shorter.
/// </summary>
internal static class LinesTaken
{
    private const double Window = 0.75;

    // Grey levels from which on a median is a line.
    private const float LeastShade = 5;
    private const int LeastPixels = 30;

    /// <summary>
    /// The picture turned so that its rows cross the first set of lines, about zero, NaN outside.
    /// </summary>
    public static Rotated Of(ReadOnlySpan<float> grey, GridShape shape, Lattice lattice)
    {
        var reach = (int)Math.Round(Window * lattice.Step);
        var turned = Rotated.Of(Ground.TakenOff(grey, shape, reach), shape, lattice.Across.Angle);
        var (down, across) = (
            AlongColumns(turned.Grid, turned.Shape, reach),
            AlongRows(turned.Grid, turned.Shape, reach)
        );
        var shared = Shared(turned.Grid, down, across);
        for (var i = 0; i < down.Length; i++)
        {
            turned.Grid[i] -= down[i] + across[i] - (shared * down[i] * across[i]);
        }

        return turned;
    }

    // Where two lines cross their shades overlap: of their product so much is not added. The picture itself says how much,
    // by the middle of what all its crossings say; cells lie on few of them.
    private static float Shared(float[] grid, float[] down, float[] across)
    {
        var found = new List<float>();
        for (var i = 0; i < grid.Length; i++)
        {
            if (Math.Min(Math.Abs(down[i]), Math.Abs(across[i])) > LeastShade && !float.IsNaN(grid[i]))
            {
                found.Add((down[i] + across[i] - grid[i]) / (down[i] * across[i]));
            }
        }

        found.Sort();
        return found.Count < LeastPixels ? 0 : found[found.Count / 2];
    }

    private static float[] AlongColumns(float[] grid, GridShape shape, int reach)
    {
        var (usual, column) = (new float[grid.Length], new float[shape.Down]);
        for (var u = 0; u < shape.Across; u++)
        {
            for (var v = 0; v < column.Length; v++)
            {
                column[v] = grid[(v * shape.Across) + u];
            }

            Usual(column, reach);
            for (var v = 0; v < column.Length; v++)
            {
                usual[(v * shape.Across) + u] = column[v];
            }
        }

        return usual;
    }

    private static float[] AlongRows(float[] grid, GridShape shape, int reach)
    {
        var usual = grid.AsSpan().ToArray();
        for (var v = 0; v < shape.Down; v++)
        {
            Usual(shape.Row(usual.AsSpan(), v), reach);
        }

        return usual;
    }

    // The medians stand a third of the window apart; between them they go straight.
    private static void Usual(Span<float> line, int reach)
    {
        var apart = Math.Max(1, 2 * reach / 3);
        var medians = new float[((line.Length - 1) / apart) + 2];
        var held = new List<float>();
        for (var k = 0; k < medians.Length; k++)
        {
            held.Clear();
            var middle = k * apart;
            for (var i = Math.Max(0, middle - reach); i <= Math.Min(line.Length - 1, middle + reach); i++)
            {
                if (!float.IsNaN(line[i]))
                {
                    held.Add(line[i]);
                }
            }

            held.Sort();
            medians[k] =
                held.Count > 0 ? held[held.Count / 2]
                : k > 0 ? medians[k - 1]
                : 0;
        }

        for (var i = 0; i < line.Length; i++)
        {
            var (k, rest) = Math.DivRem(i, apart);
            line[i] = medians[k] + (rest / (float)apart * (medians[k + 1] - medians[k]));
        }
    }
}
