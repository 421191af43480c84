namespace Broodtide.Science.Imaging;

/// <summary>How a row of values repeats itself.</summary>
/// <param name="Period">Values from one repeat to the next.</param>
/// <param name="Likeness">Correlation of the row with itself that far on, at most about 1.</param>
/// <param name="Strength">Standard deviation of the row, its slow part taken off.</param>
internal readonly record struct Repeat(double Period, double Likeness, double Strength);

/// <summary>The shortest step at which a row is like itself, from its correlation with itself by Fourier transform.</summary>
internal static class Repeating
{
    public const double LeastPeriod = 3;

    // A repeat has to be seen so often.
    private const int LeastRepeats = 3;

    /// <summary>
    /// The shortest step whose likeness is a good share of the best one: lines of which every fifth is longer are most
    /// alike after five steps and nearly so after one. None where no likeness reaches the least.
    /// </summary>
    /// <param name="level">Values about zero, their slow part taken off.</param>
    /// <param name="ofBest">Share of the best likeness that the shortest one must have.</param>
    /// <param name="least">The least likeness.</param>
    public static Repeat? Of(double[] level, double ofBest, double least)
    {
        var tops = Tops(level, LeastPeriod, least);
        var best = tops.Select(top => top.Likeness).DefaultIfEmpty(0).Max();
        return tops.Count == 0 ? null : tops.First(top => top.Likeness >= ofBest * best);
    }

    /// <summary>All steps at which the row is more like itself than at those beside them, the shortest first.</summary>
    public static IReadOnlyList<Repeat> Tops(double[] level, double leastPeriod, double least)
    {
        if (level.Length < 4 * leastPeriod)
        {
            return [];
        }

        var likeness = Likeness(level, out var strength);
        var longest = level.Length / LeastRepeats;
        var tops = new List<Repeat>();
        for (var lag = (int)leastPeriod; lag < longest; lag++)
        {
            if (
                likeness[lag] > likeness[lag - 1]
                && likeness[lag] >= likeness[lag + 1]
                && likeness[lag] >= least
            )
            {
                tops.Add(new(lag + Beside(likeness, lag), likeness[lag], strength));
            }
        }

        return tops;
    }

    /// <summary>The values less their mean over an eighth of them to each side.</summary>
    public static double[] Level(ReadOnlySpan<float> inside)
    {
        var level = new double[inside.Length];
        var sums = new double[inside.Length + 1];
        for (var i = 0; i < inside.Length; i++)
        {
            sums[i + 1] = sums[i] + inside[i];
        }

        var reach = Math.Max(4, inside.Length / 8);
        for (var i = 0; i < inside.Length; i++)
        {
            var (first, after) = (Math.Max(0, i - reach), Math.Min(inside.Length, i + reach + 1));
            level[i] = inside[i] - ((sums[after] - sums[first]) / (after - first));
        }

        return level;
    }

    // Each step's sum over the pairs that there are, so that long steps count as short ones do.
    private static double[] Likeness(double[] level, out double strength)
    {
        var length = 1 << (int.Log2((2 * level.Length) - 1) + 1);
        var (real, imaginary) = (new float[length], new float[length]);
        Array.ConvertAll(level, value => (float)value).CopyTo(real, 0);
        var line = new GridShape(length, 1);
        Fourier.Plane(real, imaginary, line, isBackward: false);
        for (var i = 0; i < length; i++)
        {
            real[i] = (real[i] * real[i]) + (imaginary[i] * imaginary[i]);
        }

        Array.Clear(imaginary);
        Fourier.Plane(real, imaginary, line, isBackward: true);
        var whole = (double)real[0] / level.Length;
        strength = Math.Sqrt(whole / length);
        var likeness = new double[level.Length];
        for (var lag = 0; lag < likeness.Length && whole > 0; lag++)
        {
            likeness[lag] = real[lag] / (level.Length - lag) / whole;
        }

        return likeness;
    }

    private static double Beside(double[] curve, int at)
    {
        var bend = curve[at - 1] - (2 * curve[at]) + curve[at + 1];
        return bend < 0 ? Math.Clamp(0.5 * (curve[at - 1] - curve[at + 1]) / bend, -0.5, 0.5) : 0;
    }
}
