namespace Broodtide.Science.Imaging.Lengths;

/// <summary>The axis of a long thing.</summary>
/// <param name="Points">From end to end, about a pixel apart.</param>
/// <param name="Length">Pixels along it.</param>
/// <param name="Width">Its greatest width, pixels.</param>
/// <param name="Smoothing">By how many pixels a stiffer axis would be longer or shorter.</param>
internal sealed record Axis(
    IReadOnlyList<(double X, double Y)> Points,
    double Length,
    double Width,
    double Smoothing
)
{
    /// <summary>
    /// The longest way within the thing, drawn to its middle line, smoothed by a spline, and drawn on straight at both ends
    /// to where the thing ends. None where it is too small.
    /// </summary>
    public static Axis? Of(Outline outline)
    {
        var shape = outline.Shape;
        var distance = new float[shape.Count];
        Distance.Transform(outline.Marked, shape, distance);
        var thick = 0f;
        var start = 0;
        for (var i = 0; i < distance.Length; i++)
        {
            if (outline.Marked[i] != 0 && distance[i] > thick)
            {
                (thick, start) = (distance[i], i);
            }
        }

        if (thick < 1.5f)
        {
            return null;
        }

        // The two ends farthest from one another within the thing, then the way between them that keeps to the middle.
        var one = Ways.Farthest(outline.Marked, shape, start);
        var other = Ways.Farthest(outline.Marked, shape, one);
        var way = Ways.Between(
            outline.Marked,
            shape,
            one,
            other,
            at => 1 / Math.Pow(Math.Max(0.5, distance[at]), 2)
        );
        var middle = way.Select(at =>
                (X: (double)(at % shape.Across), Y: (double)(at / shape.Across), Room: distance[at])
            )
            .ToList();
        var inner = WithoutEnds(middle);
        if (inner.Count < 6)
        {
            return null;
        }

        var places = inner.Select(place => (place.X, place.Y)).ToList();
        var knots = Math.Clamp((int)Math.Round(places.Count / (1.6 * thick)), 2, 8);
        var centred = Centring.Of(AxisSpline.Through(places, knots), outline, thick);
        var smooth = Drawn(AxisSpline.Through(centred, knots), outline, thick);
        var stiff = Drawn(AxisSpline.Through(centred, Math.Max(1, knots - 1)), outline, thick);
        return new(smooth, Along(smooth), 2 * thick, Math.Abs(Along(smooth) - Along(stiff)));
    }

    // The way runs into a corner of the outline at its ends: what lies nearer to an end than the thing is thick there.
    private static List<(double X, double Y, float Room)> WithoutEnds(
        List<(double X, double Y, float Room)> way
    )
    {
        int First(IEnumerable<(double X, double Y, float Room)> places)
        {
            var from = places.First();
            return places
                .TakeWhile(place =>
                    Math.Sqrt(Math.Pow(place.X - from.X, 2) + Math.Pow(place.Y - from.Y, 2))
                    < 1.2 * place.Room + 1
                )
                .Count();
        }

        var (head, tail) = (First(way), First(Enumerable.Reverse(way)));
        return head + tail >= way.Count ? [] : way[head..^tail];
    }

    private static List<(double X, double Y)> Drawn(
        List<(double X, double Y)> spline,
        Outline outline,
        double thick
    )
    {
        var head = Out(spline, outline, thick);
        spline.Reverse();
        var tail = Out(spline, outline, thick);
        return [head, .. spline, tail];
    }

    // From the last place on along the direction of the last stretch to where the contrast is half.
    private static (double X, double Y) Out(List<(double X, double Y)> spline, Outline outline, double thick)
    {
        var last = spline[^1];
        var before = spline[Math.Max(0, spline.Count - 1 - (int)Math.Max(3, thick))];
        var length = Math.Sqrt(Math.Pow(last.X - before.X, 2) + Math.Pow(last.Y - before.Y, 2));
        var (right, down) = ((last.X - before.X) / length, (last.Y - before.Y) / length);
        var above = Rotated.Between(outline.Raised, outline.Shape, last.X, last.Y);
        for (var far = 0.25; far < 6 * thick; far += 0.25)
        {
            var here = Rotated.Between(
                outline.Raised,
                outline.Shape,
                last.X + (far * right),
                last.Y + (far * down)
            );
            if (!(here > 0))
            {
                var back = float.IsNaN(here) || here >= above ? 0 : 0.25 * (1 - (above / (above - here)));
                return (last.X + ((far - back) * right), last.Y + ((far - back) * down));
            }

            above = here;
        }

        return last;
    }

    private static double Along(List<(double X, double Y)> points)
    {
        var sum = 0.0;
        for (var i = 1; i < points.Count; i++)
        {
            sum += Math.Sqrt(
                Math.Pow(points[i].X - points[i - 1].X, 2) + Math.Pow(points[i].Y - points[i - 1].Y, 2)
            );
        }

        return sum;
    }
}
