namespace Broodtide.Science.Imaging.Merging;

/// <summary>The weight of each pixel of a row, by straight lines between the middles of cells.</summary>
internal sealed class CellWeights
{
    private readonly CellGrid _cells;
    private readonly float[] _row;
    private readonly (int Cell, float Part)[] _columns;

    public CellWeights(CellGrid cells)
    {
        _cells = cells;
        _row = new float[cells.Shape.Across];
        _columns = [.. Enumerable.Range(0, cells.Picture.Across).Select(x => Between(x, cells.Shape.Across))];
    }

    /// <summary>The weights of the pixels of a row from a column on; false, and nothing written, where all are 0.</summary>
    public bool Row(float[] weights, int y, int from, Span<float> row)
    {
        var (first, down) = Between(y, _cells.Shape.Down);
        var above = _cells.Shape.Row<float>(weights, first);
        var below = _cells.Shape.Row<float>(weights, Math.Min(first + 1, _cells.Shape.Down - 1));
        var left = _columns[from].Cell;
        var right = Math.Min(_columns[from + row.Length - 1].Cell + 1, _row.Length - 1);
        var seen = _row.AsSpan(left, right - left + 1);
        above = above[left..];
        below = below[left..];
        for (var column = 0; column < seen.Length; column++)
        {
            seen[column] = above[column] + (down * (below[column] - above[column]));
        }

        if (!seen.ContainsAnyExcept(0f))
        {
            return false;
        }

        for (var x = 0; x < row.Length; x++)
        {
            var (column, part) = _columns[from + x];
            var next = Math.Min(column + 1, _row.Length - 1);
            row[x] = _row[column] + (part * (_row[next] - _row[column]));
        }

        return true;
    }

    private (int Cell, float Part) Between(int at, int many)
    {
        var place = Math.Clamp(((at + 0.5f) / _cells.Side) - 0.5f, 0, many - 1);
        return ((int)place, place - (int)place);
    }
}
