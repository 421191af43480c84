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

    private const double A0 = 0.0080;
    private const double B0 = 0.0005;

    /// <summary>The low branch without its factor.</summary>
    /// <param name="pss">PSS-78 value for the same x.</param>
    /// <param name="x">sqrt(R_t).</param>
    /// <param name="warmth">(t - 15) / (1 + k (t - 15)).</param>
    public static double Corrected(double pss, double x, double warmth) =>
        pss - (A0 / PartA(400 * x * x)) - (B0 * warmth / PartB(10 * x));

    /// <summary>The slope by x that the correction adds to that of PSS-78.</summary>
    public static double CorrectionSlope(double x, double warmth)
    {
        var bigX = 400 * x * x;
        var rootY = 10 * x;
        var partA = PartA(bigX);
        var partB = PartB(rootY);
        var slopeA = 800 * x * (1.5 + (2 * bigX));
        var slopeB = 10 * (1 + (2 * rootY) + (3 * rootY * rootY));
        return (A0 * slopeA / (partA * partA)) + (B0 * warmth * slopeB / (partB * partB));
    }

    /// <summary>The factor that joins the branches at a temperature, within 0.0002 of 1 at 0 to 35 degC.</summary>
    public static double FactorAt(double t68)
    {
        var x = RobustNewtonRaphson.FindRoot(
            root => PracticalSalinity.Pss(root, t68) - Join,
            root => PracticalSalinity.PssSlope(root, t68),
            0.05,
            1,
            1e-12
        );
        return Join / Corrected(Join, x, PracticalSalinity.Warmth(t68));
    }

    private static double PartA(double bigX) => 1 + (bigX * (1.5 + bigX));

    private static double PartB(double rootY) => 1 + (rootY * (1 + (rootY * (1 + rootY))));
}
