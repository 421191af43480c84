using Broodtide.Science.Imaging.Registration;
using Broodtide.Units;

namespace Broodtide.Science.Imaging.Spots;

/// <summary>
/// How a better picture would be taken, from the picture looked at (its longer side at most 1,600 pixels) and what was found
/// in it. Where advice begins is our choice throughout.
/// </summary>
internal static class Advice
{
    // Pixels of a thing: below it fine ones are lost.
    private const double SmallArea = 50;

    // A thing longer than this share of the shorter side: most of the water is outside the picture.
    private const double LargeShare = 1 / 5.0;

    // Out of focus: a thing fades over more pixels than this, and over much of half its own width.
    private const double WideEdge = 7;
    private const double OfHalfWidth = 0.6;

    // Smeared: the edges of so many things and more face one way. Things that lie anyhow reach 0.2 by chance.
    private const int FewestSmeared = 8;
    private const double OneWay = 0.4;

    // A hand that moves by more of the longer side between frames.
    private const double MostShaken = 0.015;

    // Things that are looked at closely: so many tell enough.
    private const int MostThings = 200;

    /// <summary>What is said where the light burns so much white.</summary>
    public static Remark CoreTooBright(double share) =>
        new("core-too-bright", new Argument("whitePercent", Math.Round(100 * share)));

    /// <summary>Too far, too near, out of focus or smeared.</summary>
    public static IEnumerable<Remark> Of(float[] grid, GridShape shape, IReadOnlyList<Region> things)
    {
        if (things.Count == 0)
        {
            yield break;
        }

        var area = Middle(things.Select(thing => (double)thing.Area));
        if (area < SmallArea)
        {
            yield return new("things-too-small", new Argument("areaPixels", Math.Round(area)));
        }

        // Four standard deviations are the length of an ellipse.
        var length = 4 * Middle(things.Select(thing => thing.LongSigma));
        if (length > LargeShare * Math.Min(shape.Across, shape.Down))
        {
            yield return new(
                "things-too-large",
                new Argument("sharePercent", Math.Round(100 * length / Math.Min(shape.Across, shape.Down)))
            );
        }

        var seen = things.Take(MostThings).Select(thing => Edge.Of(grid, shape, thing)).ToList();
        var width = Middle(seen.Select(edge => edge.Width));
        if (width > WideEdge && width > OfHalfWidth * Middle(things.Select(thing => 2 * thing.ShortSigma)))
        {
            yield return new("picture-out-of-focus", new Argument("edgePixels", Math.Round(width)));
        }

        if (seen.Count >= FewestSmeared && OneSided(seen) > OneWay)
        {
            yield return new("picture-smeared", new Argument("things", seen.Count));
        }
    }

    /// <summary>How far the camera moved between frames, where that is much.</summary>
    public static Remark? Shaken(IReadOnlyList<AffineMap> frames, GridShape shape)
    {
        var (x, y) = (shape.Across / 2.0, shape.Down / 2.0);
        var moved = frames
            .Select(map => map.At(x, y))
            .Max(at => Math.Sqrt(Math.Pow(at.X - x, 2) + Math.Pow(at.Y - y, 2)));
        var share = moved / Math.Max(shape.Across, shape.Down);
        return share > MostShaken
            ? new("camera-shook", new Argument("sharePercent", Math.Round(100 * share, 1)))
            : null;
    }

    // Each thing says which way its brightness changes, as a direction without a sign; the length of their mean.
    private static double OneSided(List<Edge> edges)
    {
        var (across, aslant) = (edges.Average(edge => edge.Across), edges.Average(edge => edge.Aslant));
        return Math.Sqrt((across * across) + (aslant * aslant));
    }

    private static double Middle(IEnumerable<double> values)
    {
        var sorted = values.Order().ToList();
        return sorted[sorted.Count / 2];
    }

    /// <summary>How a thing ends.</summary>
    /// <param name="Width">Its height above what is about it over its steepest slope: pixels over which it fades.</param>
    /// <param name="Across">How far its slopes go across rather than down, -1 to 1.</param>
    /// <param name="Aslant">How far they go along one diagonal rather than the other, -1 to 1.</param>
    private readonly record struct Edge(double Width, double Across, double Aslant)
    {
        public static Edge Of(float[] grid, GridShape shape, Region thing)
        {
            var reach = (int)Math.Ceiling(4 * thing.LongSigma) + 3;
            var (x, y) = ((int)Math.Round(thing.CentreX), (int)Math.Round(thing.CentreY));
            var (low, high, steepest) = (float.MaxValue, float.MinValue, 0.0);
            var (across, down, both) = (0.0, 0.0, 0.0);
            for (var v = Math.Max(1, y - reach); v <= Math.Min(shape.Down - 2, y + reach); v++)
            {
                for (var u = Math.Max(1, x - reach); u <= Math.Min(shape.Across - 2, x + reach); u++)
                {
                    var at = (v * shape.Across) + u;
                    var here = Mean(grid, shape, at);
                    (low, high) = (Math.Min(low, here), Math.Max(high, here));
                    var (right, below) = (Slope(grid, at, 1, shape.Across), Slope(grid, at, shape.Across, 1));
                    across += right * right;
                    down += below * below;
                    both += right * below;
                    steepest = Math.Max(steepest, Math.Sqrt((right * right) + (below * below)));
                }
            }

            var all = across + down;
            return all > 0
                ? new((high - low) / Math.Max(1e-9, steepest), (across - down) / all, 2 * both / all)
                : new(0, 0, 0);
        }

        private static float Mean(float[] grid, GridShape shape, int at)
        {
            var sum = 0f;
            for (var row = at - shape.Across; row <= at + shape.Across; row += shape.Across)
            {
                sum += grid[row - 1] + grid[row] + grid[row + 1];
            }

            return sum / 9;
        }

        // The mean change from pixel to pixel over three lines that lie side by side.
        private static double Slope(float[] grid, int at, int step, int beside)
        {
            var sum = 0f;
            for (var line = at - beside; line <= at + beside; line += beside)
            {
                sum += grid[line + step] - grid[line - step];
            }

            return sum / 6;
        }
    }
}
