namespace Broodtide.Scenes;

/// <summary>
/// Light to be added at one depth. Things are drawn on a grid three times as fine as the picture and then summed into its
/// pixels.
/// </summary>
internal sealed class Layer(int width, int height)
{
    public const int Fine = 3;

    public float[] Light { get; } = new float[width * height];

    public void Clear() => Array.Clear(Light);

    /// <summary>
    /// Adds what a shape covers: for each fine point about a place the brightness that the shape says, smeared along a line
    /// by the motion during the exposure.
    /// </summary>
    /// <param name="at">Where the shape's own zero lies, in pixels of the picture.</param>
    /// <param name="reach">How far it reaches from there.</param>
    /// <param name="smear">The way moved during the exposure, in pixels.</param>
    /// <param name="brightness">Of a place beside the shape's zero, in pixels: 0 outside.</param>
    public void Add(Spot at, double reach, Spot smear, Func<double, double, double> brightness)
    {
        var side = (int)Math.Ceiling(2 * reach * Fine) + 2;
        var (left, top) = ((int)Math.Floor((at.X - reach) * Fine), (int)Math.Floor((at.Y - reach) * Fine));
        var drawn = new float[side * side];
        for (var y = 0; y < side; y++)
        {
            for (var x = 0; x < side; x++)
            {
                drawn[(y * side) + x] = (float)brightness(
                    ((left + x + 0.5) / Fine) - at.X,
                    ((top + y + 0.5) / Fine) - at.Y
                );
            }
        }

        var copies = 1 + (int)Math.Ceiling(Math.Sqrt((smear.X * smear.X) + (smear.Y * smear.Y)));
        for (var copy = 0; copy < copies; copy++)
        {
            var part = copies == 1 ? 0 : ((double)copy / (copies - 1)) - 0.5;
            Sum(
                drawn,
                side,
                left + (int)Math.Round(part * smear.X * Fine),
                top + (int)Math.Round(part * smear.Y * Fine),
                1f / (copies * Fine * Fine)
            );
        }
    }

    private void Sum(float[] drawn, int side, int left, int top, float weight)
    {
        for (var y = 0; y < side; y++)
        {
            var row = FloorDiv(top + y);
            if (row < 0 || row >= height)
            {
                continue;
            }

            for (var x = 0; x < side; x++)
            {
                var column = FloorDiv(left + x);
                if (column >= 0 && column < width)
                {
                    Light[(row * width) + column] += drawn[(y * side) + x] * weight;
                }
            }
        }
    }

    private static int FloorDiv(int value) => value >= 0 ? value / Fine : -((Fine - 1 - value) / Fine);
}
