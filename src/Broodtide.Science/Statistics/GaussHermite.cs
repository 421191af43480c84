namespace Broodtide.Science.Statistics;

/// <summary>
/// Gauss-Hermite points and weights for integrals over exp(-x^2), found as roots of the orthonormal Hermite
/// polynomials by Newton's method (Abramowitz and Stegun 1964, formulas 22.7 and 25.4.46).
/// </summary>
internal static class GaussHermite
{
    private const int NewtonSteps = 100;
    private const double Tolerance = 1e-15;

    /// <summary>The points in ascending order with their weights.</summary>
    /// <param name="points">How many, 1 to 100.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    internal static (double Point, double Weight)[] Rule(int points)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(points, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(points, 100);
        var rule = new (double Point, double Weight)[points];
        // Roots of neighbouring orders lie between each other: those of one order are searched between the last ones.
        double[] roots = [];
        for (var order = 1; order <= points; order++)
        {
            var edge = Math.Sqrt((2.0 * order) + 1);
            double[] fences = [-edge, .. roots, edge];
            roots = [.. Enumerable.Range(0, order).Select(i => RootBetween(order, fences[i], fences[i + 1]))];
        }

        for (var i = 0; i < points; i++)
        {
            var slope = Slope(points, roots[i]);
            rule[i] = (roots[i], 2 / (slope * slope));
        }

        return rule;
    }

    private static double RootBetween(int order, double low, double high)
    {
        var lowSign = Math.Sign(Value(order, low));
        var x = (low + high) / 2;
        for (var step = 0; step < NewtonSteps; step++)
        {
            var value = Value(order, x);
            (low, high) = Math.Sign(value) == lowSign ? (x, high) : (low, x);
            var next = x - (value / Slope(order, x));
            next = next > low && next < high ? next : (low + high) / 2;
            if (Math.Abs(next - x) <= Tolerance * (1 + Math.Abs(x)))
            {
                return next;
            }

            x = next;
        }

        return x;
    }

    // h_n' = sqrt(2 n) h_(n-1).
    private static double Slope(int order, double x) => Math.Sqrt(2.0 * order) * Value(order - 1, x);

    // h_0 = pi^(-1/4); h_n = x sqrt(2/n) h_(n-1) - sqrt((n-1)/n) h_(n-2).
    private static double Value(int order, double x)
    {
        var (before, value) = (0.0, Math.Pow(Math.PI, -0.25));
        for (var n = 1; n <= order; n++)
        {
            (before, value) = (value, (x * Math.Sqrt(2.0 / n) * value) - (Math.Sqrt((n - 1.0) / n) * before));
        }

        return value;
    }
}
