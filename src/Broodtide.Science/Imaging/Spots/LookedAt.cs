namespace Broodtide.Science.Imaging.Spots;

/// <summary>
/// A picture as counting looks at it: every pixel is read, blocks of pixels are averaged until the longer side is at most
/// <see cref="LongestSide"/>, and of the mean the square root is taken, so that the noise of few photons is alike
/// everywhere (Bartlett 1936, Suppl. J. R. Stat. Soc. 3:68).
/// </summary>
internal sealed record LookedAt(float[] Grid, GridShape Shape, int Factor)
{
    public const int LongestSide = 1_600;

    public static LookedAt From(ReadOnlySpan<float> grey, GridShape shape)
    {
        shape.MustFit(grey);
        var factor = 1;
        while (Math.Max(shape.Across, shape.Down) / factor > LongestSide)
        {
            factor *= 2;
        }

        // What is left over at the right and at the bottom is less than a block.
        var looked = new GridShape(shape.Across / factor, shape.Down / factor);
        var (grid, sums) = (new float[looked.Count], new float[shape.Across]);
        for (var y = 0; y < looked.Down; y++)
        {
            Array.Clear(sums);
            for (var row = y * factor; row < (y + 1) * factor; row++)
            {
                Lanes.AddScaled(shape.Row(grey, row), 1f / (factor * factor), sums);
            }

            var to = looked.Row(grid.AsSpan(), y);
            for (var x = 0; x < to.Length; x++)
            {
                var mean = 0f;
                for (var column = x * factor; column < (x + 1) * factor; column++)
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

        return new(grid, looked, factor);
    }

    /// <summary>A place in pixels of the whole picture: the middle of a block.</summary>
    public double Whole(double at) => ((at + 0.5) * Factor) - 0.5;

    /// <summary>A thing in pixels of the whole picture.</summary>
    public SpotMark Mark(Region thing) =>
        new(Whole(thing.CentreX), Whole(thing.CentreY), (double)thing.Area * Factor * Factor);
}
