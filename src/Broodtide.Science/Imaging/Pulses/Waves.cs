namespace Broodtide.Science.Imaging.Pulses;

/// <summary>Waves through values at known times, by least squares.</summary>
internal static class Waves
{
    private const int StepsPerLine = 8;

    /// <summary>The frequency in a range whose wave explains most, and the share of the variance that it explains.</summary>
    public static (double Frequency, double Share) Peak(
        IReadOnlyList<double> seconds,
        double[] level,
        int from,
        int to,
        (double From, double To) range
    )
    {
        var step = 1 / (seconds[to - 1] - seconds[from]) / StepsPerLine;
        var best = (Frequency: range.From, Share: 0.0);
        for (var frequency = range.From; frequency <= range.To; frequency += step)
        {
            var share = Explained(seconds, level, from, to, frequency);
            best = share > best.Share ? (frequency, share) : best;
        }

        // The top of a parabola through the best and its neighbours.
        var (left, right) = (
            Explained(seconds, level, from, to, best.Frequency - step),
            Explained(seconds, level, from, to, best.Frequency + step)
        );
        var bend = left - (2 * best.Share) + right;
        var off = bend < 0 ? Math.Clamp(0.5 * (left - right) / bend, -0.5, 0.5) * step : 0;
        return (best.Frequency + off, best.Share);
    }

    /// <summary>Share of the variance that a level and a wave of this frequency explain together.</summary>
    public static double Explained(
        IReadOnlyList<double> seconds,
        double[] level,
        int from,
        int to,
        double frequency
    )
    {
        var (wave, sums) = Fit(seconds, level, from, to, frequency);
        var explained = (wave.Cosine * sums.Cosine) + (wave.Sine * sums.Sine);
        return sums.All > 0 ? Math.Clamp(explained / sums.All, 0, 1) : 0;
    }

    /// <summary>A level and a wave of this frequency that lie nearest.</summary>
    public static double[] Nearest(
        IReadOnlyList<double> seconds,
        double[] level,
        int from,
        int to,
        double frequency
    )
    {
        var (wave, sums) = Fit(seconds, level, from, to, frequency);
        var values = new double[to - from];
        for (var i = from; i < to; i++)
        {
            var (sine, cosine) = Math.SinCos(2 * Math.PI * frequency * (seconds[i] - seconds[from]));
            values[i - from] =
                sums.Mean + (wave.Cosine * (cosine - sums.MeanCosine)) + (wave.Sine * (sine - sums.MeanSine));
        }

        return values;
    }

    // Least squares about the means: two equations for two heights.
    private static ((double Cosine, double Sine) Wave, Sums Sums) Fit(
        IReadOnlyList<double> seconds,
        double[] level,
        int from,
        int to,
        double frequency
    )
    {
        var n = to - from;
        var (c, s, y, cc, ss, cs, yc, ys, yy) = (0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0);
        for (var i = from; i < to; i++)
        {
            var (sine, cosine) = Math.SinCos(2 * Math.PI * frequency * (seconds[i] - seconds[from]));
            var value = level[i];
            (c, s, y) = (c + cosine, s + sine, y + value);
            (cc, ss, cs) = (cc + (cosine * cosine), ss + (sine * sine), cs + (cosine * sine));
            (yc, ys, yy) = (yc + (value * cosine), ys + (value * sine), yy + (value * value));
        }

        (cc, ss, cs) = (cc - (c * c / n), ss - (s * s / n), cs - (c * s / n));
        (yc, ys, yy) = (yc - (y * c / n), ys - (y * s / n), yy - (y * y / n));
        var whole = (cc * ss) - (cs * cs);
        var wave =
            whole > 1e-9 * n
                ? (((yc * ss) - (ys * cs)) / whole, ((ys * cc) - (yc * cs)) / whole)
                : (0.0, 0.0);
        return (wave, new(y / n, c / n, s / n, yc, ys, yy));
    }

    private readonly record struct Sums(
        double Mean,
        double MeanCosine,
        double MeanSine,
        double Cosine,
        double Sine,
        double All
    );
}
