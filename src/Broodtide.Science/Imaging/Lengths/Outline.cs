using Broodtide.Units;

namespace Broodtide.Science.Imaging.Lengths;

/// <summary>One thing of a picture, told from its ground at half of its contrast.</summary>
/// <param name="Marked">Its pixels, holes filled, hairs taken off.</param>
/// <param name="Raised">How far each pixel stands out from the ground, the thing above it; half of its contrast is 0.</param>
/// <param name="Shape">The shape of both.</param>
/// <param name="Factor">Pixels of the picture to one of these.</param>
/// <param name="EdgePixels">How wide its edge is blurred, one standard deviation, in these pixels.</param>
/// <param name="Alike">How many others are at least half as large.</param>
internal sealed record Outline(
    byte[] Marked,
    float[] Raised,
    GridShape Shape,
    int Factor,
    double EdgePixels,
    int Alike
)
{
    private const int LongestSide = 1_200;
    private const double NoiseLevels = 5;
    private const double HairShare = 0.2;

    /// <summary>With pauses: the last is the answer.</summary>
    public static IEnumerable<Parsed<Outline>?> Steps(float[] grey, GridShape shape, (double X, double Y)? at)
    {
        var (picture, factor) = (grey, 1);
        while (Math.Max(shape.Across, shape.Down) > LongestSide)
        {
            var half = new float[shape.Halved().Count];
            Pyramid.Reduce(picture, shape, half);
            (picture, shape, factor) = (half, shape.Halved(), factor * 2);
        }

        yield return null;
        var level = Backdrop.TakenOff(picture, shape);
        yield return null;
        var soft = new float[shape.Count];
        foreach (var _ in Blur.GaussianSteps(level, shape, 1, soft))
        {
            yield return null;
        }

        var noise = Math.Max(0.4, Levels.Quantile(Array.ConvertAll(soft, Math.Abs), 0.5) / 0.6745);
        yield return null;
        var things = new List<Thing>();
        foreach (var sign in new[] { 1, -1 })
        {
            things.AddRange(Things(soft, shape, NoiseLevels * noise, sign));
            yield return null;
        }

        if (things.Count == 0)
        {
            yield return Parsed<Outline>.No("nothing-stands-out");
            yield break;
        }

        var tapped = at is { } place
            ? (X: place.X / factor, Y: place.Y / factor)
            : ((double X, double Y)?)null;
        var chosen = tapped is { } tap
            ? things
                .Where(thing => thing.Holds(tap, shape))
                .OrderByDescending(thing => thing.Weight)
                .FirstOrDefault()
            : things.MaxBy(thing => thing.Weight);
        if (chosen is null)
        {
            yield return Parsed<Outline>.No("no-larva-there");
            yield break;
        }

        Outline? whole = null;
        foreach (var step in Whole(chosen, soft, shape))
        {
            whole = step;
            yield return null;
        }

        yield return whole is { } outline
            ? Parsed<Outline>.Of(
                outline with
                {
                    Factor = factor,
                    Alike = tapped is null ? things.Count(thing => thing.Area >= chosen.Area / 2) - 1 : 0,
                }
            )
            : Parsed<Outline>.No("larva-cut-off");
    }

    private static List<Thing> Things(float[] soft, GridShape shape, double level, int sign)
    {
        var things = new List<Thing>();
        var marked = Array.ConvertAll(soft, value => (byte)(sign * value > level ? 1 : 0));
        var labels = new int[shape.Count];
        var count = Components.Label(marked, shape, labels);
        var (weights, areas) = (new double[count + 1], new int[count + 1]);
        for (var i = 0; i < labels.Length; i++)
        {
            weights[labels[i]] += Math.Abs(soft[i]);
            areas[labels[i]]++;
        }

        for (var label = 1; label <= count; label++)
        {
            if (areas[label] >= 30)
            {
                things.Add(new(labels, label, sign, areas[label], weights[label]));
            }
        }

        return things;
    }

    // Anew at half of this thing's own contrast, so that its edge lies where the blurred edge is half as bright. None
    // where it reaches the edge of the picture.
    private static IEnumerable<Outline?> Whole(Thing thing, float[] soft, GridShape shape)
    {
        var own = new List<float>();
        for (var i = 0; i < soft.Length; i++)
        {
            if (thing.Labels[i] == thing.Label)
            {
                own.Add(thing.Sign * soft[i]);
            }
        }

        own.Sort();
        var half = own[own.Count * 6 / 10] / 2;
        var raised = Array.ConvertAll(soft, value => (thing.Sign * value) - half);
        var marked = Array.ConvertAll(raised, value => (byte)(value > 0 ? 1 : 0));
        yield return null;
        Kept(marked, shape, thing);
        yield return null;
        Filled(marked, raised, shape, half);
        yield return null;
        var distance = new float[shape.Count];
        Distance.Transform(marked, shape, distance);
        var thick = distance.Where(float.IsFinite).DefaultIfEmpty(0).Max();
        yield return null;
        if (thick < 1)
        {
            yield break;
        }

        Shaved(marked, shape, (int)Math.Round(HairShare * thick));
        yield return null;
        Kept(marked, shape, thing);
        yield return null;
        for (var i = 0; i < marked.Length; i++)
        {
            var (y, x) = Math.DivRem(i, shape.Across);
            if (marked[i] != 0 && (x == 0 || y == 0 || x == shape.Across - 1 || y == shape.Down - 1))
            {
                yield break;
            }
        }

        yield return new(marked, raised, shape, 1, Edge(raised, marked, shape, half), 0);
    }

    // Of what is marked only the part that shares most with the thing stays.
    private static void Kept(byte[] marked, GridShape shape, Thing thing)
    {
        var labels = new int[shape.Count];
        var shared = new int[Components.Label(marked, shape, labels) + 1];
        for (var i = 0; i < labels.Length; i++)
        {
            shared[labels[i]] += thing.Labels[i] == thing.Label && labels[i] > 0 ? 1 : 0;
        }

        var best = Array.IndexOf(shared, shared.Max());
        for (var i = 0; i < labels.Length; i++)
        {
            marked[i] = labels[i] == best && best > 0 ? (byte)1 : (byte)0;
        }
    }

    // An eye or a gut of another shade is a hole; it is as much of the thing as the rest.
    private static void Filled(byte[] marked, float[] raised, GridShape shape, float half)
    {
        var labels = new int[shape.Count];
        var count = Components.Label(Array.ConvertAll(marked, value => (byte)(1 - value)), shape, labels);
        var holes = Components.Measure(labels, shape, count);
        for (var i = 0; i < marked.Length; i++)
        {
            if (labels[i] > 0 && !holes[labels[i] - 1].TouchesEdge)
            {
                (marked[i], raised[i]) = (1, half);
            }
        }
    }

    // Opened by a disc: what is thinner goes.
    private static void Shaved(byte[] marked, GridShape shape, int radius)
    {
        if (radius < 1)
        {
            return;
        }

        var distance = new float[shape.Count];
        Distance.Transform(marked, shape, distance);
        var core = Array.ConvertAll(distance, value => (byte)(value > radius ? 0 : 1));
        Distance.Transform(core, shape, distance);
        for (var i = 0; i < marked.Length; i++)
        {
            marked[i] = marked[i] != 0 && distance[i] <= radius + 0.5f ? (byte)1 : (byte)0;
        }
    }

    // A Gaussian edge falls by its height over 2.5066 standard deviations where it is steepest.
    private static double Edge(float[] raised, byte[] marked, GridShape shape, double half)
    {
        var slopes = new List<double>();
        for (var y = 1; y < shape.Down - 1; y++)
        {
            for (var x = 1; x < shape.Across - 1; x++)
            {
                var at = (y * shape.Across) + x;
                if (
                    marked[at] != 0
                    && (
                        marked[at - 1] == 0
                        || marked[at + 1] == 0
                        || marked[at - shape.Across] == 0
                        || marked[at + shape.Across] == 0
                    )
                )
                {
                    var (right, down) = (
                        raised[at + 1] - raised[at - 1],
                        raised[at + shape.Across] - raised[at - shape.Across]
                    );
                    slopes.Add(Math.Sqrt((right * right) + (down * down)) / 2);
                }
            }
        }

        slopes.Sort();
        return slopes.Count == 0 || slopes[slopes.Count / 2] <= 0
            ? 1
            : 2 * half / (slopes[slopes.Count / 2] * Math.Sqrt(2 * Math.PI));
    }

    private sealed record Thing(int[] Labels, int Label, int Sign, int Area, double Weight)
    {
        // A finger hits the thing or lies within six pixels of it.
        public bool Holds((double X, double Y) tap, GridShape shape)
        {
            for (var y = Math.Max(0, (int)tap.Y - 6); y <= Math.Min(shape.Down - 1, (int)tap.Y + 6); y++)
            {
                for (
                    var x = Math.Max(0, (int)tap.X - 6);
                    x <= Math.Min(shape.Across - 1, (int)tap.X + 6);
                    x++
                )
                {
                    if (Labels[(y * shape.Across) + x] == Label)
                    {
                        return true;
                    }
                }
            }

            return false;
        }
    }
}
