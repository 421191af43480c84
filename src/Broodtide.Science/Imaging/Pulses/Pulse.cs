using Broodtide.Units;

namespace Broodtide.Science.Imaging.Pulses;

/// <summary>A heart rate from the brightness of a spot.</summary>
/// <param name="BeatsPerMinute">5, 50 and 95 %.</param>
/// <param name="ShareExplained">Share of the variance of the brightness, slow changes taken off, that the beat explains.</param>
/// <param name="Remarks">What else there is to know, as codes.</param>
public sealed record PulseFound(
    Interval BeatsPerMinute,
    double ShareExplained,
    IReadOnlyList<Remark> Remarks
);

/// <summary>
/// The period of the brightness in one spot over frames whose times are known, even or not: the wave that explains most of it
/// by least squares (Lomb 1976, Astrophys. Space Sci. 39:447), judged by the chance that noise alone would give as much
/// (Cumming, Marcy and Butler 1999, Astrophys. J. 526:890) and by whether both halves of the clip tell the same.
/// </summary>
public static class Pulse
{
    /// <summary>The slowest and the fastest beat looked for, beats a minute: our choice.</summary>
    public const double SlowestPerMinute = 30;

    /// <inheritdoc cref="SlowestPerMinute"/>
    public const double FastestPerMinute = 900;

    /// <summary>The shortest clip, seconds: our choice, so that each half has two of the slowest beats.</summary>
    public const double ShortestSeconds = 8;

    /// <summary>The fewest frames.</summary>
    public const int FewestFrames = 60;

    private const double MostChanceOfNoise = 1e-4;

    // Over so many seconds the light may change by itself.
    private const double SlowSeconds = 2;

    // Above this share of half the frame rate a faster beat would look the same.
    private const double NearHalf = 0.8;

    // More than this of the frame before is drift, not noise.
    private const double MostKept = 0.97;

    /// <summary>Finds the beat.</summary>
    /// <param name="seconds">Time of each frame, ascending.</param>
    /// <param name="brightness">Brightness of the spot in each.</param>
    /// <returns>
    /// The rate; or none, with a code: pulse-clip-too-short (seconds, least), pulse-frames-too-few (frames, least) or
    /// pulse-none-found.
    /// </returns>
    /// <exception cref="ArgumentException">The lists differ in length, or times do not ascend.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite.</exception>
    public static Parsed<PulseFound> Of(IReadOnlyList<double> seconds, IReadOnlyList<double> brightness)
    {
        if (seconds.Count != brightness.Count)
        {
            throw new ArgumentException("Each frame has a time and a brightness.", nameof(brightness));
        }

        for (var i = 0; i < seconds.Count; i++)
        {
            Finite.Required(seconds[i], nameof(seconds));
            Finite.Required(brightness[i], nameof(brightness));
            if (i > 0 && seconds[i] <= seconds[i - 1])
            {
                throw new ArgumentException("Times have to ascend.", nameof(seconds));
            }
        }

        if (seconds.Count < FewestFrames)
        {
            return Parsed<PulseFound>.No(
                "pulse-frames-too-few",
                new Argument("frames", seconds.Count),
                new Argument("least", FewestFrames)
            );
        }

        var lasts = seconds[^1] - seconds[0];
        if (lasts < ShortestSeconds)
        {
            return Parsed<PulseFound>.No(
                "pulse-clip-too-short",
                new Argument("seconds", Math.Round(lasts, 1)),
                new Argument("least", ShortestSeconds)
            );
        }

        var slow = Level(seconds, brightness);
        var level = Whitened(seconds, slow);
        var half = seconds.Count / 2;
        var whole = Strongest(seconds, level, 0, seconds.Count);
        if (whole is not { } found || found.Chance > MostChanceOfNoise)
        {
            return Parsed<PulseFound>.No("pulse-none-found");
        }

        // Each half alone, near the beat of the whole: as near as half of the clip can tell.
        var (first, second) = (
            Near(seconds, level, 0, half, found.Frequency),
            Near(seconds, level, half, seconds.Count, found.Frequency)
        );
        if (first is not { } one || second is not { } other)
        {
            return Parsed<PulseFound>.No("pulse-none-found");
        }

        var (frequency, share) = (found.Frequency, found.Share);
        // A wave's frequency is told to this standard deviation (Montgomery and O'Donoghue 1999, Delta Scuti Star Newsl. 13:28),
        // and a heart does not keep time for ever: half of what the halves differ by.
        var noise = Math.Sqrt(3 * (1 - share) / share / seconds.Count) / (Math.PI * lasts);
        var deviation = Math.Sqrt((noise * noise) + (Math.Pow(one - other, 2) / 4));
        var reach = Interval.StandardNormal95 * deviation;
        var remarks = new List<Remark> { new("pulse-check-by-eye") };
        if (frequency > NearHalf * Highest(seconds))
        {
            remarks.Add(
                new(
                    "pulse-near-half-frame-rate",
                    new Argument("framesPerSecond", Math.Round(2 * Highest(seconds)))
                )
            );
        }

        return Parsed<PulseFound>.Of(
            new(
                Interval.FromPoints(
                    60 * Math.Max(0, frequency - reach),
                    60 * frequency,
                    60 * (frequency + reach)
                ),
                Waves.Explained(seconds, slow, 0, seconds.Count, frequency),
                remarks
            )
        );
    }

    /// <summary>The mean brightness within a disc, of the pixels of it that lie in the picture.</summary>
    /// <param name="grey">Brightness of the picture.</param>
    /// <param name="shape">Its shape.</param>
    /// <param name="at">The middle of the disc, pixels.</param>
    /// <param name="radius">Its radius, pixels, above 0.</param>
    /// <returns>The mean; none where no pixel of the disc lies in the picture.</returns>
    /// <exception cref="ArgumentException">The grid has another shape.</exception>
    public static double? Brightness(
        ReadOnlySpan<float> grey,
        GridShape shape,
        (double X, double Y) at,
        double radius
    )
    {
        shape.MustFit(grey);
        Finite.Positive(radius);
        var (sum, count) = (0.0, 0);
        var (top, bottom) = (
            (int)Math.Max(0, Math.Ceiling(at.Y - radius)),
            (int)Math.Min(shape.Down - 1, Math.Floor(at.Y + radius))
        );
        for (var y = top; y <= bottom; y++)
        {
            for (
                var x = (int)Math.Max(0, Math.Ceiling(at.X - radius));
                x <= (int)Math.Min(shape.Across - 1, Math.Floor(at.X + radius));
                x++
            )
            {
                if (Math.Pow(x - at.X, 2) + Math.Pow(y - at.Y, 2) <= radius * radius)
                {
                    sum += grey[(y * shape.Across) + x];
                    count++;
                }
            }
        }

        return count == 0 ? null : sum / count;
    }

    // Less the mean of what lies within a second about it.
    private static double[] Level(IReadOnlyList<double> seconds, IReadOnlyList<double> brightness)
    {
        var level = new double[seconds.Count];
        var (from, to, sum) = (0, 0, 0.0);
        for (var i = 0; i < level.Length; i++)
        {
            for (; to < level.Length && seconds[to] <= seconds[i] + (SlowSeconds / 2); to++)
            {
                sum += brightness[to];
            }

            for (; seconds[from] < seconds[i] - (SlowSeconds / 2); from++)
            {
                sum -= brightness[from];
            }

            level[i] = brightness[i] - (sum / (to - from));
        }

        return level;
    }

    // Less what each frame keeps of the one before; how much that is, is told by what the strongest wave leaves.
    private static double[] Whitened(IReadOnlyList<double> seconds, double[] level)
    {
        var range = Range(seconds, 0, seconds.Count);
        var wave =
            range.To > range.From
                ? Waves.Nearest(
                    seconds,
                    level,
                    0,
                    level.Length,
                    Waves.Peak(seconds, level, 0, level.Length, range).Frequency
                )
                : level;
        var (one, two) = (0.0, 0.0);
        for (var i = 1; i < level.Length; i++)
        {
            var (here, before) = (level[i] - wave[i], level[i - 1] - wave[i - 1]);
            (one, two) = (one + (here * before), two + (before * before));
        }

        var kept = two > 0 ? Math.Clamp(one / two, 0, MostKept) : 0;
        var white = new double[level.Length];
        for (var i = 0; i < level.Length; i++)
        {
            white[i] = level[i] - (kept * (i > 0 ? level[i - 1] : level[i]));
        }

        return white;
    }

    // Half the frame rate, by the middle of the times between frames.
    private static double Highest(IReadOnlyList<double> seconds)
    {
        var apart = seconds.Zip(seconds.Skip(1), (one, next) => next - one).Order().ToList();
        return 0.5 / apart[apart.Count / 2];
    }

    private static (double Frequency, double Share, double Chance)? Strongest(
        IReadOnlyList<double> seconds,
        double[] level,
        int from,
        int to
    )
    {
        var lasts = seconds[to - 1] - seconds[from];
        var (lowest, highest) = Range(seconds, from, to);
        if (highest <= lowest)
        {
            return null;
        }

        var (frequency, share) = Waves.Peak(seconds, level, from, to, (lowest, highest));
        // As many frequencies as the clip can tell apart are tried.
        var tried = Math.Max(1, (highest - lowest) * lasts);
        var one = Math.Pow(Math.Max(0, 1 - share), (to - from - 3) / 2.0);
        return (frequency, share, Math.Min(1, tried * one));
    }

    private static (double From, double To) Range(IReadOnlyList<double> seconds, int from, int to) =>
        (
            Math.Max(SlowestPerMinute / 60, 2 / (seconds[to - 1] - seconds[from])),
            Math.Min(FastestPerMinute / 60, 0.98 * Highest(seconds))
        );

    // The beat of a part of the clip within what that part can tell of the whole one's; none where noise would do as well.
    private static double? Near(
        IReadOnlyList<double> seconds,
        double[] level,
        int from,
        int to,
        double frequency
    )
    {
        var lasts = seconds[to - 1] - seconds[from];
        var (near, share) = Waves.Peak(
            seconds,
            level,
            from,
            to,
            (Math.Max(0.1, frequency - (1 / lasts)), frequency + (1 / lasts))
        );
        // Two frequencies can be told apart there.
        var one = Math.Pow(Math.Max(0, 1 - share), (to - from - 3) / 2.0);
        return 2 * one < 0.01 ? near : null;
    }
}
