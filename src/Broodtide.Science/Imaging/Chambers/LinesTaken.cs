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

    // Rows or columns between two pauses.
    private const int Lines = 16;

    /// <summary>
    /// The picture turned so that its rows cross the first set of lines, about zero, NaN outside; with pauses: the last
    /// is the answer.
    /// </summary>
    public static IEnumerable<Rotated?> Steps(float[] grey, GridShape shape, Lattice lattice)
    {
        var reach = (int)Math.Round(Window * lattice.Step);
        var level = new float[shape.Count];
        foreach (var _ in Ground.TakenOff(grey, shape, reach, level))
        {
            yield return null;
        }

        Rotated? found = null;
        foreach (var step in Rotated.Steps(level, shape, lattice.Across.Angle))
        {
            found = step;
            yield return null;
        }

        var turned = found!;
        var (down, across) = (new float[turned.Shape.Count], turned.Grid.AsSpan().ToArray());
        for (var u = 0; u < turned.Shape.Across; u += Lines)
        {
            AlongColumns(turned, reach, (u, Math.Min(turned.Shape.Across, u + Lines)), down);
            yield return null;
        }

        for (var v = 0; v < turned.Shape.Down; v++)
        {
            Usual(turned.Shape.Row(across.AsSpan(), v), reach);
            if (v % Lines == 0)
            {
                yield return null;
            }
        }

        var shared = Shared(turned.Grid, down, across);
        yield return null;
        for (var i = 0; i < down.Length; i++)
        {
            turned.Grid[i] -= down[i] + across[i] - (shared * down[i] * across[i]);
        }

        yield return turned;
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

    private static void AlongColumns(Rotated turned, int reach, (int From, int To) columns, float[] usual)
    {
        var shape = turned.Shape;
        var column = new float[shape.Down];
        for (var u = columns.From; u < columns.To; u++)
        {
            for (var v = 0; v < column.Length; v++)
            {
                column[v] = turned.Grid[(v * shape.Across) + u];
            }

            Usual(column, reach);
            for (var v = 0; v < column.Length; v++)
            {
                usual[(v * shape.Across) + u] = column[v];
            }
        }
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
