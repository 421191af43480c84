using MathNet.Numerics.RootFinding;

namespace Broodtide.Science.Water;

/// <summary>
/// The continuation of PSS-78 below S = 2.
/// Source: Hill, Dauphinee and Woods 1986, IEEE J. Ocean. Eng. 11:109, with the factor of the TEOS-10 library GSW-C
/// (2 divided by the low branch at S = 2) that makes both branches meet exactly.
/// </summary>
internal static class LowSalinity
{
    /// <summary>Practical salinity where the branches meet.</summary>
    public const double Join = 2;

    /// <summary>Between these the root for S = 2 is sought.</summary>
    public const double LowestRoot = 0.05;

    /// <inheritdoc cref="LowestRoot"/>
    public const double HighestRoot = 1;

    /// <summary>The low branch without its factor.</summary>
    /// <param name="pss">PSS-78 value for the same x.</param>
    /// <param name="x">sqrt(R_t).</param>
    /// <param name="warmth">(t - 15) / (1 + k (t - 15)).</param>
    public static double Corrected(double pss, double x, double warmth) =>
        pss - (Pss78.A0 / PartA(400 * x * x)) - (Pss78.B0 * warmth / PartB(10 * x));

    /// <summary>The slope by x that the correction adds to that of PSS-78.</summary>
    public static double CorrectionSlope(double x, double warmth)
    {
        var bigX = 400 * x * x;
        var rootY = 10 * x;
        var partA = PartA(bigX);
        var partB = PartB(rootY);
        var slopeA = 800 * x * (1.5 + (2 * bigX));
        var slopeB = 10 * (1 + (2 * rootY) + (3 * rootY * rootY));
        return (Pss78.A0 * slopeA / (partA * partA)) + (Pss78.B0 * warmth * slopeB / (partB * partB));
    }

    /// <summary>
    /// The factor that joins the branches at a temperature, within 0.0002 of 1 at 0 to 35 degC; NaN where they do not
    /// meet, far outside.
    /// </summary>
    public static double FactorAt(double t68) =>
        RobustNewtonRaphson.TryFindRoot(
            root => PracticalSalinity.Pss(root, t68) - Join,
            root => PracticalSalinity.PssSlope(root, t68),
            LowestRoot,
            HighestRoot,
            1e-12,
            100,
            20,
            out var x
        )
            ? Join / Corrected(Join, x, PracticalSalinity.Warmth(t68))
            : double.NaN;

    private static double PartA(double bigX) => 1 + (bigX * (1.5 + bigX));

    private static double PartB(double rootY) => 1 + (rootY * (1 + (rootY * (1 + rootY))));
}
