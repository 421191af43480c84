namespace Broodtide.Science.Imaging.Registration;

/// <summary>
/// One level of a pyramid as registration looks at it: fine noise blurred away, and light and shade that are wider than a
/// few pixels taken off, so that neither lamp nor vignette steers.
/// </summary>
internal sealed record Textured(float[] Grid, GridShape Shape)
{
    // In pixels of the level. The first is about the reach of the slopes that are worked with; the second a few times it.
    private const double Fine = 1;
    private const int Wide = 12;

    /// <summary>So near to the edge a level is not what it would be if the picture went on.</summary>
    public const int Reach = Wide;

    /// <summary>The levels from the finest that is looked at to the coarsest, with pauses where there is none.</summary>
    /// <param name="grey">The picture.</param>
    /// <param name="shape">Its shape.</param>
    /// <param name="mostPixels">The finest level has at most so many.</param>
    /// <param name="leastSide">No level's shorter side has fewer.</param>
    public static IEnumerable<(Textured? Level, int Factor)> Levels(
        float[] grey,
        GridShape shape,
        int mostPixels,
        int leastSide
    )
    {
        for (var factor = 1; ; factor *= 2)
        {
            if (shape.Count <= mostPixels)
            {
                var (texture, light) = (new float[grey.Length], new float[grey.Length]);
                foreach (
                    var _ in Blur.GaussianSteps(grey, shape, Fine, texture)
                        .Concat(Blur.BoxSteps(texture, shape, Wide, light))
                )
                {
                    yield return (null, factor);
                }

                Lanes.Subtract(texture, light, texture);
                yield return (new(texture, shape), factor);
            }

            var half = shape.Halved();
            if (Math.Min(half.Across, half.Down) < leastSide)
            {
                yield break;
            }

            var halved = new float[half.Count];
            Pyramid.Reduce(grey, shape, halved);
            (grey, shape) = (halved, half);
        }
    }
}
