using System.Runtime.CompilerServices;
using static Broodtide.Science.Water.Eos80Terms;

namespace Broodtide.Science.Water.Rows;

/// <summary>EOS-80 for many rows, as many at once as the vector holds.</summary>
internal static class DensityKernel<TLanes, TVector>
    where TLanes : struct, ILanes<TVector>
    where TVector : struct
{
    /// <summary>Density of the rows of one vector.</summary>
    /// <param name="salinity">Practical salinity.</param>
    /// <param name="celsius">Degrees Celsius, ITS-90.</param>
    /// <param name="decibar">Pressure, used only if asked for.</param>
    /// <param name="underPressure">Whether pressure counts.</param>
    /// <param name="known">One bit for each lane that has a value.</param>
    /// <returns>kg/m3, NaN where there is none.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static TVector Of(
        TVector salinity,
        TVector celsius,
        TVector decibar,
        bool underPressure,
        out uint known
    )
    {
        var t = TLanes.Multiply(celsius, TLanes.All(RowLimits.Ipts68PerIts90));
        var root = TLanes.Root(salinity);
        var pure = At(t, At(t, At(t, At(t, At(t, P5, P4), P3), P2), P1), P0);
        var linear = At(t, At(t, At(t, At(t, L4, L3), L2), L1), L0);
        var threeHalves = At(t, At(t, T2, T1), T0);
        var inner = TLanes.MultiplyAdd(
            salinity,
            TLanes.All(Square),
            TLanes.MultiplyAdd(root, threeHalves, linear)
        );
        var density = TLanes.MultiplyAdd(salinity, inner, pure);
        var ok = TLanes.And(
            TLanes.And(
                TLanes.AtMost(TLanes.All(0), salinity),
                TLanes.AtMost(TLanes.All(RowLimits.LowestCelsius), celsius)
            ),
            TLanes.AtMost(celsius, TLanes.All(RowLimits.HighestCelsius))
        );
        if (underPressure)
        {
            var bar = TLanes.Multiply(decibar, TLanes.All(BarPerDecibar));
            var modulus = Modulus(salinity, root, t, bar);
            density = TLanes.Divide(TLanes.Multiply(density, modulus), TLanes.Subtract(modulus, bar));
            ok = TLanes.And(
                ok,
                TLanes.And(
                    TLanes.AtMost(TLanes.All(0), decibar),
                    TLanes.AtMost(decibar, TLanes.All(Pss78.HighestDecibar))
                )
            );
        }

        ok = TLanes.And(
            ok,
            TLanes.And(
                TLanes.AtMost(TLanes.All(double.Epsilon), density),
                TLanes.AtMost(density, TLanes.All(double.MaxValue))
            )
        );
        known = TLanes.Bits(ok);
        return TLanes.Choose(ok, density, TLanes.All(double.NaN));
    }

    // The secant bulk modulus, bar.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static TVector Modulus(TVector s, TVector root, TVector t, TVector bar)
    {
        var bySalt = TLanes.MultiplyAdd(root, At(t, At(t, G2, G1), G0), At(t, At(t, At(t, F3, F2), F1), F0));
        var surface = TLanes.MultiplyAdd(s, bySalt, At(t, At(t, At(t, At(t, K4, K3), K2), K1), K0));
        var firstBySalt = TLanes.MultiplyAdd(root, TLanes.All(J0), At(t, At(t, I2, I1), I0));
        var first = TLanes.MultiplyAdd(s, firstBySalt, At(t, At(t, At(t, H3, H2), H1), H0));
        var second = TLanes.MultiplyAdd(s, At(t, At(t, N2, N1), N0), At(t, At(t, M2, M1), M0));
        return TLanes.MultiplyAdd(bar, TLanes.MultiplyAdd(bar, second, first), surface);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static TVector At(TVector x, double high, double low) =>
        TLanes.MultiplyAdd(x, TLanes.All(high), TLanes.All(low));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static TVector At(TVector x, TVector high, double low) =>
        TLanes.MultiplyAdd(x, high, TLanes.All(low));
}
