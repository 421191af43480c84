using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>
/// Logarithms, exponentials and cube roots of many numbers at once, several at a time where the machine can; and sums.
/// </summary>
/// <remarks>
/// The plain loop of each function is the twin that tests compare with, and the one that runs in the browser. The result may
/// stand where the numbers stood.
/// </remarks>
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

    /// <summary>Adds each number, times the same, to the sum at its place; there may be more sums than numbers.</summary>
    internal static void AddTimes(ReadOnlySpan<double> numbers, double times, Span<double> sums)
    {
        var wide = MemoryMarshal.Cast<double, Vector<double>>(numbers);
        var into = MemoryMarshal.Cast<double, Vector<double>>(sums[..numbers.Length]);
        for (var i = 0; i < wide.Length && i < into.Length; i++)
        {
            into[i] += wide[i] * new Vector<double>(times);
        }

        for (var i = wide.Length * Vector<double>.Count; i < numbers.Length; i++)
        {
            sums[i] += numbers[i] * times;
        }
    }

    /// <summary>Cube roots; all numbers finite, zero or above, and none subnormal.</summary>
    internal static void CubeRoot(ReadOnlySpan<double> numbers, Span<double> result)
    {
        var done = 0;
        if (Vector256.IsHardwareAccelerated)
        {
            var wide = MemoryMarshal.Cast<double, Vector256<double>>(numbers);
            var into = MemoryMarshal.Cast<double, Vector256<double>>(result);
            for (var i = 0; i < wide.Length; i++)
            {
                into[i] = CubeRoot(wide[i]);
            }

            done = wide.Length * Vector256<double>.Count;
        }

        PlainCubeRoot(numbers[done..], result[done..]);
    }

    // A third of the logarithm is near; one step of Newton's method brings it to the last digits.
    internal static Vector256<double> CubeRoot(Vector256<double> number)
    {
        var third = Vector256.Create(1.0 / 3);
        var near = Vector256.Exp(Vector256.Log(number) * third);
        var root = near - (third * (near - (number / (near * near))));
        return Vector256.ConditionalSelect(
            Vector256.Equals(number, Vector256<double>.Zero),
            Vector256<double>.Zero,
            root
        );
    }

    internal static void PlainCubeRoot(ReadOnlySpan<double> numbers, Span<double> result)
    {
        for (var i = 0; i < numbers.Length; i++)
        {
            result[i] = Math.Cbrt(numbers[i]);
        }
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
