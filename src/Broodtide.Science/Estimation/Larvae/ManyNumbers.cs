using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>Logarithms and exponentials of many numbers at once; eight or four at a time where the machine can.</summary>
/// <remarks>The plain loop is the twin that tests compare with, and the one that runs in the browser.</remarks>
internal static class ManyNumbers
{
    /// <summary>Natural logarithms; all numbers above zero.</summary>
    internal static void Log(ReadOnlySpan<double> numbers, Span<double> result)
    {
        var done = 0;
        if (Vector512.IsHardwareAccelerated)
        {
            var wide = MemoryMarshal.Cast<double, Vector512<double>>(numbers);
            var into = MemoryMarshal.Cast<double, Vector512<double>>(result);
            for (var i = 0; i < wide.Length; i++)
            {
                into[i] = Vector512.Log(wide[i]);
            }

            done = wide.Length * Vector512<double>.Count;
        }

        if (Vector256.IsHardwareAccelerated)
        {
            var wide = MemoryMarshal.Cast<double, Vector256<double>>(numbers[done..]);
            var into = MemoryMarshal.Cast<double, Vector256<double>>(result[done..]);
            for (var i = 0; i < wide.Length; i++)
            {
                into[i] = Vector256.Log(wide[i]);
            }

            done += wide.Length * Vector256<double>.Count;
        }

        PlainLog(numbers[done..], result[done..]);
    }

    /// <summary>Exponentials.</summary>
    internal static void Exp(ReadOnlySpan<double> numbers, Span<double> result)
    {
        var done = 0;
        if (Vector512.IsHardwareAccelerated)
        {
            var wide = MemoryMarshal.Cast<double, Vector512<double>>(numbers);
            var into = MemoryMarshal.Cast<double, Vector512<double>>(result);
            for (var i = 0; i < wide.Length; i++)
            {
                into[i] = Vector512.Exp(wide[i]);
            }

            done = wide.Length * Vector512<double>.Count;
        }

        if (Vector256.IsHardwareAccelerated)
        {
            var wide = MemoryMarshal.Cast<double, Vector256<double>>(numbers[done..]);
            var into = MemoryMarshal.Cast<double, Vector256<double>>(result[done..]);
            for (var i = 0; i < wide.Length; i++)
            {
                into[i] = Vector256.Exp(wide[i]);
            }

            done += wide.Length * Vector256<double>.Count;
        }

        PlainExp(numbers[done..], result[done..]);
    }

    internal static void PlainLog(ReadOnlySpan<double> numbers, Span<double> result)
    {
        for (var i = 0; i < numbers.Length; i++)
        {
            result[i] = Math.Log(numbers[i]);
        }
    }

    internal static void PlainExp(ReadOnlySpan<double> numbers, Span<double> result)
    {
        for (var i = 0; i < numbers.Length; i++)
        {
            result[i] = Math.Exp(numbers[i]);
        }
    }
}
