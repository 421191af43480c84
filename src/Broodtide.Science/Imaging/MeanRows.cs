namespace Broodtide.Science.Imaging;

/// <summary>A turned picture in strips along its rows, each strip the mean of some rows, its slow part taken off.</summary>
internal sealed class MeanRows
{
    private const int LeastRows = 3;
    private const int MostRows = 40;
    private const int Many = 80;

    private readonly List<MeanRow> _all = [];

    public MeanRows(Rotated turned)
    {
        Turned = turned;
        Rows = Math.Clamp(turned.Shape.Down / Many, LeastRows, MostRows);
        for (var top = 0; top + Rows <= turned.Shape.Down; top += Rows)
        {
            Add(top);
        }
    }

    public Rotated Turned { get; }

    /// <summary>Rows of each strip.</summary>
    public int Rows { get; }

    public IReadOnlyList<MeanRow> All => _all;

    private void Add(int top)
    {
        var shape = Turned.Shape;
        var means = new float[shape.Across];
        for (var v = top; v < top + Rows; v++)
        {
            Lanes.AddScaled(shape.Row<float>(Turned.Grid, v), 1f / Rows, means);
        }

        // What lies outside the picture stands at the ends of a row.
        var (from, to) = (0, means.Length);
        while (from < to && float.IsNaN(means[from]))
        {
            from++;
        }

        while (to > from && float.IsNaN(means[to - 1]))
        {
            to--;
        }

        if (to - from > 4 * Repeating.LeastPeriod)
        {
            _all.Add(new(from, top + ((Rows - 1) / 2.0), Repeating.Level(means.AsSpan(from, to - from))));
        }
    }
}

/// <summary>One strip.</summary>
/// <param name="From">Where along the row its first value lies.</param>
/// <param name="Middle">Where down the turned picture its middle lies.</param>
/// <param name="Level">Its values about zero.</param>
internal sealed record MeanRow(int From, double Middle, double[] Level)
{
    /// <summary>
    /// How strong a wave is in a part of it, as a complex amplitude; the part fades to its ends as a Hann window does.
    /// </summary>
    /// <param name="frequency">Radians a pixel.</param>
    /// <param name="from">First place along the row.</param>
    /// <param name="to">Place after the last one.</param>
    public (double Real, double Imaginary) Wave(double frequency, int from, int to)
    {
        var (first, after) = (Math.Max(from, From), Math.Min(to, From + Level.Length));
        var (real, imaginary) = (0.0, 0.0);
        var (sine, cosine) = Math.SinCos(frequency * first);
        var (turnSine, turnCosine) = Math.SinCos(frequency);
        var (fadeSine, fadeCosine) = Math.SinCos(2 * Math.PI * (first - from + 0.5) / (to - from));
        var (stepSine, stepCosine) = Math.SinCos(2 * Math.PI / (to - from));
        for (var u = first; u < after; u++)
        {
            var value = Level[u - From] * (0.5 - (0.5 * fadeCosine));
            real += value * cosine;
            imaginary -= value * sine;
            (cosine, sine) = (
                (cosine * turnCosine) - (sine * turnSine),
                (sine * turnCosine) + (cosine * turnSine)
            );
            (fadeCosine, fadeSine) = (
                (fadeCosine * stepCosine) - (fadeSine * stepSine),
                (fadeSine * stepCosine) + (fadeCosine * stepSine)
            );
        }

        return (real, imaginary);
    }
}
