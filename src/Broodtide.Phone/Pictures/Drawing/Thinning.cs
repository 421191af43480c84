namespace Broodtide.Phone.Pictures;

/// <summary>Thins a line of very many points to a given number, by the largest triangle in each stretch; the two
/// points of a step stay both.</summary>
public static class Thinning
{
    public static IReadOnlyList<(double X, double Y)> To(int most, IReadOnlyList<(double X, double Y)> points)
    {
        if (points.Count <= most)
        {
            return points;
        }

        var kept = new List<(double X, double Y)>(most) { points[0] };
        var stretch = (points.Count - 2) / (double)(most - 2);
        for (var i = 0; i < most - 2; i++)
        {
            var from = 1 + (int)(i * stretch);
            var to = Math.Min(points.Count - 1, 1 + (int)((i + 1) * stretch));
            var beyond = points[Math.Min(points.Count - 1, to)];
            kept.Add(points[Largest(points, from, to, kept[^1], beyond)]);
        }

        kept.Add(points[^1]);
        return kept;
    }

    private static int Largest(
        IReadOnlyList<(double X, double Y)> points,
        int from,
        int to,
        (double X, double Y) before,
        (double X, double Y) beyond
    )
    {
        var best = from;
        var most = -1.0;
        for (var i = from; i < to; i++)
        {
            var isStep = points[i].X == points[i - 1].X;
            var area = Math.Abs(
                ((before.X - beyond.X) * (points[i].Y - before.Y))
                    - ((before.X - points[i].X) * (beyond.Y - before.Y))
            );
            if (isStep || area > most)
            {
                (best, most) = (i, isStep ? double.MaxValue : area);
            }
        }

        return best;
    }
}
