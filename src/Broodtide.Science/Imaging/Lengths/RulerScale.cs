using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Imaging.Lengths;

/// <summary>
/// The scale of a picture from a ruler in it, such as a stage micrometer: the step of its ticks at a right angle to them,
/// over as many as there are.
/// </summary>
public static class RulerScale
{
    // Directions that are tried: lettering and the rim of a ruler may be stronger than its ticks.
    private const int Directions = 3;
    private const double LeastTicks = 6;

    // Radians of phase by which parts may stray from even steps: a tenth of a step.
    private const double MostScatter = 0.63;
    private const double ChangeToldFrom = 0.01;

    // Of the step, one standard deviation, our choice: lens and pixels are not even to the last.
    private const double Floor = 2e-4;

    /// <summary>Finds the ticks.</summary>
    /// <param name="grey">Brightness, 0 to 255.</param>
    /// <param name="shape">The shape, at least 32 by 32.</param>
    /// <param name="tickMicrometres">Printed distance from one tick to the next, micrometres, above zero.</param>
    /// <returns>
    /// The scale; or none, with a code: picture-too-small, no-ticks-found, or ticks-uneven where what repeats does not
    /// do so at even steps.
    /// </returns>
    /// <exception cref="ArgumentException">The grid has another shape, or a value is not finite.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The distance is not finite and above zero.</exception>
    public static Parsed<ScaleFound> Find(ReadOnlySpan<float> grey, GridShape shape, double tickMicrometres)
    {
        shape.MustFit(grey);
        return Steps(grey.ToArray(), shape, tickMicrometres).Last()!;
    }

    /// <summary>The same in steps of a part of a second: nothing until the last, which is the answer.</summary>
    /// <inheritdoc cref="Find"/>
    public static IEnumerable<Parsed<ScaleFound>?> Steps(
        float[] grey,
        GridShape shape,
        double tickMicrometres
    )
    {
        shape.MustFit<float>(grey);
        Finite.Positive(tickMicrometres);
        MustBeFinite(grey);
        if (shape.Across < 32 || shape.Down < 32)
        {
            yield return Parsed<ScaleFound>.No("picture-too-small");
            yield break;
        }

        LineTrain? best = null;
        var directions = EdgeDirections.Of(grey, shape, Directions);
        yield return null;
        foreach (var angle in directions)
        {
            LineTrain? train = null;
            foreach (var step in LineTrain.Steps(grey, shape, angle))
            {
                train = step;
                yield return null;
            }

            best = train is not null && (best is null || train.Weight > best.Weight) ? train : best;
        }

        yield return best is null || (best.To - best.From) / best.Period < LeastTicks
            ? Parsed<ScaleFound>.No("no-ticks-found")
        : best.Scatter > MostScatter ? Parsed<ScaleFound>.No("ticks-uneven")
        : Parsed<ScaleFound>.Of(Told(best, tickMicrometres));
    }

    internal static void MustBeFinite(ReadOnlySpan<float> grey)
    {
        foreach (var value in grey)
        {
            if (!float.IsFinite(value))
            {
                throw new ArgumentException("A value is not a finite number.", nameof(grey));
            }
        }
    }

    private static ScaleFound Told(LineTrain train, double tickMicrometres)
    {
        var remarks = new List<Remark> { new("ticks-check-each-marked") };
        if (Math.Abs(train.Change) >= ChangeToldFrom)
        {
            remarks.Add(
                new(
                    "scale-changes-across",
                    new Argument("changePercent", Math.Round(100 * Math.Abs(train.Change), 1))
                )
            );
        }

        // Over an even change the middle of the ticks is right; elsewhere the step is off by up to half of it.
        var share = Math.Sqrt(
            Math.Pow(train.Deviation / train.Period, 2) + (train.Change * train.Change / 12) + (Floor * Floor)
        );
        var reach = Math.Exp(StudentT.InvCDF(0, 1, 6, 0.95) * share);
        var middle = tickMicrometres / train.Period;
        var marks = Marks(train);
        return new(
            Interval.FromPoints(middle / reach, middle, middle * reach),
            train.Period,
            marks.Count,
            marks,
            remarks
        );
    }

    // Dark or bright, the lines lie where the sum along them is farthest from the usual.
    private static List<PictureLine> Marks(LineTrain train)
    {
        var (dark, bright) = (At(train, 0.5), At(train, 0));
        var chosen = Contrast(train, dark) > Contrast(train, bright) ? dark : bright;
        return
        [
            .. chosen.Select(u =>
            {
                var (from, to) = (
                    train.Turned.InPicture(u, train.Top),
                    train.Turned.InPicture(u, train.Bottom)
                );
                return new PictureLine(from.X, from.Y, to.X, to.Y);
            }),
        ];
    }

    private static List<double> At(LineTrain train, double half)
    {
        // The wave is greatest where frequency times place plus phase is a whole turn.
        var first = ((-train.Phase / (2 * Math.PI)) + half) * train.Period;
        first += Math.Ceiling((train.From - first) / train.Period) * train.Period;
        var found = new List<double>();
        for (var u = first; u <= train.To; u += train.Period)
        {
            found.Add(u);
        }

        return found;
    }

    // How narrow what stands at these places is: the variance of brightness from line to line and its distance from
    // the picture's middle level matter less than that a tick is narrower than the gap, so the farther from the mean.
    private static double Contrast(LineTrain train, List<double> places)
    {
        var row = (int)Math.Clamp((train.Top + train.Bottom) / 2, 0, train.Turned.Shape.Down - 1);
        var values = train.Turned.Shape.Row<float>(train.Turned.Grid, row);
        var (sum, count, whole, all) = (0.0, 0, 0.0, 0);
        for (var u = (int)Math.Max(0, train.From); u < Math.Min(values.Length, train.To); u++)
        {
            if (!float.IsNaN(values[u]))
            {
                whole += values[u];
                all++;
            }
        }

        foreach (var u in places)
        {
            var at = (int)Math.Round(u);
            if (at >= 0 && at < values.Length && !float.IsNaN(values[at]))
            {
                sum += values[at];
                count++;
            }
        }

        return count == 0 || all == 0 ? 0 : Math.Abs((sum / count) - (whole / all));
    }
}
