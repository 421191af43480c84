namespace Broodtide.Science.Imaging.Spots;

/// <summary>
/// A picture as counting looks at it: the square root of the brightness, so that the noise of few photons is alike
/// everywhere (Bartlett 1936, Suppl. J. R. Stat. Soc. 3:68), and halved until its longer side is at most
/// <see cref="LongestSide"/>.
/// </summary>
internal sealed record LookedAt(float[] Grid, GridShape Shape, int Factor)
{
    public const int LongestSide = 1_600;

    public static LookedAt From(ReadOnlySpan<float> grey, GridShape shape)
    {
        shape.MustFit(grey);
        var grid = new float[grey.Length];
        for (var i = 0; i < grid.Length; i++)
        {
            if (!float.IsFinite(grey[i]))
            {
                throw new ArgumentException("A value is not a finite number.", nameof(grey));
            }

            grid[i] = MathF.Sqrt(Math.Max(0, grey[i]));
        }

        var factor = 1;
        while (Math.Max(shape.Across, shape.Down) > LongestSide)
        {
            var smaller = new float[shape.Halved().Count];
            Pyramid.Reduce(grid, shape, smaller);
            (grid, shape, factor) = (smaller, shape.Halved(), factor * 2);
        }

        return new(grid, shape, factor);
    }

    /// <summary>A thing in pixels of the whole picture: halving keeps every second pixel, the first one too.</summary>
    public SpotMark Mark(Region thing, double right = 0, double down = 0) =>
        new(
            (thing.CentreX + right) * Factor,
            (thing.CentreY + down) * Factor,
            (double)thing.Area * Factor * Factor
        );
}
