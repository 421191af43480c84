using System.Numerics;
using System.Runtime.InteropServices;
using Broodtide.Science.Statistics;
using MathNet.Numerics;
using Lane = System.Numerics.Vector<double>;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>Functions of one number a lane; those without a vector of their own go lane by lane.</summary>
internal static class Lanes
{
    /// <summary>How many suppositions go in step.</summary>
    internal static int Count => Lane.Count;

    internal static Lane Where(Vector<long> condition, Lane then, Lane otherwise) =>
        Vector.ConditionalSelect(condition, then, otherwise);

    internal static Lane Of<T>(ReadOnlySpan<T> each, Func<T, double> number)
    {
        Span<double> lane = stackalloc double[Lane.Count];
        for (var i = 0; i < lane.Length; i++)
        {
            // Lanes that are left over do what the last one does.
            lane[i] = number(each[Math.Min(i, each.Length - 1)]);
        }

        return new(lane);
    }

    internal static Lane Log(Lane numbers)
    {
        Span<Lane> one = [numbers];
        Log(one);
        return one[0];
    }

    internal static Lane Exp(Lane numbers)
    {
        Span<Lane> one = [numbers];
        Exp(one);
        return one[0];
    }

    internal static void Log(Span<Lane> numbers)
    {
        var each = MemoryMarshal.Cast<Lane, double>(numbers);
        ManyNumbers.Log(each, each);
    }

    internal static void Exp(Span<Lane> numbers)
    {
        var each = MemoryMarshal.Cast<Lane, double>(numbers);
        ManyNumbers.Exp(each, each);
    }

    internal static Lane CubeRoot(Lane numbers)
    {
        Span<double> each = stackalloc double[Lane.Count];
        numbers.CopyTo(each);
        foreach (ref var one in each)
        {
            one = Math.Cbrt(one);
        }

        return new(each);
    }

    internal static Lane LogGamma(Lane numbers)
    {
        Span<double> each = stackalloc double[Lane.Count];
        numbers.CopyTo(each);
        foreach (ref var one in each)
        {
            one = SpecialFunctions.GammaLn(one);
        }

        return new(each);
    }

    /// <summary>P(Z below each): see <see cref="NormalTable"/>.</summary>
    internal static void NormalBelow(Span<Lane> numbers)
    {
        foreach (ref var one in MemoryMarshal.Cast<Lane, double>(numbers))
        {
            one = NormalTable.Below(one);
        }
    }

    internal static Lane NormalBelow(Lane numbers)
    {
        Span<Lane> one = [numbers];
        NormalBelow(one);
        return one[0];
    }

    /// <summary>ln of k (k+1) ... (k+x-1), which is ln Gamma(x+k) - ln Gamma(k).</summary>
    internal static Lane LogRising(Lane k, int x)
    {
        // No product of so many numbers below some thousand leaves the range of a number.
        const int together = 24;
        if (x > 4 * together)
        {
            return LogGamma(k + new Lane(x)) - LogGamma(k);
        }

        var (sum, product) = (Lane.Zero, Lane.One);
        for (var i = 0; i < x; i++)
        {
            product *= k + new Lane(i);
            if ((i + 1) % together == 0 && i + 1 < x)
            {
                sum += Log(product);
                product = Lane.One;
            }
        }

        return sum + Log(product);
    }
}
