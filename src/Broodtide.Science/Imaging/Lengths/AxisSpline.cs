using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Imaging.Lengths;

/// <summary>
/// A cubic B-spline of few even stretches nearest to a chain of places (least squares; de Boor 1978, A Practical Guide to
/// Splines, chapter XIV). A chain of pixels is up to 8 % longer than what it was drawn from.
/// </summary>
internal static class AxisSpline
{
    /// <summary>The spline, drawn in places about a pixel apart.</summary>
    public static List<(double X, double Y)> Through(List<(double X, double Y)> places, int stretches)
    {
        var along = new double[places.Count];
        for (var i = 1; i < places.Count; i++)
        {
            along[i] =
                along[i - 1]
                + Math.Sqrt(
                    Math.Pow(places[i].X - places[i - 1].X, 2) + Math.Pow(places[i].Y - places[i - 1].Y, 2)
                );
        }

        var whole = along[^1];
        var rows = Matrix<double>.Build.Dense(places.Count, stretches + 3);
        for (var i = 0; i < places.Count; i++)
        {
            rows.SetRow(i, Row(along[i] / whole * stretches, stretches));
        }

        var normal = rows.TransposeThisAndMultiply(rows);
        // Hardly felt; keeps a stretch in which no place lies from being anything at all.
        var firm = normal + (Matrix<double>.Build.DenseIdentity(stretches + 3) * 1e-6);
        var solver = firm.Cholesky();
        var x = solver.Solve(
            rows.TransposeThisAndMultiply(Vector<double>.Build.Dense([.. places.Select(p => p.X)]))
        );
        var y = solver.Solve(
            rows.TransposeThisAndMultiply(Vector<double>.Build.Dense([.. places.Select(p => p.Y)]))
        );
        var drawn = new List<(double, double)>();
        var count = Math.Max(8, (int)Math.Round(whole));
        for (var i = 0; i <= count; i++)
        {
            var row = Vector<double>.Build.Dense(Row((double)i / count * stretches, stretches));
            drawn.Add((row * x, row * y));
        }

        return drawn;
    }

    // The four that are not zero, of a uniform cubic B-spline.
    private static double[] Row(double at, int stretches)
    {
        var row = new double[stretches + 3];
        var first = Math.Min((int)at, stretches - 1);
        var t = at - first;
        row[first] = Math.Pow(1 - t, 3) / 6;
        row[first + 1] = ((3 * t * t * t) - (6 * t * t) + 4) / 6;
        row[first + 2] = ((-3 * t * t * t) + (3 * t * t) + (3 * t) + 1) / 6;
        row[first + 3] = t * t * t / 6;
        return row;
    }
}
