namespace Broodtide.Science.Imaging.Chambers;

/// <summary>
/// The brightness of the ground under lines and cells: the median over the surroundings of places on a coarse net, straight
/// between them.
/// </summary>
internal static class Ground
{
    private const int Every = 3;
    private const int PixelFetches = 20;

    /// <summary>The picture less its ground, with pauses.</summary>
    /// <param name="grey">The picture.</param>
    /// <param name="shape">Its shape.</param>
    /// <param name="reach">Half the side of the surroundings, pixels; the net is half as wide.</param>
    /// <param name="level">What is left.</param>
    public static IEnumerable<Pause> TakenOff(float[] grey, GridShape shape, int reach, float[] level)
    {
        var apart = Math.Max(4, reach / 2);
        var net = new GridShape(((shape.Across - 1) / apart) + 2, ((shape.Down - 1) / apart) + 2);
        var medians = new float[net.Count];
        var held = new List<float>();
        for (var at = 0; at < medians.Length; at++)
        {
            held.Clear();
            var (j, i) = Math.DivRem(at, net.Across);
            var (x, y) = (Math.Min(i * apart, shape.Across - 1), Math.Min(j * apart, shape.Down - 1));
            for (var v = Math.Max(0, y - reach); v <= Math.Min(shape.Down - 1, y + reach); v += Every)
            {
                for (var u = Math.Max(0, x - reach); u <= Math.Min(shape.Across - 1, x + reach); u += Every)
                {
                    held.Add(grey[(v * shape.Across) + u]);
                }
            }

            held.Sort();
            medians[at] = held[held.Count / 2];
            if (i == net.Across - 1)
            {
                yield return default;
            }
        }

        foreach (var (from, to) in Bands.Of(shape, PixelFetches))
        {
            for (var at = from * shape.Across; at < to * shape.Across; at++)
            {
                var (y, x) = Math.DivRem(at, shape.Across);
                level[at] = grey[at] - Rotated.Between(medians, net, x / (double)apart, y / (double)apart);
            }

            yield return default;
        }
    }
}
