using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Broodtide.Science.Statistics;
using Lane = System.Numerics.Vector<double>;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>Functions of one number a lane.</summary>
internal static class Lanes
{
    private const int StirlingFrom = 8;
    private const double HalfLogTwoPi = 0.91893853320467274;

    // Bernoulli number B(2n) over 2n (2n - 1), the highest power first.
    private static readonly double[] Stirling =
    [
        1.0 / 156,
        -691.0 / 360360,
        1.0 / 1188,
        -1.0 / 1680,
        1.0 / 1260,
        -1.0 / 360,
        1.0 / 12,
    ];

    // Known when the code is compiled: a single lane then needs no way through memory.
    private static bool IsFour => Vector256.IsHardwareAccelerated && Lane.Count == Vector256<double>.Count;

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
        if (IsFour)
        {
            return Vector256.Log(numbers.AsVector256()).AsVector();
        }

        Span<Lane> one = [numbers];
        Log(one);
        return one[0];
    }

    internal static Lane Exp(Lane numbers)
    {
        if (IsFour)
        {
            return Vector256.Exp(numbers.AsVector256()).AsVector();
        }

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
        if (IsFour)
        {
            return ManyNumbers.CubeRoot(numbers.AsVector256()).AsVector();
        }

        Span<Lane> one = [numbers];
        CubeRoot(one);
        return one[0];
    }

    internal static void CubeRoot(Span<Lane> numbers)
    {
        var each = MemoryMarshal.Cast<Lane, double>(numbers);
        ManyNumbers.CubeRoot(each, each);
    }

    /// <summary>
    /// ln Gamma of each; numbers above zero. Stirling's series (Abramowitz and Stegun 6.1.41) where a number is eight or
    /// above, and below at the number plus eight, brought back by the recurrence (6.1.15): the first term left out is below
    /// 1e-15.
    /// </summary>
    internal static Lane LogGamma(Lane numbers)
    {
        var (rising, above) = (numbers, numbers);
        for (var i = 1; i < StirlingFrom; i++)
        {
            above += Lane.One;
            rising *= above;
        }

        // Eight more would cost a large number its last digits, and the logarithm of gamma ten times as much.
        var isFar = Vector.GreaterThanOrEqual(numbers, new Lane(StirlingFrom));
        var far = Where(isFar, numbers, above + Lane.One);
        rising = Where(isFar, Lane.One, rising);
        var inverse = Lane.One / far;
        var square = inverse * inverse;
        var series = Lane.Zero;
        foreach (var term in Stirling)
        {
            series = (series * square) + new Lane(term);
        }

        Span<Lane> logs = [far, rising];
        Log(logs);
        return ((far - new Lane(0.5)) * logs[0])
            - far
            + new Lane(HalfLogTwoPi)
            + (series * inverse)
            - logs[1];
    }

    /// <summary>P(Z below each): see <see cref="NormalTable"/>.</summary>
    internal static void NormalBelow(Span<Lane> numbers) =>
        NormalTable.Below(MemoryMarshal.Cast<Lane, double>(numbers));

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
