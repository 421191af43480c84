namespace Broodtide.Science.Imaging.Chambers;

/// <summary>Finds the ruling of a counting chamber by the step of its lines and their slant.</summary>
internal static class LatticeFinding
{
    private const int MostPeriods = 8;
    private const int Directions = 5;
    private const double Degree = Math.PI / 180;
    private const double LeastLikeness = 0.08;

    // Below so many pixels a step holds no cell that could be told.
    private const double LeastStep = 16;
    private const double MostUnequal = 0.04;

    // How far from the middle one the other lines of a border may lie, as a share of the step.
    private const double Border = 0.12;

    // Of scattered things the best of some ten thousand combs stands out by about five.
    private const double LeastStandingOut = 6.5;

    /// <summary>With pauses; the last is the answer: none where no lines at even steps cross others at a right angle.</summary>
    public static IEnumerable<Lattice?> Steps(float[] grey, GridShape shape)
    {
        var (small, smallShape) = (grey, shape);
        while (Math.Max(smallShape.Across, smallShape.Down) > 500)
        {
            var half = new float[smallShape.Halved().Count];
            Pyramid.Reduce(small, smallShape, half);
            (small, smallShape) = (half, smallShape.Halved());
        }

        yield return null;
        Lattice? best = null;
        var most = 0.0;
        var directions = EdgeDirections.OfCrossed(small, smallShape, Directions);
        yield return null;
        foreach (var rough in directions)
        {
            Found? one = null;
            foreach (var step in Lines((small, smallShape), (grey, shape), rough, 4))
            {
                one = step;
                yield return null;
            }

            if (one is null)
            {
                continue;
            }

            Found? other = null;
            var across = one.Set.Angle + (Math.PI / 2);
            foreach (var step in Lines((small, smallShape), (grey, shape), across, 2))
            {
                other = step;
                yield return null;
            }

            if (other is not null && Alike(one, other) && one.Weight * other.Weight > most)
            {
                most = one.Weight * other.Weight;
                // The set whose lines run down comes first.
                var (right, down) =
                    Math.Abs(Math.Cos(one.Set.Angle)) >= Math.Abs(Math.Cos(other.Set.Angle))
                        ? (one, other)
                        : (other, one);
                best = new(Ascending(right.Set), Ascending(down.Set), one.Sign + other.Sign < 0);
            }
        }

        yield return best;
    }

    private static bool Alike(Found one, Found other) =>
        Math.Abs(Math.Log(one.Set.Step / other.Set.Step)) < MostUnequal;

    // Numbers of lines ascend to the right and downward.
    private static LineSet Ascending(LineSet set)
    {
        var (sine, cosine) = Math.SinCos(set.Angle);
        if (Math.Abs(cosine) >= Math.Abs(sine) ? cosine >= 0 : sine >= 0)
        {
            return set;
        }

        var last = set.Strengths.Count - 1;
        return new(
            set.Angle + Math.PI,
            -(set.First + (last * set.Step)),
            set.Step,
            [.. set.Strengths.Reverse()]
        );
    }

    // With pauses: the last is the answer.
    private static IEnumerable<double> Sharpest(
        (float[] Grey, GridShape Shape) picture,
        double near,
        double degrees,
        double step
    )
    {
        var (best, most) = (near, 0.0);
        for (var off = -degrees; off <= degrees; off += step)
        {
            Projection? projection = null;
            foreach (var part in Projection.Steps(picture.Grey, picture.Shape, near + (off * Degree)))
            {
                projection = part;
                yield return best;
            }

            var contrast = projection!.Contrast();
            (best, most) = contrast > most ? (near + (off * Degree), contrast) : (best, most);
        }

        yield return best;
    }

    // First in the small picture, then in the whole one.
    private static IEnumerable<Found?> Lines(
        (float[] Grey, GridShape Shape) small,
        (float[] Grey, GridShape Shape) whole,
        double near,
        double degrees
    )
    {
        var angle = near;
        foreach (var step in Sharpest(small, near, degrees, 0.2))
        {
            angle = step;
            yield return null;
        }

        foreach (var step in Sharpest(whole, angle, 0.2, 0.05))
        {
            angle = step;
            yield return null;
        }

        Projection? found = null;
        foreach (var part in Projection.Steps(whole.Grey, whole.Shape, angle))
        {
            found = part;
            yield return null;
        }

        var projection = found!;
        // Of the steps at which the lines are like themselves the one whose comb meets the most of them: two of three
        // border lines lie near one another too, and every fourth line is as far from the next.
        var tops = Repeating
            .Tops(projection.Level, LeastStep, LeastLikeness)
            .OrderByDescending(top => top.Likeness)
            .Take(MostPeriods)
            .ToList();
        var combs = new List<Comb>();
        foreach (var top in tops)
        {
            yield return null;
            var best = new Comb(top.Period, 0, 1, 0);
            for (var trial = 0.97 * top.Period; trial <= 1.03 * top.Period; trial += 0.1)
            {
                best = Combed(projection.Level, trial, best);
                yield return null;
            }

            combs.Add(best);
        }

        yield return combs.MaxBy(comb => comb.Height) is { } highest
        && StandsOut(projection.Level, highest) >= LeastStandingOut
            ? Set(projection, angle, highest)
            : null;
    }

    // The place and brightness at which a comb of a step meets the most, or the best so far if that meets more.
    private static Comb Combed(double[] level, double trial, Comb best)
    {
        for (var start = 0.0; start < trial; start += 0.5)
        {
            var (sum, teeth) = (0.0, 0);
            for (var u = start; u < level.Length; u += trial, teeth++)
            {
                sum += level[(int)u];
            }

            var height = Math.Abs(sum) / Math.Sqrt(teeth);
            best = height > best.Height ? new(trial, start, Math.Sign(sum), height) : best;
        }

        return best;
    }

    // The sum over the teeth in standard deviations of such a sum over places between them.
    private static double StandsOut(double[] level, Comb comb)
    {
        var (teeth, sum, others, square) = (0, 0.0, 0, 0.0);
        for (var u = comb.First; u < level.Length; u += comb.Step, teeth++)
        {
            sum += level[(int)u];
        }

        for (var i = 0; i < level.Length; i++)
        {
            if (Math.Abs(Math.IEEERemainder(i - comb.First, comb.Step)) > Border * comb.Step)
            {
                others++;
                square += level[i] * level[i];
            }
        }

        return square > 0 ? Math.Abs(sum) / Math.Sqrt(teeth * square / others) : double.PositiveInfinity;
    }

    private static Found? Set(Projection projection, double angle, Comb comb)
    {
        var (level, (step, first, sign, _)) = (projection.Level, comb);
        var lines = new List<(int Number, double At)>();
        for (var (number, u) = (0, first); u < level.Length; number++, u += step)
        {
            if (Centre(level, u, Math.Max(2, Border * step), sign) is { } at)
            {
                lines.Add((number, at));
            }
        }

        return lines.Count < 3 ? null : Straight(projection, angle, lines, comb);
    }

    // The middle of what stands out near a place.
    private static double? Centre(double[] level, double near, double reach, int sign)
    {
        var (sum, moment) = (0.0, 0.0);
        var (from, to) = (
            Math.Max(0, (int)Math.Ceiling(near - reach)),
            Math.Min(level.Length - 1, (int)(near + reach))
        );
        for (var i = from; i <= to; i++)
        {
            var height = Math.Max(0, sign * level[i]);
            sum += height * height;
            moment += height * height * i;
        }

        return sum > 0 ? moment / sum : null;
    }

    private static Found? Straight(
        Projection projection,
        double angle,
        List<(int Number, double At)> lines,
        Comb comb
    )
    {
        var (first, step) = (0.0, 0.0);
        for (var again = 0; again < 2; again++)
        {
            var (number, place) = (lines.Average(l => l.Number), lines.Average(l => l.At));
            step =
                lines.Sum(l => (l.Number - number) * (l.At - place))
                / lines.Sum(l => Math.Pow(l.Number - number, 2));
            first = place - (step * number);
            // A line hidden by dirt is off; the rest decides.
            var kept = lines
                .Where(l => Math.Abs(l.At - first - (step * l.Number)) < Math.Max(1.5, 0.03 * step))
                .ToList();
            if (kept.Count < 3)
            {
                return null;
            }

            lines = kept;
        }

        var level = projection.Level;
        var strengths = new List<double>();
        for (var u = first; u <= level.Length - 1; u += step)
        {
            var sum = 0.0;
            for (
                var i = (int)Math.Max(0, u - (Border * step));
                i <= Math.Min(level.Length - 1, u + (Border * step));
                i++
            )
            {
                sum += Math.Max(0, comb.Sign * level[i]);
            }

            strengths.Add(sum);
        }

        return new(new(angle, first + projection.Start, step, strengths), comb.Sign, comb.Height);
    }

    private sealed record Comb(double Step, double First, int Sign, double Height);

    private sealed record Found(LineSet Set, int Sign, double Weight);
}
