using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using MathNet.Numerics;

namespace Broodtide.Science.Statistics;

/// <summary>
/// The standard normal distribution function from a table with linear interpolation: within 2e-6 of the exact
/// value (step squared / 8 times the greatest slope of the density, 0.242), and several times faster.
/// </summary>
internal static class NormalTable
{
    private const double Reach = 8;
    private const int PerUnit = 128;
    private const double TwoTo52 = 1L << 52;

    private static readonly double[] Values = Fill();

    /// <summary>
    /// P(Z below <paramref name="z"/>); 0 and 1 beyond eight standard deviations. What is not a number finds no place in the
    /// table and stops here.
    /// </summary>
    internal static double Below(double z)
    {
        if (z <= -Reach)
        {
            return 0;
        }

        if (z >= Reach)
        {
            return 1;
        }

        var place = (z + Reach) * PerUnit;
        var index = double.ConvertToIntegerNative<int>(place);
        var value = Values[index];
        return value + ((place - index) * (Values[index + 1] - value));
    }

    /// <summary>The same of each, four at a time where the machine can; the plain one is the twin.</summary>
    internal static void Below(Span<double> each)
    {
        if (Vector256.IsHardwareAccelerated)
        {
            var fours = MemoryMarshal.Cast<double, Vector256<double>>(each);
            foreach (ref var four in fours)
            {
                four = Below(four, Values);
            }

            each = each[(fours.Length * Vector256<double>.Count)..];
        }

        foreach (ref var one in each)
        {
            one = Below(one);
        }
    }

    private static Vector256<double> Below(Vector256<double> z, ReadOnlySpan<double> values)
    {
        var reach = Vector256.Create(Reach);
        // Most of what is asked is far from where it changes.
        if (Vector256.LessThanOrEqualAll(z, -reach))
        {
            return Vector256<double>.Zero;
        }

        if (Vector256.GreaterThanOrEqualAll(z, reach))
        {
            return Vector256<double>.One;
        }

        var place = (Vector256.Clamp(z, -reach, reach) + reach) * Vector256.Create((double)PerUnit);
        var whole = Vector256.Floor(place);
        // A whole number that is added to 2^52 stands in the lowest bits.
        var indexes = (whole + Vector256.Create(TwoTo52)).AsInt64() - Vector256.Create(TwoTo52).AsInt64();
        var first = Vector128.Create(values.Slice((int)indexes[0], 2));
        var second = Vector128.Create(values.Slice((int)indexes[1], 2));
        var third = Vector128.Create(values.Slice((int)indexes[2], 2));
        var fourth = Vector128.Create(values.Slice((int)indexes[3], 2));
        var here = Vector256.Create(
            Vector128.Create(first[0], second[0]),
            Vector128.Create(third[0], fourth[0])
        );
        var next = Vector256.Create(
            Vector128.Create(first[1], second[1]),
            Vector128.Create(third[1], fourth[1])
        );
        return here + ((place - whole) * (next - here));
    }

    private static double[] Fill()
    {
        var values = new double[(int)(2 * Reach * PerUnit) + 2];
        for (var i = 0; i < values.Length; i++)
        {
            var z = ((double)i / PerUnit) - Reach;
            values[i] = 0.5 * SpecialFunctions.Erfc(-z / Constants.Sqrt2);
        }

        // Where the table ends it says what is said beyond.
        (values[0], values[^2], values[^1]) = (0, 1, 1);
        return values;
    }
}
