using Broodtide.Units;

namespace Broodtide.Science.Imaging.Lengths;

/// <summary>The scale of a picture from two places on it whose distance is known.</summary>
public static class TapScale
{
    private const double LeastPixels = 20;

    /// <summary>From two taps.</summary>
    /// <param name="taps">The line from one tap to the other, pixels of the picture.</param>
    /// <param name="micrometres">What lies between them, above zero.</param>
    /// <param name="tapPixels">
    /// Standard deviation of a tap across and down, pixels of the picture, 0 or more; a finger on a picture shown whole
    /// is good to about 2 pixels of the screen (our choice).
    /// </param>
    /// <returns>The scale; or none where the taps lie too near one another: taps-too-near (leastPixels).</returns>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or outside its range.</exception>
    public static Parsed<ScaleFound> Between(PictureLine taps, double micrometres, double tapPixels)
    {
        Finite.Positive(micrometres);
        Finite.NotNegative(tapPixels);
        var apart = Math.Sqrt(
            Math.Pow(Finite.Required(taps.ToX - taps.FromX), 2)
                + Math.Pow(Finite.Required(taps.ToY - taps.FromY), 2)
        );
        // Along the line the errors of two taps add as squares; half of the distance at least must be left.
        var reach = Interval.StandardNormal95 * Math.Sqrt(2) * tapPixels;
        var least = Math.Max(LeastPixels, 2 * reach);
        return apart < least
            ? Parsed<ScaleFound>.No("taps-too-near", new Argument("leastPixels", Math.Ceiling(least)))
            : Parsed<ScaleFound>.Of(
                new(
                    Interval.FromPoints(
                        micrometres / (apart + reach),
                        micrometres / apart,
                        micrometres / (apart - reach)
                    ),
                    apart,
                    2,
                    [taps],
                    []
                )
            );
    }
}
