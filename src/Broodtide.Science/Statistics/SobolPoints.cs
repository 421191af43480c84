using System.Numerics;
using Broodtide.Units;
using MathNet.Numerics;

namespace Broodtide.Science.Statistics;

/// <summary>
/// Points that fill a cube evenly: the sequence of Sobol (1967) with the direction numbers of Joe and Kuo (2008),
/// table "new-joe-kuo-6", first 16 dimensions (read in copies of the table; the tests hold them against the property
/// that defines the sequence). Point n is the same on every machine.
/// </summary>
public static class SobolPoints
{
    /// <summary>Most dimensions there are numbers for.</summary>
    public const int MostDimensions = 16;

    private const int Bits = 30;

    // Degree of the primitive polynomial, its inner coefficients, and the first direction numbers.
    private static readonly (int Degree, uint Inner, uint[] Start)[] Table =
    [
        (1, 0, [1]),
        (2, 1, [1, 3]),
        (3, 1, [1, 3, 1]),
        (3, 2, [1, 1, 1]),
        (4, 1, [1, 1, 3, 3]),
        (4, 4, [1, 3, 5, 13]),
        (5, 2, [1, 1, 5, 5, 17]),
        (5, 4, [1, 1, 5, 5, 5]),
        (5, 7, [1, 1, 7, 11, 19]),
        (5, 11, [1, 1, 5, 1, 1]),
        (5, 13, [1, 1, 1, 3, 11]),
        (5, 14, [1, 3, 5, 5, 31]),
        (6, 1, [1, 3, 3, 9, 7, 49]),
        (6, 13, [1, 1, 1, 15, 21, 21]),
        (6, 16, [1, 3, 1, 13, 27, 49]),
    ];

    private static readonly uint[][] Directions =
    [
        [.. Enumerable.Range(1, Bits).Select(bit => 1u << (Bits - bit))],
        .. Table.Select(row => DirectionsOf(row.Degree, row.Inner, row.Start)),
    ];

    // Coordinates of the first points of the normal distribution, not a number where none was asked yet: every estimate asks
    // the same. Whoever else fills a place at the same time puts the same there; on 64 bits none is ever read by half.
    private const int Kept = 1024;
    private static readonly double[] KeptNormal = Unasked();

    /// <summary>A point of the cube, each coordinate above 0 and below 1.</summary>
    /// <param name="index">Number of the point, from 1; point 0 is a corner and is not used.</param>
    /// <param name="point">Receives the coordinates; 1 to 16 of them.</param>
    /// <exception cref="ArgumentOutOfRangeException">Index below 1.</exception>
    /// <exception cref="ArgumentException">More than 16 dimensions.</exception>
    public static void Even(int index, Span<double> point)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(index, 1);
        if (point.Length > MostDimensions)
        {
            throw new ArgumentException($"At most {MostDimensions} dimensions.", nameof(point));
        }

        var gray = (uint)index ^ ((uint)index >> 1);
        for (var dimension = 0; dimension < point.Length; dimension++)
        {
            uint sum = 0;
            for (var left = gray; left != 0; left &= left - 1)
            {
                sum ^= Directions[dimension][BitOperations.TrailingZeroCount(left)];
            }

            point[dimension] = (sum + 0.5) / (1u << Bits);
        }
    }

    /// <summary>A point of the standard normal distribution in as many dimensions.</summary>
    /// <param name="index">Number of the point, from 1.</param>
    /// <param name="point">Receives the coordinates; 1 to 16 of them.</param>
    /// <exception cref="ArgumentOutOfRangeException">Index below 1.</exception>
    /// <exception cref="ArgumentException">More than 16 dimensions.</exception>
    public static void Normal(int index, Span<double> point)
    {
        if (index is < 1 or > Kept || point.Length > MostDimensions)
        {
            Work(index, point);
            return;
        }

        var kept = KeptNormal.AsSpan((index - 1) * MostDimensions, point.Length);
        kept.CopyTo(point);
        if (IsMissingAny(point))
        {
            Work(index, point);
            point.CopyTo(kept);
        }
    }

    private static double[] Unasked()
    {
        var coordinates = new double[Kept * MostDimensions];
        Array.Fill(coordinates, double.NaN);
        return coordinates;
    }

    private static bool IsMissingAny(ReadOnlySpan<double> point)
    {
        foreach (var coordinate in point)
        {
            if (double.IsNaN(coordinate))
            {
                return true;
            }
        }

        return false;
    }

    private static void Work(int index, Span<double> point)
    {
        Even(index, point);
        for (var i = 0; i < point.Length; i++)
        {
            point[i] = Finite.Required(-Constants.Sqrt2 * SpecialFunctions.ErfcInv(2 * point[i]));
        }
    }

    private static uint[] DirectionsOf(int degree, uint inner, uint[] start)
    {
        var directions = new uint[Bits];
        for (var i = 0; i < degree; i++)
        {
            directions[i] = start[i] << (Bits - 1 - i);
        }

        for (var i = degree; i < Bits; i++)
        {
            var next = directions[i - degree] ^ (directions[i - degree] >> degree);
            for (var k = 1; k < degree; k++)
            {
                if (((inner >> (degree - 1 - k)) & 1) != 0)
                {
                    next ^= directions[i - k];
                }
            }

            directions[i] = next;
        }

        return directions;
    }
}
