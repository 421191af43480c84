namespace Broodtide.Science.Imaging;

/// <summary>
/// Parallel lines at even steps, such as the ticks of a ruler: their step by the correlation of strips with themselves,
/// refined by the phases of the wave of that step along and across the strips.
/// </summary>
/// <param name="Turned">The picture turned so that the rows cross the lines at a right angle.</param>
/// <param name="Period">Pixels from line to line, at a right angle to them.</param>
/// <param name="Deviation">Standard deviation of the period, pixels.</param>
/// <param name="Change">By what share the period grows from one end to the other.</param>
/// <param name="Phase">Radians of the wave at the first place of the rows: lines lie where it is greatest or least.</param>
/// <param name="From">Where along the rows the lines begin.</param>
/// <param name="To">Where along the rows they end.</param>
/// <param name="Top">The first row with lines.</param>
/// <param name="Bottom">The last row with lines.</param>
/// <param name="Weight">How much of the picture speaks for it.</param>
/// <param name="Scatter">Standard deviation of the phase from even steps, radians.</param>
internal sealed record LineTrain(
    Rotated Turned,
    double Period,
    double Deviation,
    double Change,
    double Phase,
    double From,
    double To,
    double Top,
    double Bottom,
    double Weight,
    double Scatter
)
{
    private const double OfBest = 0.6;
    private const double LeastLikeness = 0.25;
    private const double SamePeriod = 0.04;

    // The finest step counts if so large a share of the commonest step's weight speaks for it.
    private const double LeastShare = 0.2;
    private const double Upright = 0.2 * Math.PI / 180;

    /// <summary>The lines nearly across a direction, or none; with pauses: the last is the answer.</summary>
    public static IEnumerable<LineTrain?> Steps(float[] grey, GridShape shape, double angle)
    {
        for (var turn = 0; ; turn++)
        {
            Rotated? turned = null;
            foreach (var part in Rotated.Steps(grey, shape, angle))
            {
                turned = part;
                yield return null;
            }

            var strips = new MeanRows(turned!);
            yield return null;
            var (step, fine, weight) = Voted(strips);
            yield return null;
            if (fine.Count < 2)
            {
                yield return null;
                yield break;
            }

            var frequency = 0.0;
            foreach (var part in Strongest(fine, 2 * Math.PI / step, strips.Turned.Shape.Across))
            {
                frequency = part;
                yield return null;
            }

            var slant = Slant(fine, frequency, strips.Rows);
            yield return null;
            if (Math.Abs(Math.Atan2(slant, frequency)) < Upright || turn == 3)
            {
                yield return TrainPhases.Fit(strips, fine, frequency, slant, weight);
                yield break;
            }

            angle += Math.Atan2(slant, frequency);
        }
    }

    private static (double Step, IReadOnlyList<MeanRow> Fine, double Weight) Voted(MeanRows strips)
    {
        var votes = strips
            .All.Select(strip => (MeanRow: strip, Repeat: Repeating.Of(strip.Level, OfBest, LeastLikeness)))
            .Where(vote => vote.Repeat is not null)
            .Select(vote => (vote.MeanRow, Repeat: vote.Repeat!.Value))
            .OrderBy(vote => vote.Repeat.Period)
            .ToList();
        var groups = votes
            .Select(vote =>
                votes
                    .Where(other =>
                        other.Repeat.Period >= vote.Repeat.Period
                        && other.Repeat.Period <= vote.Repeat.Period * (1 + SamePeriod)
                    )
                    .ToList()
            )
            .Select(group => (Votes: group, Weight: group.Sum(v => v.Repeat.Strength * v.Repeat.Likeness)))
            .ToList();
        if (groups.Count == 0)
        {
            return (0, [], 0);
        }

        var most = groups.Max(group => group.Weight);
        var (chosen, weight) = groups.First(group => group.Weight >= LeastShare * most);
        var step =
            chosen.Sum(vote => vote.Repeat.Period * vote.Repeat.Strength)
            / chosen.Sum(v => v.Repeat.Strength);
        return (step, [.. chosen.Select(vote => vote.MeanRow).OrderBy(strip => strip.Middle)], weight);
    }

    // The frequency near the given one at which the strips together are strongest, each for itself.
    private static IEnumerable<double> Strongest(IReadOnlyList<MeanRow> fine, double near, int across)
    {
        var step = Math.PI / (4 * across);
        var half = (int)Math.Ceiling(1.5 * SamePeriod * near / step);
        var power = new double[(2 * half) + 1];
        for (var i = 0; i < power.Length; i++)
        {
            foreach (var strip in fine)
            {
                var (real, imaginary) = strip.Wave(
                    near + ((i - half) * step),
                    strip.From,
                    strip.From + strip.Level.Length
                );
                power[i] += (real * real) + (imaginary * imaginary);
            }

            yield return near;
        }

        yield return near + ((Array.IndexOf(power, power.Max()) - half) * step);
    }

    // Radians a row by which the phase goes on from strip to strip.
    private static double Slant(IReadOnlyList<MeanRow> fine, double frequency, int rows)
    {
        var waves = fine.Select(strip => strip.Wave(frequency, strip.From, strip.From + strip.Level.Length))
            .ToList();
        var (real, imaginary) = (0.0, 0.0);
        for (var i = 1; i < fine.Count; i++)
        {
            if (fine[i].Middle - fine[i - 1].Middle < 1.5 * rows)
            {
                var (a, b) = (waves[i - 1], waves[i]);
                real += (a.Real * b.Real) + (a.Imaginary * b.Imaginary);
                imaginary += (a.Real * b.Imaginary) - (a.Imaginary * b.Real);
            }
        }

        return real == 0 && imaginary == 0 ? 0 : Math.Atan2(imaginary, real) / rows;
    }
}
