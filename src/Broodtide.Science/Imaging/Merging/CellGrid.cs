using Broodtide.Science.Imaging.Registration;

namespace Broodtide.Science.Imaging.Merging;

/// <summary>A picture parted into square cells; those at the right and lower edge may be cut.</summary>
internal readonly record struct CellGrid(GridShape Picture, int Side)
{
    public GridShape Shape => new((Picture.Across + Side - 1) / Side, (Picture.Down + Side - 1) / Side);

    /// <summary>The same map from the middle of cells to the middle of cells.</summary>
    public AffineMap Of(AffineMap map)
    {
        // The middle of the cell X lies at the pixel side X + half.
        var half = (Side - 1) / 2.0;
        var (x, y) = map.At(half, half);
        return map with { X = (x - half) / Side, Y = (y - half) / Side };
    }

    /// <summary>Cells whose middle lies in the other picture, a pixel from its edge at least.</summary>
    public bool IsSeen(AffineMap map, int cell)
    {
        var (row, column) = Math.DivRem(cell, Shape.Across);
        var half = (Side - 1) / 2.0;
        // The middle of a cut cell may lie beyond the edge.
        var (x, y) = map.At(
            Math.Min((column * Side) + half, Picture.Across - 2),
            Math.Min((row * Side) + half, Picture.Down - 2)
        );
        return x >= 1 && y >= 1 && x <= Picture.Across - 2 && y <= Picture.Down - 2;
    }

    /// <summary>What a grid of cells of another picture says for the cells here.</summary>
    public float[] Laid(float[] cells, AffineMap map)
    {
        var laid = new float[Shape.Count];
        Resampling.Bilinear(cells, Shape, Of(map), Shape, laid);
        return laid;
    }
}
