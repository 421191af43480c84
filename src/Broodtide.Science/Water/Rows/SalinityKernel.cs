using System.Runtime.CompilerServices;
using static Broodtide.Science.Water.Pss78;

namespace Broodtide.Science.Water.Rows;

/// <summary>
/// PSS-78 with its low-salinity branch for many rows, as many at once as the vector holds. Divisions are what such a loop
/// waits for: the three of the formula are made of one.
/// </summary>
internal static class SalinityKernel<TLanes, TVector>
    where TLanes : struct, ILanes<TVector>
    where TVector : struct
{
    // The root for S = 2 as a straight line of the warmth, within 2.1e-5 at -5 to 45 degC (a fit of this project to the
    // formula itself). Two steps of Newton end at the last digit there; rows far outside are left to the plain formula.
    private const double Start = 0.266469;
    private const double StartSlope = 1.1697e-4;
    private const int Steps = 2;
    private const double Found = 1e-12;

    /// <summary>Salinity of the rows of one vector.</summary>
    /// <param name="ratio">Conductivity ratio.</param>
    /// <param name="celsius">Degrees Celsius, ITS-90.</param>
    /// <param name="decibar">Pressure, used only if asked for.</param>
    /// <param name="underPressure">Whether pressure counts.</param>
    /// <param name="unsure">One bit for each lane that the plain loop has to work out.</param>
    /// <param name="known">One bit for each lane that has a value.</param>
    /// <returns>Practical salinity, NaN where there is none.</returns>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static TVector Of(
        TVector ratio,
        TVector celsius,
        TVector decibar,
        bool underPressure,
        out uint unsure,
        out uint known
    )
    {
        var t = TLanes.Multiply(celsius, TLanes.All(RowLimits.Ipts68PerIts90));
        var warmthAbove = TLanes.Subtract(t, TLanes.All(Middle));
        var warmthBelow = At(warmthAbove, K, 1);
        var above = ratio;
        var below = At(t, At(t, At(t, At(t, C4, C3), C2), C1), C0);
        var ok = TLanes.And(
            TLanes.And(
                TLanes.AtMost(TLanes.All(0), ratio),
                TLanes.AtMost(TLanes.All(RowLimits.LowestCelsius), celsius)
            ),
            TLanes.AtMost(celsius, TLanes.All(RowLimits.HighestCelsius))
        );
        if (underPressure)
        {
            var raised = TLanes.Multiply(decibar, At(decibar, At(decibar, E3, E2), E1));
            var share = TLanes.MultiplyAdd(At(t, D4, D3), ratio, At(t, At(t, D2, D1), 1));
            above = TLanes.Multiply(ratio, share);
            below = TLanes.Multiply(below, TLanes.Add(share, raised));
            ok = TLanes.And(
                ok,
                TLanes.And(
                    TLanes.AtMost(TLanes.All(0), decibar),
                    TLanes.AtMost(decibar, TLanes.All(HighestDecibar))
                )
            );
        }

        var one = TLanes.Divide(TLanes.All(1), TLanes.Multiply(below, warmthBelow));
        var x = TLanes.Root(TLanes.Multiply(TLanes.Multiply(above, warmthBelow), one));
        var warmth = TLanes.Multiply(TLanes.Multiply(warmthAbove, below), one);
        var s = Pss(x, warmth);
        ok = TLanes.And(ok, TLanes.AtMost(s, TLanes.All(double.MaxValue)));
        var low = TLanes.And(ok, TLanes.Less(s, TLanes.All(LowSalinity.Join)));
        unsure = 0;
        if (TLanes.Bits(low) != 0)
        {
            s = TLanes.Choose(low, Low(s, x, warmth, out var found), s);
            s = TLanes.Choose(TLanes.Less(s, TLanes.All(0)), TLanes.All(0), s);
            unsure = TLanes.Bits(TLanes.Without(low, found));
        }

        known = TLanes.Bits(ok);
        return TLanes.Choose(ok, s, TLanes.All(double.NaN));
    }

    // The branch below S = 2 with the factor that joins both. Kept out of the loop, which seldom needs it.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static TVector Low(TVector s, TVector x, TVector warmth, out TVector found)
    {
        var root = At(warmth, StartSlope, Start);
        for (var step = 0; step < Steps; step++)
        {
            var over = TLanes.Subtract(Pss(root, warmth), TLanes.All(LowSalinity.Join));
            root = TLanes.Subtract(root, TLanes.Divide(over, Slope(root, warmth)));
        }

        var rest = TLanes.Subtract(Pss(root, warmth), TLanes.All(LowSalinity.Join));
        found = TLanes.And(
            TLanes.AtMost(TLanes.Multiply(rest, rest), TLanes.All(Found * Found)),
            TLanes.And(
                TLanes.AtMost(TLanes.All(LowSalinity.LowestRoot), root),
                TLanes.AtMost(root, TLanes.All(LowSalinity.HighestRoot))
            )
        );
        var factor = TLanes.Divide(
            TLanes.All(LowSalinity.Join),
            Corrected(TLanes.All(LowSalinity.Join), root, warmth)
        );
        return TLanes.Multiply(factor, Corrected(s, x, warmth));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static TVector Corrected(TVector s, TVector x, TVector warmth)
    {
        var bigX = TLanes.Multiply(TLanes.All(400), TLanes.Multiply(x, x));
        var rootY = TLanes.Multiply(TLanes.All(10), x);
        var partA = At(bigX, TLanes.Add(bigX, TLanes.All(1.5)), 1);
        var partB = At(rootY, At(rootY, TLanes.Add(rootY, TLanes.All(1)), 1), 1);
        var first = TLanes.Divide(TLanes.All(A0), partA);
        var second = TLanes.Divide(TLanes.Multiply(TLanes.All(B0), warmth), partB);
        return TLanes.Subtract(TLanes.Subtract(s, first), second);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static TVector Pss(TVector x, TVector warmth)
    {
        var a = At(x, At(x, At(x, At(x, At(x, A5, A4), A3), A2), A1), A0);
        var b = At(x, At(x, At(x, At(x, At(x, B5, B4), B3), B2), B1), B0);
        return TLanes.MultiplyAdd(warmth, b, a);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static TVector Slope(TVector x, TVector warmth)
    {
        var a = At(x, At(x, At(x, At(x, 5 * A5, 4 * A4), 3 * A3), 2 * A2), A1);
        var b = At(x, At(x, At(x, At(x, 5 * B5, 4 * B4), 3 * B3), 2 * B2), B1);
        return TLanes.MultiplyAdd(warmth, b, a);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static TVector At(TVector x, double high, double low) =>
        TLanes.MultiplyAdd(x, TLanes.All(high), TLanes.All(low));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static TVector At(TVector x, TVector high, double low) =>
        TLanes.MultiplyAdd(x, high, TLanes.All(low));
}
