using Broodtide.Science.Imaging.Registration;

namespace Broodtide.Science.Imaging.Spots;

/// <summary>How a frame of a burst lies over the middle one, told in two ways.</summary>
/// <param name="Map">Where a pixel of the middle frame lies in this one, by the map that makes their texture agree most.</param>
/// <param name="Correlation">How far the textures agree under it.</param>
/// <param name="Shift">The shift by phase correlation.</param>
internal sealed record Alignment(AffineMap Map, double Correlation, PixelShift Shift)
{
    // Light and its slopes do not steer, texture does, and what is bright is cut off so that swimmers steer little; in
    // pixels of the picture looked at, and in standard deviations.
    private const int Texture = 12;
    private const double Tame = 2.5;

    /// <summary>Frames of one scene agree in their light by so much.</summary>
    public const double LeastCorrelation = 0.7;

    /// <summary>The frame's texture at half the size, cut off where it is brighter than the ground ever is; and its light.</summary>
    public static IEnumerable<(float[] Grid, float[] Light, GridShape Shape)?> Calm(
        float[] grid,
        GridShape shape
    )
    {
        var half = shape.Halved();
        var (small, light) = (new float[half.Count], new float[half.Count]);
        Pyramid.Reduce(grid, shape, small);
        yield return null;
        foreach (var _ in Blur.BoxSteps(small, half, Texture, light))
        {
            yield return null;
        }

        Lanes.Subtract(small, light, small);
        var (usual, low) = (0f, 0f);
        foreach (var step in Levels.QuantileSteps(small, 0.5))
        {
            usual = step;
            yield return null;
        }

        foreach (var step in Levels.QuantileSteps(small, 0.16))
        {
            low = step;
            yield return null;
        }

        var reach = (float)(Tame * Math.Max(1e-3, usual - low));
        for (var i = 0; i < small.Length; i++)
        {
            small[i] = Math.Clamp(small[i], usual - reach, usual + reach);
        }

        yield return (small, light, half);
    }

    /// <summary>How a frame lies over another, from the calm texture of both; the last is the answer.</summary>
    public static IEnumerable<Alignment?> Steps(float[] middle, float[] frame, GridShape half)
    {
        PixelShift? shift = null;
        foreach (var step in PhaseCorrelation.Steps(middle, frame, half))
        {
            shift = step;
            yield return null;
        }

        ReferenceFrame? reference = null;
        foreach (var step in ReferenceFrame.Building(middle, half, Movement.Affine))
        {
            reference = step;
            yield return null;
        }

        Registered? found = null;
        foreach (var step in reference!.Steps(frame))
        {
            found = step;
            yield return null;
        }

        // Pixel 0 of the half picture is pixel 0 of the whole one.
        var (x, y, agreement) = shift!.Value;
        yield return new(found!.Map.Between(0.5), found.Correlation, new(2 * x, 2 * y, agreement));
    }

    /// <summary>Correlation of two pictures, -1 to 1, 0 where one is flat.</summary>
    public static double Correlated(float[] one, float[] other)
    {
        var (a, b) = (Lanes.Sum(one) / one.Length, Lanes.Sum(other) / other.Length);
        var (ab, aa, bb) = (
            Lanes.Dot(one, other) - (a * b * one.Length),
            Lanes.Dot(one, one) - (a * a * one.Length),
            Lanes.Dot(other, other) - (b * b * one.Length)
        );
        return aa > 0 && bb > 0 ? ab / Math.Sqrt(aa * bb) : 0;
    }
}
