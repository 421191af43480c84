namespace Broodtide.Science.Imaging.Chambers;

/// <summary>The mean brightness of a picture along lines at a right angle to a direction.</summary>
internal sealed class Projection
{
    // Where fewer pixels lie on a line than this share of the most, nothing is told.
    private const double LeastShare = 0.4;

    private const int PixelFetches = 12;

    /// <summary>Where along the direction the first value lies, in pixels.</summary>
    public int Start { get; }

    /// <summary>The means about zero, one a pixel, their slow part taken off.</summary>
    public double[] Level { get; }

    /// <summary>With pauses: the last is the answer.</summary>
    public static IEnumerable<Projection?> Steps(float[] grey, GridShape shape, double angle)
    {
        var (sine, cosine) = Math.SinCos(angle);
        var (lowest, highest) = (
            Math.Min(0, (shape.Across - 1) * cosine) + Math.Min(0, (shape.Down - 1) * sine),
            Math.Max(0, (shape.Across - 1) * cosine) + Math.Max(0, (shape.Down - 1) * sine)
        );
        var start = (int)Math.Floor(lowest);
        var length = (int)Math.Ceiling(highest) - start + 2;
        var (sums, counts) = (new double[length], new double[length]);
        foreach (var (from, to) in Bands.Of(shape, PixelFetches))
        {
            Add(grey, shape, (sine, cosine, start), (from, to), sums, counts);
            yield return null;
        }

        yield return new(start, sums, counts);
    }

    private static void Add(
        float[] grey,
        GridShape shape,
        (double Sine, double Cosine, int Start) along,
        (int From, int To) rows,
        double[] sums,
        double[] counts
    )
    {
        var (sine, cosine, start) = along;
        for (var y = rows.From; y < rows.To; y++)
        {
            var row = shape.Row<float>(grey, y);
            var place = (y * sine) - start;
            for (var x = 0; x < row.Length; x++)
            {
                var at = place + (x * cosine);
                var whole = (int)at;
                var part = at - whole;
                sums[whole] += (1 - part) * row[x];
                counts[whole] += 1 - part;
                sums[whole + 1] += part * row[x];
                counts[whole + 1] += part;
            }
        }
    }

    private Projection(int start, double[] sums, double[] counts)
    {
        var least = LeastShare * counts.Max();
        var first = Array.FindIndex(counts, count => count >= least);
        var last = Array.FindLastIndex(counts, count => count >= least);
        var means = new float[last - first + 1];
        for (var i = 0; i < means.Length; i++)
        {
            means[i] = counts[first + i] > 0 ? (float)(sums[first + i] / counts[first + i]) : 0;
        }

        (Start, Level) = (start + first, Repeating.Level(means));
    }

    /// <summary>How much the means differ: greatest where the direction lies right across the lines.</summary>
    public double Contrast()
    {
        // What goes on from one mean to the next is cells; lines stand alone.
        var sum = 0.0;
        for (var i = 2; i < Level.Length - 2; i++)
        {
            var bend = Level[i] - ((Level[i - 2] + Level[i + 2]) / 2);
            sum += bend * bend;
        }

        return sum / Level.Length;
    }
}
