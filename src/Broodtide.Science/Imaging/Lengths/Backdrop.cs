using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Imaging.Lengths;

/// <summary>The light behind a thing: a bowl (second order) through what is no thing, fitted again without what strays.</summary>
internal static class Backdrop
{
    private const int Rounds = 8;
    private const double Stray = 2.5;
    private const int Samples = 4_000;

    public static float[] TakenOff(float[] picture, GridShape shape)
    {
        var step = Math.Max(1, (int)Math.Sqrt(shape.Count / (double)Samples));
        var places = new List<(double X, double Y, double Value)>();
        for (var y = step / 2; y < shape.Down; y += step)
        {
            for (var x = step / 2; x < shape.Across; x += step)
            {
                places.Add((At(x, shape.Across), At(y, shape.Down), picture[(y * shape.Across) + x]));
            }
        }

        // From a level the median gives, then ever closer.
        var middle = places.Select(place => place.Value).Order().ElementAt(places.Count / 2);
        var bowl = Vector<double>.Build.Dense([middle, 0, 0, 0, 0, 0]);
        for (var round = 0; round < Rounds; round++)
        {
            var off = places.Select(place => Math.Abs(place.Value - Height(bowl, place.X, place.Y))).ToList();
            var usual = Math.Max(0.5, off.Order().ElementAt(off.Count / 2) / 0.6745);
            var kept = places.Where((_, i) => off[i] <= Stray * usual).ToList();
            if (kept.Count < 12)
            {
                break;
            }

            var rows = Matrix<double>.Build.DenseOfRows(kept.Select(place => Terms(place.X, place.Y)));
            var values = Vector<double>.Build.DenseOfEnumerable(kept.Select(place => place.Value));
            bowl = rows.TransposeThisAndMultiply(rows)
                .Cholesky()
                .Solve(rows.TransposeThisAndMultiply(values));
        }

        var level = new float[picture.Length];
        for (var i = 0; i < level.Length; i++)
        {
            var (y, x) = Math.DivRem(i, shape.Across);
            level[i] = (float)(picture[i] - Height(bowl, At(x, shape.Across), At(y, shape.Down)));
        }

        return level;
    }

    private static double At(int pixel, int length) => (2.0 * pixel / Math.Max(1, length - 1)) - 1;

    private static double[] Terms(double x, double y) => [1, x, y, x * x, x * y, y * y];

    private static double Height(Vector<double> bowl, double x, double y) =>
        bowl[0] + (bowl[1] * x) + (bowl[2] * y) + (bowl[3] * x * x) + (bowl[4] * x * y) + (bowl[5] * y * y);
}
