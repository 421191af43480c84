namespace Broodtide.Science.Water;

/// <summary>
/// The coefficients of EOS-80, IPTS-68 temperatures. Source: Fofonoff and Millard 1983, UNESCO Technical Papers in Marine
/// Science 44, eq. 13 and 14 for the surface, eq. 15 to 19 for the bulk modulus, which is in bar.
/// </summary>
internal static class Eos80Terms
{
    /// <summary>Density of pure water, kg/m3 (eq. 14).</summary>
    internal const double P0 = 999.842594;
    internal const double P1 = 6.793952e-2;
    internal const double P2 = -9.095290e-3;
    internal const double P3 = 1.001685e-4;
    internal const double P4 = -1.120083e-6;
    internal const double P5 = 6.536332e-9;

    /// <summary>Factor of S, kg/m3 (eq. 13).</summary>
    internal const double L0 = 8.24493e-1;
    internal const double L1 = -4.0899e-3;
    internal const double L2 = 7.6438e-5;
    internal const double L3 = -8.2467e-7;
    internal const double L4 = 5.3875e-9;

    /// <summary>Factor of S^1.5, kg/m3 (eq. 13).</summary>
    internal const double T0 = -5.72466e-3;
    internal const double T1 = 1.0227e-4;
    internal const double T2 = -1.6546e-6;

    /// <summary>Factor of S^2, kg/m3 (eq. 13).</summary>
    internal const double Square = 4.8314e-4;

    /// <summary>Bulk modulus of pure water at the surface, bar (eq. 19).</summary>
    internal const double K0 = 19652.21;
    internal const double K1 = 148.4206;
    internal const double K2 = -2.327105;
    internal const double K3 = 1.360477e-2;
    internal const double K4 = -5.155288e-5;

    /// <summary>Its factor of S (eq. 16).</summary>
    internal const double F0 = 54.6746;
    internal const double F1 = -0.603459;
    internal const double F2 = 1.09987e-2;
    internal const double F3 = -6.1670e-5;

    /// <summary>Its factor of S^1.5 (eq. 16).</summary>
    internal const double G0 = 7.944e-2;
    internal const double G1 = 1.6483e-2;
    internal const double G2 = -5.3009e-4;

    /// <summary>Its factor of pressure in pure water (eq. 17 and 19).</summary>
    internal const double H0 = 3.239908;
    internal const double H1 = 1.43713e-3;
    internal const double H2 = 1.16092e-4;
    internal const double H3 = -5.77905e-7;

    /// <summary>The same for S (eq. 17).</summary>
    internal const double I0 = 2.2838e-3;
    internal const double I1 = -1.0981e-5;
    internal const double I2 = -1.6078e-6;

    /// <summary>The same for S^1.5 (eq. 17).</summary>
    internal const double J0 = 1.91075e-4;

    /// <summary>Its factor of the square of pressure in pure water (eq. 18 and 19).</summary>
    internal const double M0 = 8.50935e-5;
    internal const double M1 = -6.12293e-6;
    internal const double M2 = 5.2787e-8;

    /// <summary>The same for S (eq. 18).</summary>
    internal const double N0 = -9.9348e-7;
    internal const double N1 = 2.0816e-8;
    internal const double N2 = 9.1697e-10;

    /// <summary>Bar in a decibar.</summary>
    internal const double BarPerDecibar = 0.1;

    internal static ReadOnlySpan<double> Pure => [P0, P1, P2, P3, P4, P5];

    internal static ReadOnlySpan<double> Linear => [L0, L1, L2, L3, L4];

    internal static ReadOnlySpan<double> ThreeHalves => [T0, T1, T2];

    /// <summary>By how much a pressure raises the density: 1 at the surface.</summary>
    internal static double PressureFactor(double s, double t68, double decibar)
    {
        var bar = decibar * BarPerDecibar;
        var s15 = s * Math.Sqrt(s);
        var surface =
            Polynomial.At(t68, [K0, K1, K2, K3, K4])
            + (s * Polynomial.At(t68, [F0, F1, F2, F3]))
            + (s15 * Polynomial.At(t68, [G0, G1, G2]));
        var first =
            Polynomial.At(t68, [H0, H1, H2, H3]) + (s * Polynomial.At(t68, [I0, I1, I2])) + (s15 * J0);
        var second = Polynomial.At(t68, [M0, M1, M2]) + (s * Polynomial.At(t68, [N0, N1, N2]));
        return 1 / (1 - (bar / (surface + (bar * (first + (bar * second))))));
    }
}
