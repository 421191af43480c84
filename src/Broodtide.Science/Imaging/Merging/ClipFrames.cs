using Broodtide.Units;

namespace Broodtide.Science.Imaging.Merging;

/// <summary>Which frames of a video are merged: of each stretch of it the sharpest, so that none is shaken or blurred.</summary>
public static class ClipFrames
{
    private const int Reach = 2;

    /// <summary>How sharp a frame is: the mean of its modified Laplacian (Nayar and Nakagawa 1994).</summary>
    /// <param name="grey">Brightness, 0 to 255.</param>
    /// <param name="shape">The shape.</param>
    /// <exception cref="ArgumentException">The grid has another shape.</exception>
    public static double Sharpness(float[] grey, GridShape shape)
    {
        var answer = new float[shape.Count];
        Focus.ModifiedLaplacian(grey, shape, Reach, answer);
        return Lanes.Mean(answer);
    }

    /// <summary>The frames to be merged, in their order.</summary>
    /// <param name="sharpness">How sharp each frame is that was looked at, in the order of time.</param>
    /// <param name="most">How many are wanted at most, 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than one is wanted, or a value is not finite.</exception>
    public static IReadOnlyList<int> Chosen(IReadOnlyList<double> sharpness, int most)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(most, 1);
        var parts = Math.Min(most, sharpness.Count);
        return
        [
            .. Enumerable
                .Range(0, parts)
                .Select(part =>
                    Enumerable
                        .Range(
                            part * sharpness.Count / parts,
                            ((part + 1) * sharpness.Count / parts) - (part * sharpness.Count / parts)
                        )
                        .MaxBy(at => Finite.Required(sharpness[at], nameof(sharpness)))
                ),
        ];
    }
}
