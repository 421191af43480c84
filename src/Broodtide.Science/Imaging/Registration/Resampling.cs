using System.Numerics;
using System.Runtime.InteropServices;

namespace Broodtide.Science.Imaging.Registration;

/// <summary>
/// A picture seen through a map: what lies between its pixels. Beyond the edge the outermost pixel goes on. Neighbours
/// of a row are mostly neighbours in the picture too, so they are worked out as many at a time as the machine has lanes.
/// </summary>
public static class Resampling
{
    private const int CubicFetches = 24;

    /// <summary>By straight lines between the four pixels around: soft, never above or below them.</summary>
    /// <param name="source">The picture.</param>
    /// <param name="shape">Its shape.</param>
    /// <param name="map">Where a pixel of the target lies in the picture.</param>
    /// <param name="targetShape">The shape that is wanted.</param>
    /// <param name="target">What is seen.</param>
    /// <exception cref="ArgumentException">A grid has another shape.</exception>
    public static void Bilinear(
        ReadOnlySpan<float> source,
        GridShape shape,
        AffineMap map,
        GridShape targetShape,
        Span<float> target
    )
    {
        shape.MustFit(source);
        targetShape.MustFit<float>(target);
        for (var y = 0; y < targetShape.Down; y++)
        {
            BilinearRow(new(source, shape, 0), map, y, 0, targetShape.Row(target, y));
        }
    }

    /// <summary>
    /// By cubics through the sixteen pixels around (Keys 1981, IEEE Trans. Acoust. Speech Signal Process. 29:1153, with
    /// a = -1/2): sharper, exact for parabolas, and a little above or below the pixels at a hard edge.
    /// </summary>
    /// <inheritdoc cref="Bilinear"/>
    public static void Cubic(
        ReadOnlySpan<float> source,
        GridShape shape,
        AffineMap map,
        GridShape targetShape,
        Span<float> target
    )
    {
        shape.MustFit(source);
        targetShape.MustFit<float>(target);
        for (var y = 0; y < targetShape.Down; y++)
        {
            CubicRow(new(source, shape, 0), map, y, 0, targetShape.Row(target, y));
        }
    }

    /// <summary><see cref="Cubic"/> into the same shape, with pauses.</summary>
    internal static IEnumerable<Pause> CubicSteps(
        float[] source,
        GridShape shape,
        AffineMap map,
        float[] target
    )
    {
        foreach (var (from, to) in Bands.Of(shape, CubicFetches))
        {
            for (var y = from; y < to; y++)
            {
                CubicRow(new(source, shape, 0), map, y, 0, shape.Row(target.AsSpan(), y));
            }

            yield return default;
        }
    }

    internal static void BilinearRow(Strip source, AffineMap map, int y, int first, Span<float> target) =>
        Row<Straight>(source, map, y, first, target);

    internal static void CubicRow(Strip source, AffineMap map, int y, int first, Span<float> target) =>
        Row<Keys>(source, map, y, first, target);

    private static void Row<TWay>(Strip source, AffineMap map, int y, int first, Span<float> target)
        where TWay : IWay
    {
        for (var at = 0; at < target.Length; )
        {
            var run = Run.From(map, first + at, y, target.Length - at, source.Picture, TWay.Reach);
            if (run.IsInside)
            {
                TWay.Inside(source, run, target.Slice(at, run.Length));
            }
            else
            {
                target[at] = TWay.AtEdge(source, run);
            }

            at += run.Length;
        }
    }

    // How what lies between pixels is told.
    private interface IWay
    {
        /// <summary>Pixels that are looked at beyond the two next to the place.</summary>
        static abstract int Reach { get; }

        static abstract void Inside(Strip source, Run run, Span<float> target);

        static abstract float AtEdge(Strip source, Run run);
    }

    private readonly struct Straight : IWay
    {
        public static int Reach => 0;

        public static void Inside(Strip source, Run run, Span<float> target) =>
            BilinearRun(
                source.Row(run.Row)[run.Column..],
                source.Row(run.Row + 1)[run.Column..],
                run,
                target
            );

        public static float AtEdge(Strip source, Run run)
        {
            var above = source.Row(run.Row);
            var below = source.Row(run.Row + 1);
            var (left, right) = (source.Column(run.Column), source.Column(run.Column + 1));
            var top = above[left] + (run.Right * (above[right] - above[left]));
            var bottom = below[left] + (run.Right * (below[right] - below[left]));
            return top + (run.Down * (bottom - top));
        }
    }

    private readonly struct Keys : IWay
    {
        public static int Reach => 1;

        public static void Inside(Strip source, Run run, Span<float> target)
        {
            var column = run.Column - 1;
            CubicRun(
                source.Row(run.Row - 1)[column..],
                source.Row(run.Row)[column..],
                source.Row(run.Row + 1)[column..],
                source.Row(run.Row + 2)[column..],
                run,
                target
            );
        }

        public static float AtEdge(Strip source, Run run)
        {
            var a = source.Row(run.Row - 1);
            var b = source.Row(run.Row);
            var c = source.Row(run.Row + 1);
            var d = source.Row(run.Row + 2);
            Span<float> across = stackalloc float[4];
            for (var i = 0; i < 4; i++)
            {
                var column = source.Column(run.Column + i - 1);
                across[i] = Between(a[column], b[column], c[column], d[column], run.Down);
            }

            return Between(across[0], across[1], across[2], across[3], run.Right);
        }
    }

    private static void BilinearRun(
        ReadOnlySpan<float> above,
        ReadOnlySpan<float> below,
        Run run,
        Span<float> target
    )
    {
        var lanes = Vector<float>.Count;
        var at = 0;
        for (; at + lanes <= target.Length; at += lanes)
        {
            var step = Vector<float>.Indices + new Vector<float>(at);
            var right = new Vector<float>(run.Right) + (step * run.RightStep);
            var down = new Vector<float>(run.Down) + (step * run.DownStep);
            var (tl, tr) = (Load(above, at), Load(above, at + 1));
            var (bl, br) = (Load(below, at), Load(below, at + 1));
            var (top, bottom) = (tl + (right * (tr - tl)), bl + (right * (br - bl)));
            (top + (down * (bottom - top))).CopyTo(target[at..]);
        }

        for (; at < target.Length; at++)
        {
            var (right, down) = (run.Right + (at * run.RightStep), run.Down + (at * run.DownStep));
            var top = above[at] + (right * (above[at + 1] - above[at]));
            var bottom = below[at] + (right * (below[at + 1] - below[at]));
            target[at] = top + (down * (bottom - top));
        }
    }

    private static void CubicRun(
        ReadOnlySpan<float> a,
        ReadOnlySpan<float> b,
        ReadOnlySpan<float> c,
        ReadOnlySpan<float> d,
        Run run,
        Span<float> target
    )
    {
        var lanes = Vector<float>.Count;
        var at = 0;
        for (; at + lanes <= target.Length; at += lanes)
        {
            var step = Vector<float>.Indices + new Vector<float>(at);
            var down = Weights(new Vector<float>(run.Down) + (step * run.DownStep));
            var right = Weights(new Vector<float>(run.Right) + (step * run.RightStep));
            var sum =
                right.Before * Column(a, b, c, d, at, down)
                + right.Here * Column(a, b, c, d, at + 1, down)
                + right.Next * Column(a, b, c, d, at + 2, down)
                + right.After * Column(a, b, c, d, at + 3, down);
            sum.CopyTo(target[at..]);
        }

        for (; at < target.Length; at++)
        {
            var (right, down) = (run.Right + (at * run.RightStep), run.Down + (at * run.DownStep));
            target[at] = Between(
                Between(a[at], b[at], c[at], d[at], down),
                Between(a[at + 1], b[at + 1], c[at + 1], d[at + 1], down),
                Between(a[at + 2], b[at + 2], c[at + 2], d[at + 2], down),
                Between(a[at + 3], b[at + 3], c[at + 3], d[at + 3], down),
                right
            );
        }
    }

    private static Vector<float> Column(
        ReadOnlySpan<float> a,
        ReadOnlySpan<float> b,
        ReadOnlySpan<float> c,
        ReadOnlySpan<float> d,
        int at,
        (Vector<float> Before, Vector<float> Here, Vector<float> Next, Vector<float> After) down
    ) =>
        (down.Before * Load(a, at))
        + (down.Here * Load(b, at))
        + (down.Next * Load(c, at))
        + (down.After * Load(d, at));

    private static Vector<float> Load(ReadOnlySpan<float> row, int at) =>
        MemoryMarshal.Read<Vector<float>>(MemoryMarshal.AsBytes(row[at..]));

    // Equation 15 of Keys 1981 for the four pixels around, t of the way from the second to the third.
    private static (
        Vector<float> Before,
        Vector<float> Here,
        Vector<float> Next,
        Vector<float> After
    ) Weights(Vector<float> t)
    {
        var (half, one) = (new Vector<float>(0.5f), Vector<float>.One);
        var left = one - t;
        var before = -half * t * left * left;
        var after = -half * t * t * left;
        var next = t * t * (new Vector<float>(2f) - (t * 1.5f)) + (half * t);
        return (before, one - before - next - after, next, after);
    }

    private static float Between(float before, float here, float next, float after, float t)
    {
        var left = 1 - t;
        var (first, last) = (-0.5f * t * left * left, -0.5f * t * t * left);
        var third = (t * t * (2 - (t * 1.5f))) + (0.5f * t);
        return (first * before) + ((1 - first - third - last) * here) + (third * next) + (last * after);
    }
}
