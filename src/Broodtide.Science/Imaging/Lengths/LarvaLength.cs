using Broodtide.Units;

namespace Broodtide.Science.Imaging.Lengths;

/// <summary>How long a larva is.</summary>
/// <param name="Micrometres">Along its curved axis from end to end, micrometres: 5, 50 and 95 %.</param>
/// <param name="Pixels">The same in pixels of the picture, without the error of the scale.</param>
/// <param name="Axis">The axis, in pixels of the picture, from end to end.</param>
/// <param name="WidthPixels">Its greatest width, pixels.</param>
/// <param name="Remarks">What else there is to know, as codes.</param>
public sealed record LengthFound(
    Interval Micrometres,
    double Pixels,
    IReadOnlyList<(double X, double Y)> Axis,
    double WidthPixels,
    IReadOnlyList<Remark> Remarks
);

/// <summary>
/// The length of a larva in a picture, along its curved axis from end to end. Limbs and hairs thinner than a fifth of the
/// body are left out. A larva that is tilted looks shorter: by 6 % at 20 degrees (its cosine).
/// </summary>
public static class LarvaLength
{
    // One standard deviation of an end, in widths of the edge's blur: chosen on invented larvae.
    private const double EndDeviation = 0.14;
    private const double ShareDeviation = 0.001;

    /// <summary>Finds a larva and measures it.</summary>
    /// <param name="grey">Brightness, 0 to 255.</param>
    /// <param name="shape">The shape, at least 32 by 32.</param>
    /// <param name="micrometresPerPixel">The scale, above zero.</param>
    /// <param name="at">A place on it in pixels; the largest thing if left out.</param>
    /// <returns>
    /// The length; or none, with a code: picture-too-small, nothing-stands-out, no-larva-there, larva-cut-off where it
    /// reaches the edge, larva-too-small under 25 pixels, or larva-not-long where it is no longer than twice its width.
    /// </returns>
    /// <exception cref="ArgumentException">The grid has another shape, or a value is not finite.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The scale is not above zero.</exception>
    public static Parsed<LengthFound> Find(
        ReadOnlySpan<float> grey,
        GridShape shape,
        Interval micrometresPerPixel,
        (double X, double Y)? at = null
    )
    {
        shape.MustFit(grey);
        return Steps(grey.ToArray(), shape, micrometresPerPixel, at).Last()!;
    }

    /// <summary>The same in steps of a part of a second: nothing until the last, which is the answer.</summary>
    /// <inheritdoc cref="Find"/>
    public static IEnumerable<Parsed<LengthFound>?> Steps(
        float[] grey,
        GridShape shape,
        Interval micrometresPerPixel,
        (double X, double Y)? at = null
    )
    {
        shape.MustFit<float>(grey);
        Finite.Positive(micrometresPerPixel.Low, nameof(micrometresPerPixel));
        RulerScale.MustBeFinite(grey);
        if (shape.Across < 32 || shape.Down < 32)
        {
            yield return Parsed<LengthFound>.No("picture-too-small");
            yield break;
        }

        Parsed<Outline>? found = null;
        foreach (var step in Outline.Steps(grey, shape, at))
        {
            found = step;
            yield return null;
        }

        yield return found!.Succeeded
            ? Along(found.Value, micrometresPerPixel)
            : Parsed<LengthFound>.No(found.Reason);
    }

    private static Parsed<LengthFound> Along(Outline outline, Interval micrometresPerPixel)
    {
        if (Axis.Of(outline) is not { } axis || axis.Length < LeastPixels)
        {
            return Parsed<LengthFound>.No("larva-too-small", new Argument("leastPixels", LeastPixels));
        }

        if (axis.Length < 2 * axis.Width)
        {
            return Parsed<LengthFound>.No("larva-not-long");
        }

        var remarks = new List<Remark> { new("length-tilt-shortens") };
        if (outline.Alike > 0)
        {
            remarks.Add(new("larva-tap-the-one", new Argument("others", outline.Alike)));
        }

        // Both ends err for themselves; the smoothing errs by a share of the whole.
        var ends = Math.Sqrt(2) * EndDeviation * Math.Max(1, outline.EdgePixels);
        var share = Math.Sqrt(
            Math.Pow(ends / axis.Length, 2)
                + Math.Pow(axis.Smoothing / axis.Length, 2)
                + (ShareDeviation * ShareDeviation)
        );
        var pixels = axis.Length * outline.Factor;
        return Parsed<LengthFound>.Of(
            new(
                Scaled(pixels, share, micrometresPerPixel),
                pixels,
                [.. axis.Points.Select(point => (point.X * outline.Factor, point.Y * outline.Factor))],
                axis.Width * outline.Factor,
                remarks
            )
        );
    }

    /// <summary>The length of a line that a keeper tapped along the larva from end to end.</summary>
    /// <param name="taps">Two places or more, pixels of the picture.</param>
    /// <param name="tapPixels">Standard deviation of a tap across and down, pixels of the picture, 0 or more.</param>
    /// <param name="micrometresPerPixel">The scale, above zero.</param>
    /// <returns>The length; or none where the line is shorter than 25 pixels: larva-too-small.</returns>
    /// <exception cref="ArgumentException">Fewer than two places.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or outside its range.</exception>
    public static Parsed<LengthFound> Tapped(
        IReadOnlyList<(double X, double Y)> taps,
        double tapPixels,
        Interval micrometresPerPixel
    )
    {
        Finite.Positive(micrometresPerPixel.Low, nameof(micrometresPerPixel));
        Finite.NotNegative(tapPixels);
        if (taps.Count < 2)
        {
            throw new ArgumentException("Two places at least are needed.", nameof(taps));
        }

        var length = 0.0;
        for (var i = 1; i < taps.Count; i++)
        {
            length += Math.Sqrt(
                Math.Pow(Finite.Required(taps[i].X - taps[i - 1].X), 2)
                    + Math.Pow(Finite.Required(taps[i].Y - taps[i - 1].Y), 2)
            );
        }

        if (length < LeastPixels)
        {
            return Parsed<LengthFound>.No("larva-too-small", new Argument("leastPixels", LeastPixels));
        }

        // Along the line only the ends err; taps between them that stray sideways make it longer by a little.
        var share = Math.Sqrt((2 * tapPixels * tapPixels / (length * length)) + (1e-4 * taps.Count));
        return Parsed<LengthFound>.Of(
            new(
                Scaled(length, share, micrometresPerPixel),
                length,
                [.. taps],
                0,
                [new("length-tilt-shortens"), new("length-by-taps")]
            )
        );
    }

    private const double LeastPixels = 25;

    // Errors that know nothing of each other add as squares, here on the logarithmic scale.
    private static Interval Scaled(double pixels, double share, Interval scale)
    {
        var reach = Interval.StandardNormal95 * share;
        double Both(double side) => Math.Sqrt((reach * reach) + (side * side));
        var middle = pixels * scale.Middle;
        return Interval.FromPoints(
            middle * Math.Exp(-Both(Math.Log(scale.Middle / scale.Low))),
            middle,
            middle * Math.Exp(Both(Math.Log(scale.High / scale.Middle)))
        );
    }
}
