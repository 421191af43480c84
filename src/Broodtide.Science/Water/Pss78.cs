namespace Broodtide.Science.Water;

/// <summary>
/// The coefficients of PSS-78, IPTS-68 temperatures. Source: Fofonoff and Millard 1983, UNESCO Technical Papers in Marine
/// Science 44, pp. 6 to 14; those of pressure are on p. 8, pressure in decibar.
/// </summary>
internal static class Pss78
{
    /// <summary>Powers of sqrt(R_t): salinity at 15 degC.</summary>
    internal const double A0 = 0.0080;
    internal const double A1 = -0.1692;
    internal const double A2 = 25.3851;
    internal const double A3 = 14.0941;
    internal const double A4 = -7.0261;
    internal const double A5 = 2.7081;

    /// <summary>Powers of sqrt(R_t): its temperature term.</summary>
    internal const double B0 = 0.0005;
    internal const double B1 = -0.0056;
    internal const double B2 = -0.0066;
    internal const double B3 = -0.0375;
    internal const double B4 = 0.0636;
    internal const double B5 = -0.0144;
    internal const double K = 0.0162;

    /// <summary>Ratio C(35,t,0)/C(35,15,0), powers of t68.</summary>
    internal const double C0 = 0.6766097;
    internal const double C1 = 2.00564e-2;
    internal const double C2 = 1.104259e-4;
    internal const double C3 = -6.9698e-7;
    internal const double C4 = 1.0031e-9;

    /// <summary>How pressure raises conductivity, below the line.</summary>
    internal const double D1 = 3.426e-2;
    internal const double D2 = 4.464e-4;
    internal const double D3 = 4.215e-1;
    internal const double D4 = -3.107e-3;

    /// <summary>How pressure raises conductivity, above the line, powers of the pressure in decibar.</summary>
    internal const double E1 = 2.070e-5;
    internal const double E2 = -6.370e-10;
    internal const double E3 = 3.989e-15;

    /// <summary>Where the temperature term is nothing, degC.</summary>
    internal const double Middle = 15;

    /// <summary>Highest pressure of the source, decibar.</summary>
    internal const double HighestDecibar = 10_000;

    internal static ReadOnlySpan<double> A => [A0, A1, A2, A3, A4, A5];

    internal static ReadOnlySpan<double> B => [B0, B1, B2, B3, B4, B5];

    internal static ReadOnlySpan<double> C => [C0, C1, C2, C3, C4];

    /// <summary>
    /// By how much a pressure raises the conductivity ratio: 1 at the surface. The ratio is that under pressure.
    /// </summary>
    internal static double PressureFactor(double ratio, double t68, double decibar)
    {
        var above = decibar * (E1 + (decibar * (E2 + (decibar * E3))));
        return 1 + (above / (1 + (t68 * (D1 + (t68 * D2))) + ((D3 + (t68 * D4)) * ratio)));
    }
}
