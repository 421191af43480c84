using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Imaging.Registration;

/// <summary>What a frame differs by under a map: the correlation, and which way the reference would have to move.</summary>
internal sealed record Compared(double Correlation, double[] Pull);

/// <summary>One level of the reference with its slopes, and what they say together about a movement.</summary>
internal sealed class ReferenceLevel
{
    // A quarter of the picture at least must be seen in both.
    private const double LeastShared = 0.25;

    // In squared levels of 0 to 255: what the rounding of a flat picture leaves is far below.
    private const double LeastTexture = 1e-4;

    // About how many values a pixel costs in either half of a comparison.
    private const int SeenFetches = 30;
    private const int PullFetches = 16;

    private readonly Textured _texture;
    private readonly float[] _right;
    private readonly float[] _down;
    private readonly float[] _columns;
    private readonly float[] _seen;
    private readonly float[] _left;
    private readonly (int Across, int Down) _edge;
    private readonly Matrix<double> _free;
    private readonly Matrix<double> _curve;

    public ReferenceLevel(Textured texture, Movement movement)
    {
        _texture = texture;
        _edge = (Edge(Shape.Across), Edge(Shape.Down));
        (_right, _down) = (new float[Shape.Count], new float[Shape.Count]);
        (_columns, _seen, _left) = (new float[Shape.Across], new float[Shape.Count], new float[Shape.Across]);
        for (var x = 0; x < Shape.Across; x++)
        {
            _columns[x] = (float)Along(x);
        }

        for (var y = 0; y < Shape.Down; y++)
        {
            Slopes(y);
        }

        _free = Free(movement);
        _curve = _free.TransposeThisAndMultiply(Curve()).Multiply(_free);
    }

    public GridShape Shape => _texture.Shape;

    /// <summary>The map, or the shift that phase correlation tells where the frames agree better under that.</summary>
    public AffineMap Nearer(float[] frame, AffineMap map)
    {
        var shift = PhaseCorrelation.Between(_texture.Grid, frame, Shape);
        var other = AffineMap.Identity with { X = shift.X, Y = shift.Y };
        return Compare(frame, other).Correlation > Compare(frame, map).Correlation ? other : map;
    }

    /// <summary>The frame under a map.</summary>
    public Compared Compare(float[] frame, AffineMap map) => Comparing(frame, map).Last();

    /// <summary>The same with pauses: the last is the answer, those before it are nothing.</summary>
    public IEnumerable<Compared> Comparing(float[] frame, AffineMap map)
    {
        var nothing = new Compared(-1, new double[6]);
        var (n, f, g, ff, gg, fg) = (0, 0.0, 0.0, 0.0, 0.0, 0.0);
        foreach (var (first, after) in Bands.Of(Shape, SeenFetches))
        {
            for (var y = first; y < after; y++)
            {
                var (from, to) = Shared(map, y);
                var here = Part(_texture.Grid, y, from, to);
                var there = Part(_seen, y, from, to);
                Resampling.CubicRow(new(frame, Shape, 0), map, y, from, there);
                n += here.Length;
                (f, g) = (f + Lanes.Sum(here), g + Lanes.Sum(there));
                (ff, gg, fg) = (
                    ff + Lanes.Dot(here, here),
                    gg + Lanes.Dot(there, there),
                    fg + Lanes.Dot(here, there)
                );
            }

            yield return nothing;
        }

        if (n < LeastShared * Shape.Count)
        {
            yield return nothing;
            yield break;
        }

        (ff, gg, fg) = (ff - (f * f / n), gg - (g * g / n), fg - (f * g / n));
        if (ff < LeastTexture * n || gg < LeastTexture * n)
        {
            yield return new(0, new double[6]);
            yield break;
        }

        var contrast = Math.Sqrt(ff / gg);
        var (scale, level) = ((float)contrast, (float)((f - (contrast * g)) / n));
        var pull = new double[6];
        foreach (var (first, after) in Bands.Of(Shape, PullFetches))
        {
            yield return nothing;
            Pull(map, scale, level, first, after, pull);
        }

        yield return new(fg / Math.Sqrt(ff * gg), pull);
    }

    /// <summary>The map after one correction.</summary>
    public AffineMap Corrected(Compared compared, AffineMap map)
    {
        var pull = _free.TransposeThisAndMultiply(Vector<double>.Build.DenseOfArray(compared.Pull));
        var p = _free * _curve.Solve(pull);
        // The reference would have to move by this; the frame moves the other way.
        if (!p.All(double.IsFinite) || p.AbsoluteMaximum() > Math.Max(Shape.Across, Shape.Down))
        {
            return map;
        }

        var (unit, x, y) = (Unit, Middle(Shape.Across), Middle(Shape.Down));
        var (a, b, c, d) = (1 + (p[1] / unit), p[2] / unit, p[4] / unit, 1 + (p[5] / unit));
        var moved = new AffineMap(a, b, p[0] + x - (a * x) - (b * y), c, d, p[3] + y - (c * x) - (d * y));
        return Math.Abs((a * d) - (b * c)) < 0.1 ? map : map.After(moved.Back());
    }

    // What is left of the frame beside the reference, against the slopes: shift, along and down the picture.
    private void Pull(AffineMap map, float contrast, float level, int first, int after, double[] pull)
    {
        for (var y = first; y < after; y++)
        {
            var (from, to) = Shared(map, y);
            var left = _left.AsSpan(0, to - from);
            Lanes.Scale(Part(_seen, y, from, to), contrast, left);
            Lanes.Subtract(left, Part(_texture.Grid, y, from, to), left);
            Lanes.Add(left, level, left);
            var columns = _columns.AsSpan(from, to - from);
            var down = Along(y, Shape.Down);
            var right = Lanes.Dot(left, Part(_right, y, from, to));
            pull[0] += right;
            pull[1] += Lanes.Dot(left, Part(_right, y, from, to), columns);
            pull[2] += right * down;
            var below = Lanes.Dot(left, Part(_down, y, from, to));
            pull[3] += below;
            pull[4] += Lanes.Dot(left, Part(_down, y, from, to), columns);
            pull[5] += below * down;
        }
    }

    private double Unit => Math.Max(Shape.Across, Shape.Down) / 2.0;

    private double Along(int x) => Along(x, Shape.Across);

    private double Along(int at, int length) => (at - Middle(length)) / Unit;

    private static double Middle(int length) => (length - 1) / 2.0;

    private Span<float> Part(float[] grid, int y, int from, int to) =>
        grid.AsSpan((y * Shape.Across) + from, to - from);

    // The pixels of a row that are seen in the frame too.
    private (int From, int To) Shared(AffineMap map, int y)
    {
        if (y < _edge.Down || y >= Shape.Down - _edge.Down)
        {
            return (0, 0);
        }

        var (u, v) = map.At(0, y);
        var (from, to) = Within(u, map.A, Shape.Across, (_edge.Across, Shape.Across - 1.0 - _edge.Across));
        (from, to) = Within(v, map.C, Shape.Down, (from, to));
        return to < from ? (0, 0) : ((int)Math.Ceiling(from), (int)Math.Floor(to) + 1);
    }

    private static (double From, double To) Within(
        double at,
        double step,
        int length,
        (double From, double To) range
    )
    {
        var edge = Edge(length);
        var (low, high) = (edge - at, length - 1 - edge - at);
        if (Math.Abs(step) < 1e-12)
        {
            return low <= 0 && high >= 0 ? range : (range.From, range.From - 1);
        }

        var (a, b) = step > 0 ? (low / step, high / step) : (high / step, low / step);
        return (Math.Max(range.From, a), Math.Min(range.To, b));
    }

    // What is near the edge was blurred together with what stood in for the outside.
    private static int Edge(int length) => Math.Clamp(length / 8, 1, Textured.Reach);

    private void Slopes(int y)
    {
        var row = Shape.Row<float>(_texture.Grid, y);
        var above = Shape.Row<float>(_texture.Grid, Math.Max(0, y - 1));
        var below = Shape.Row<float>(_texture.Grid, Math.Min(Shape.Down - 1, y + 1));
        var right = Shape.Row(_right.AsSpan(), y);
        var down = Shape.Row(_down.AsSpan(), y);
        Lanes.Subtract(below, above, down);
        Lanes.Scale(down, 0.5f, down);
        for (var x = 1; x < row.Length - 1; x++)
        {
            right[x] = (row[x + 1] - row[x - 1]) / 2;
        }
    }

    private Matrix<double> Curve()
    {
        var curve = Matrix<double>.Build.Dense(6, 6);
        var squares = new float[Shape.Across];
        Lanes.Multiply(_columns, _columns, squares);
        for (var y = _edge.Down; y < Shape.Down - _edge.Down; y++)
        {
            var down = Along(y, Shape.Down);
            var u = Part(_right, y, _edge.Across, Shape.Across - _edge.Across);
            var v = Part(_down, y, _edge.Across, Shape.Across - _edge.Across);
            Block(curve, (0, 0), Moments(u, u, squares), down);
            Block(curve, (0, 3), Moments(u, v, squares), down);
            Block(curve, (3, 3), Moments(v, v, squares), down);
        }

        for (var i = 0; i < 6; i++)
        {
            for (var j = 0; j < i; j++)
            {
                curve[i, j] = curve[j, i];
            }

            // Where there is no slope at all nothing is known and nothing moves.
            curve[i, i] += 1e-6;
        }

        return curve;
    }

    private (double One, double X, double Square) Moments(
        ReadOnlySpan<float> one,
        ReadOnlySpan<float> other,
        float[] squares
    ) =>
        (
            Lanes.Dot(one, other),
            Lanes.Dot(one, other, _columns.AsSpan(_edge.Across)),
            Lanes.Dot(one, other, squares.AsSpan(_edge.Across))
        );

    private static void Block(
        Matrix<double> curve,
        (int Row, int Column) at,
        (double One, double X, double Square) sum,
        double y
    )
    {
        double[,] block =
        {
            { sum.One, sum.X, sum.One * y },
            { sum.X, sum.Square, sum.X * y },
            { sum.One * y, sum.X * y, sum.One * y * y },
        };
        for (var i = 0; i < 3; i++)
        {
            for (var j = 0; j < 3; j++)
            {
                curve[at.Row + i, at.Column + j] += block[i, j];
            }
        }
    }

    // Which of the six numbers are free, in this order: shift right, right for right, right for down, shift down, down
    // for right, down for down.
    private static Matrix<double> Free(Movement movement) =>
        movement switch
        {
            Movement.Shift => Matrix<double>.Build.DenseOfColumnArrays(
                [1, 0, 0, 0, 0, 0],
                [0, 0, 0, 1, 0, 0]
            ),
            Movement.Similarity => Matrix<double>.Build.DenseOfColumnArrays(
                [1, 0, 0, 0, 0, 0],
                [0, 0, 0, 1, 0, 0],
                [0, 1, 0, 0, 0, 1],
                [0, 0, -1, 0, 1, 0]
            ),
            Movement.Affine => Matrix<double>.Build.DenseIdentity(6),
            _ => throw new ArgumentOutOfRangeException(nameof(movement)),
        };
}
