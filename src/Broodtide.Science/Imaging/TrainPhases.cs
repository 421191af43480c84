namespace Broodtide.Science.Imaging;

/// <summary>The step of even lines from where the phase of their wave stands in one part after the other.</summary>
internal static class TrainPhases
{
    private const int Parts = 24;
    private const int LeastSteps = 2;

    // A part in which the wave is weaker than this share of the strong ones lies beside the lines.
    private const double Weak = 0.3;

    /// <summary>None where fewer than four parts show the wave.</summary>
    public static LineTrain? Fit(
        MeanRows strips,
        IReadOnlyList<MeanRow> fine,
        double frequency,
        double slant,
        double weight
    )
    {
        var across = strips.Turned.Shape.Across;
        var part = Math.Max((int)Math.Ceiling(LeastSteps * 2 * Math.PI / frequency), across / Parts);
        for (var again = 0; ; again++)
        {
            var waves = Waves(fine, frequency, slant, across, part);
            if (waves.Count < 4)
            {
                return null;
            }

            var line = Bend(waves);
            frequency += line.Slope;
            if (again == 2)
            {
                var period = 2 * Math.PI / frequency;
                return new(
                    strips.Turned,
                    period,
                    line.SlopeDeviation / frequency * period,
                    line.Curve * 2 * (waves[^1].At - waves[0].At) / frequency,
                    line.Start,
                    waves[0].At - (part / 2.0),
                    waves[^1].At + (part / 2.0),
                    fine[0].Middle - (strips.Rows / 2.0),
                    fine[^1].Middle + (strips.Rows / 2.0),
                    weight,
                    line.Scatter
                );
            }
        }
    }

    // Phases in order along the rows, unrolled.
    private static List<(double At, double Phase)> Waves(
        IReadOnlyList<MeanRow> fine,
        double frequency,
        double slant,
        int across,
        int part
    )
    {
        var found = new List<(double At, double Size, double Phase)>();
        for (var from = 0; from + part <= across; from += part)
        {
            var (real, imaginary) = (0.0, 0.0);
            foreach (var strip in fine.Where(s => s.From <= from && s.From + s.Level.Length >= from + part))
            {
                var wave = strip.Wave(frequency, from, from + part);
                var (sine, cosine) = Math.SinCos(-slant * (strip.Middle - fine[0].Middle));
                real += (wave.Real * cosine) - (wave.Imaginary * sine);
                imaginary += (wave.Real * sine) + (wave.Imaginary * cosine);
            }

            found.Add(
                (
                    from + (part / 2.0),
                    Math.Sqrt((real * real) + (imaginary * imaginary)),
                    Math.Atan2(imaginary, real)
                )
            );
        }

        var strong = found.Count == 0 ? 0 : found.Select(f => f.Size).Order().ElementAt(found.Count * 9 / 10);
        var phases = new List<(double At, double Phase)>();
        foreach (var (at, size, phase) in found)
        {
            if (size > 0 && size >= Weak * strong)
            {
                var turns = phases.Count == 0 ? 0 : Math.Round((phases[^1].Phase - phase) / (2 * Math.PI));
                phases.Add((at, phase + (2 * Math.PI * turns)));
            }
        }

        return phases;
    }

    // The straight line through the phases; how much they bend is told apart.
    private static Line Bend(List<(double At, double Phase)> waves)
    {
        var (n, middle, mean) = (waves.Count, waves.Average(w => w.At), waves.Average(w => w.Phase));
        var square = waves.Sum(w => Math.Pow(w.At - middle, 2));
        var slope = waves.Sum(w => (w.At - middle) * (w.Phase - mean)) / square;
        var left = waves
            .Select(w => (At: w.At - middle, Off: w.Phase - mean - (slope * (w.At - middle))))
            .ToList();
        // What is left of the square once a straight line is taken off it.
        var (cube, flat) = (left.Sum(w => Math.Pow(w.At, 3)) / square, square / n);
        var bent = left.Select(w => (w.At * w.At) - flat - (cube * w.At)).ToList();
        var power = bent.Sum(b => b * b);
        var curve = power > 0 ? bent.Zip(left, (b, w) => b * w.Off).Sum() / power : 0;
        var scatter = Math.Sqrt(left.Zip(bent, (w, b) => Math.Pow(w.Off - (curve * b), 2)).Sum() / (n - 3));
        return new(slope, scatter / Math.Sqrt(square), curve, mean - (slope * middle), scatter);
    }

    private readonly record struct Line(
        double Slope,
        double SlopeDeviation,
        double Curve,
        double Start,
        double Scatter
    );
}
