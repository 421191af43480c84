namespace Broodtide.Science.Development;

/// <summary>
/// Gauss-Hermite points and weights for a normal distribution (Abramowitz and Stegun, table 25.10, scaled).
/// </summary>
internal static class Quadrature
{
    /// <summary>Three or five points; one where the standard deviation is zero.</summary>
    internal static (double Value, double Weight)[] Normal(double mean, double sd, int points)
    {
        if (sd <= 0)
        {
            return [(mean, 1)];
        }

        (double Z, double Weight)[] rule =
            points == 3
                ? [(-Math.Sqrt(3), 1 / 6.0), (0, 2 / 3.0), (Math.Sqrt(3), 1 / 6.0)]
                :
                [
                    (-2.8569700138728056, 0.011257411327720689),
                    (-1.3556261799742659, 0.22207592200561264),
                    (0, 0.53333333333333333),
                    (1.3556261799742659, 0.22207592200561264),
                    (2.8569700138728056, 0.011257411327720689),
                ];
        return [.. rule.Select(point => (mean + (sd * point.Z), point.Weight))];
    }
}
