using Broodtide.Science.Imaging.Registration;

namespace Broodtide.Science.Imaging.Merging;

/// <summary>
/// A frame laid over the reference, and what is kept of it while its pixels are away: sharpness and light in cells, the
/// variance of blocks, each at its place in the reference.
/// </summary>
internal sealed class LaidFrame(
    int index,
    Registered registered,
    CellGrid focus,
    CellGrid light,
    CellGrid blocks
)
{
    public int Index => index;

    public AffineMap Map => registered.Map;

    public Registered Registered => registered;

    /// <summary>Sharpness of cells, laid.</summary>
    public float[] Energy { get; private set; } = new float[focus.Shape.Count];

    /// <summary>Red, green and blue of cells, laid.</summary>
    public float[][] Light { get; private set; } = [];

    /// <summary>Its brightness in whole numbers, laid.</summary>
    public byte[] Grey { get; } = new byte[blocks.Picture.Count];

    /// <summary>Variances of blocks, laid.</summary>
    public float[] Variance { get; } = new float[blocks.Shape.Count];

    /// <summary>What each colour is multiplied by so that all frames are equally bright.</summary>
    public float[] Gains { get; set; } = [1, 1, 1];

    /// <summary>The same for the brightness of all colours.</summary>
    public float Gain { get; set; } = 1;

    /// <summary>Measures the frame while its pixels are at hand; one piece a step.</summary>
    public IEnumerable<int> Measure(float[] grey, ReadOnlyMemory<byte> colours)
    {
        const int Rows = 16;
        for (var row = 0; row < focus.Shape.Down; row += Rows)
        {
            FocusCells.Measure(grey, focus, row, Math.Min(Rows, focus.Shape.Down - row), Energy);
            yield return row;
        }

        Energy = focus.Laid(Energy, Map);
        Light = Array.ConvertAll(LightCells.Of(colours.Span, light), cells => light.Laid(cells, Map));
        yield return 0;
        for (var row = 0; row < blocks.Shape.Down; row++)
        {
            Blocks.Measure(grey, blocks, Map, row, Variance, Grey);
            yield return row;
        }
    }
}
