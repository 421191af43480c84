namespace Broodtide.Science.Imaging.Spots;

/// <summary>
/// A picture as counting looks at it: every pixel is read, blocks of pixels are averaged until the longer side is at most
/// <see cref="LongestSide"/>, and of the mean the square root is taken, so that the noise of few photons is alike
/// everywhere (Bartlett 1936, Suppl. J. R. Stat. Soc. 3:68).
/// </summary>
internal sealed record LookedAt(float[] Grid, GridShape Shape, int Factor)
{
    public const int LongestSide = 1_600;

    private const int BlockFetches = 8;

    public static LookedAt From(ReadOnlySpan<float> grey, GridShape shape)
    {
        shape.MustFit(grey);
        var looked = Empty(shape);
        looked.Fill(grey, shape, 0, looked.Shape.Down);
        return looked;
    }

    /// <summary>The same with pauses: the last is the answer.</summary>
    public static IEnumerable<LookedAt?> Steps(float[] grey, GridShape shape)
    {
        shape.MustFit<float>(grey);
        var looked = Empty(shape);
        foreach (var (from, to) in Bands.Of(looked.Shape, looked.Factor * looked.Factor * BlockFetches))
        {
            looked.Fill(grey, shape, from, to);
            yield return null;
        }

        yield return looked;
    }

    private static LookedAt Empty(GridShape shape)
    {
        var factor = 1;
        while (Math.Max(shape.Across, shape.Down) / factor > LongestSide)
        {
            factor *= 2;
        }

        // What is left over at the right and at the bottom is less than a block.
        var looked = new GridShape(shape.Across / factor, shape.Down / factor);
        return new(new float[looked.Count], looked, factor);
    }

    private void Fill(ReadOnlySpan<float> grey, GridShape shape, int from, int end)
    {
        var sums = new float[shape.Across];
        for (var y = from; y < end; y++)
        {
            Array.Clear(sums);
            for (var row = y * Factor; row < (y + 1) * Factor; row++)
            {
                Lanes.AddScaled(shape.Row(grey, row), 1f / (Factor * Factor), sums);
            }

            var to = Shape.Row(Grid.AsSpan(), y);
            for (var x = 0; x < to.Length; x++)
            {
                var mean = 0f;
                for (var column = x * Factor; column < (x + 1) * Factor; column++)
                {
                    mean += sums[column];
                }

                if (!float.IsFinite(mean))
                {
                    throw new ArgumentException("A value is not a finite number.", nameof(grey));
                }

                to[x] = MathF.Sqrt(Math.Max(0, mean));
            }
        }
    }

    /// <summary>A place in pixels of the whole picture: the middle of a block.</summary>
    public double Whole(double at) => ((at + 0.5) * Factor) - 0.5;

    /// <summary>A thing in pixels of the whole picture.</summary>
    public SpotMark Mark(Region thing) =>
        new(Whole(thing.CentreX), Whole(thing.CentreY), (double)thing.Area * Factor * Factor);
}
