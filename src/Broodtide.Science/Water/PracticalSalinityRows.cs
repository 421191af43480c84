using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Broodtide.Science.Water.Rows;

namespace Broodtide.Science.Water;

/// <summary>
/// Practical salinity of many rows at once: <see cref="PracticalSalinity"/> with the vectors of the processor, and with
/// pressure. Nothing is allocated. It agrees with the plain formula within 1e-11 in S for S up to 50.
/// </summary>
public static class PracticalSalinityRows
{
    /// <summary>
    /// Salinity from the conductivity ratio R = C(S,t,p) / C(35, 15 degC, 0), which has no unit. A row is measured, so a
    /// bad one does not stop the others: it gives NaN.
    /// </summary>
    /// <param name="ratios">Conductivity ratios, 0 and above.</param>
    /// <param name="celsius">Degrees Celsius, ITS-90.</param>
    /// <param name="decibars">Pressure above that of the air, 0 to 10000 decibar; empty for the surface.</param>
    /// <param name="salinities">
    /// Practical salinity, published for S 0 to 42 and -2 to 35 degC; NaN where an input is not finite or out of range,
    /// or where the formula has no value. It may be one of the columns.
    /// </param>
    /// <returns>How many rows have no salinity.</returns>
    /// <exception cref="ArgumentException">The columns are not of one length, or overlap the result in part.</exception>
    public static int FromConductivityRatios(
        ReadOnlySpan<double> ratios,
        ReadOnlySpan<double> celsius,
        ReadOnlySpan<double> decibars,
        Span<double> salinities
    )
    {
        RowLimits.Check(ratios, celsius, decibars, salinities);
        if (Vector512.IsHardwareAccelerated)
        {
            return Fill<EightLanes, Vector512<double>>(ratios, celsius, decibars, salinities);
        }

        if (Vector256.IsHardwareAccelerated)
        {
            return Fill<FourLanes, Vector256<double>>(ratios, celsius, decibars, salinities);
        }

        return Vector128.IsHardwareAccelerated
            ? Fill<TwoLanes, Vector128<double>>(ratios, celsius, decibars, salinities)
            : Plain(ratios, celsius, decibars, salinities);
    }

    /// <summary>The same by the plain formula, row by row: what the vectors are held against.</summary>
    internal static int Plain(
        ReadOnlySpan<double> ratios,
        ReadOnlySpan<double> celsius,
        ReadOnlySpan<double> decibars,
        Span<double> salinities
    )
    {
        var without = 0;
        for (var i = 0; i < salinities.Length; i++)
        {
            salinities[i] = Row(ratios[i], celsius[i], decibars.IsEmpty ? 0 : decibars[i]);
            without += double.IsNaN(salinities[i]) ? 1 : 0;
        }

        return without;
    }

    /// <summary>The same with vectors of a width.</summary>
    internal static int Fill<TLanes, TVector>(
        ReadOnlySpan<double> ratios,
        ReadOnlySpan<double> celsius,
        ReadOnlySpan<double> decibars,
        Span<double> salinities
    )
        where TLanes : struct, ILanes<TVector>
        where TVector : struct
    {
        ref var r = ref MemoryMarshal.GetReference(ratios);
        ref var t = ref MemoryMarshal.GetReference(celsius);
        ref var p = ref MemoryMarshal.GetReference(decibars.IsEmpty ? celsius : decibars);
        ref var s = ref MemoryMarshal.GetReference(salinities);
        var (lanes, rows) = ((nuint)TLanes.Count, (nuint)salinities.Length);
        var whole = rows - (rows % lanes);
        var underPressure = !decibars.IsEmpty;
        var known = 0;
        for (nuint at = 0; at < whole; at = unchecked(at + lanes))
        {
            var (ratio, warm, deep) = (
                TLanes.Load(ref r, at),
                TLanes.Load(ref t, at),
                TLanes.Load(ref p, at)
            );
            var found = SalinityKernel<TLanes, TVector>.Of(
                ratio,
                warm,
                deep,
                underPressure,
                out var unsure,
                out var good
            );
            if (unsure != 0)
            {
                found = Mended<TLanes, TVector>(found, ratio, warm, deep, underPressure, unsure, ref good);
            }

            TLanes.Store(found, ref s, at);
            known = unchecked(known + BitOperations.PopCount(good));
        }

        var left = (int)(rows - whole);
        var without = (int)whole - known;
        if (left == 0)
        {
            return without;
        }

        // What is left is worked out in a vector of its own, so that a row's number does not hang on its place. Rows of
        // nothing fill it up; they have a value, nothing.
        Span<double> last = stackalloc double[3 * TLanes.Count];
        last.Clear();
        var lastRatios = last[..TLanes.Count];
        var lastCelsius = last.Slice(TLanes.Count, TLanes.Count);
        var lastDecibars = last[(2 * TLanes.Count)..];
        ratios[^left..].CopyTo(lastRatios);
        celsius[^left..].CopyTo(lastCelsius);
        if (underPressure)
        {
            decibars[^left..].CopyTo(lastDecibars);
        }

        without += Fill<TLanes, TVector>(
            lastRatios,
            lastCelsius,
            underPressure ? lastDecibars : [],
            lastRatios
        );
        lastRatios[..left].CopyTo(salinities[^left..]);
        return without;
    }

    // Lanes far outside the published temperatures, where the search for the join did not end.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private static TVector Mended<TLanes, TVector>(
        TVector found,
        TVector ratio,
        TVector warm,
        TVector deep,
        bool underPressure,
        uint unsure,
        ref uint good
    )
        where TLanes : struct, ILanes<TVector>
        where TVector : struct
    {
        Span<double> s = stackalloc double[TLanes.Count];
        Span<double> r = stackalloc double[TLanes.Count];
        Span<double> t = stackalloc double[TLanes.Count];
        Span<double> p = stackalloc double[TLanes.Count];
        TLanes.Store(found, ref s[0], 0);
        TLanes.Store(ratio, ref r[0], 0);
        TLanes.Store(warm, ref t[0], 0);
        TLanes.Store(deep, ref p[0], 0);
        for (var lane = 0; lane < s.Length; lane++)
        {
            if ((unsure & (1u << lane)) != 0)
            {
                s[lane] = Row(r[lane], t[lane], underPressure ? p[lane] : 0);
                good &= double.IsNaN(s[lane]) ? ~(1u << lane) : ~0u;
            }
        }

        return TLanes.Load(ref s[0], 0);
    }

    private static double Row(double ratio, double celsius, double decibar) =>
        RowLimits.Holds(ratio, celsius, decibar)
            ? PracticalSalinity.SalinityOf(ratio, celsius * RowLimits.Ipts68PerIts90, decibar)
            : double.NaN;
}
