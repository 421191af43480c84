using System.Numerics;
using System.Runtime.InteropServices;

namespace Broodtide.Science.Imaging;

/// <summary>
/// One operation on whole rows, as many values at a time as the machine has lanes. Every kernel that is separable is
/// made of these; the rest of a row that fills no vector goes one by one.
/// </summary>
internal static partial class Lanes
{
    public static void AddScaled(ReadOnlySpan<float> row, float factor, Span<float> sum)
    {
        var from = Whole(row, sum);
        var to = Whole(sum);
        var many = new Vector<float>(factor);
        for (var i = 0; i < to.Length; i++)
        {
            to[i] += from[i] * many;
        }

        for (var i = to.Length * Vector<float>.Count; i < sum.Length; i++)
        {
            sum[i] += row[i] * factor;
        }
    }

    public static void Scale(ReadOnlySpan<float> row, float factor, Span<float> target)
    {
        var from = Whole(row, target);
        var to = Whole(target);
        var many = new Vector<float>(factor);
        for (var i = 0; i < to.Length; i++)
        {
            to[i] = from[i] * many;
        }

        for (var i = to.Length * Vector<float>.Count; i < target.Length; i++)
        {
            target[i] = row[i] * factor;
        }
    }

    public static void Subtract(ReadOnlySpan<float> row, ReadOnlySpan<float> less, Span<float> target)
    {
        var from = Whole(row, target);
        var minus = Whole(less, target);
        var to = Whole(target);
        for (var i = 0; i < to.Length; i++)
        {
            to[i] = from[i] - minus[i];
        }

        for (var i = to.Length * Vector<float>.Count; i < target.Length; i++)
        {
            target[i] = row[i] - less[i];
        }
    }

    public static void Multiply(ReadOnlySpan<float> row, ReadOnlySpan<float> by, Span<float> target)
    {
        var from = Whole(row, target);
        var with = Whole(by, target);
        var to = Whole(target);
        for (var i = 0; i < to.Length; i++)
        {
            to[i] = from[i] * with[i];
        }

        for (var i = to.Length * Vector<float>.Count; i < target.Length; i++)
        {
            target[i] = row[i] * by[i];
        }
    }

    public static void Largest(ReadOnlySpan<float> row, ReadOnlySpan<float> other, Span<float> target)
    {
        var from = Whole(row, target);
        var with = Whole(other, target);
        var to = Whole(target);
        for (var i = 0; i < to.Length; i++)
        {
            to[i] = Vector.Max(from[i], with[i]);
        }

        for (var i = to.Length * Vector<float>.Count; i < target.Length; i++)
        {
            target[i] = Math.Max(row[i], other[i]);
        }
    }

    public static void Smallest(ReadOnlySpan<float> row, ReadOnlySpan<float> other, Span<float> target)
    {
        var from = Whole(row, target);
        var with = Whole(other, target);
        var to = Whole(target);
        for (var i = 0; i < to.Length; i++)
        {
            to[i] = Vector.Min(from[i], with[i]);
        }

        for (var i = to.Length * Vector<float>.Count; i < target.Length; i++)
        {
            target[i] = Math.Min(row[i], other[i]);
        }
    }

    public static void Add(ReadOnlySpan<float> row, float much, Span<float> target)
    {
        var from = Whole(row, target);
        var to = Whole(target);
        var many = new Vector<float>(much);
        for (var i = 0; i < to.Length; i++)
        {
            to[i] = from[i] + many;
        }

        for (var i = to.Length * Vector<float>.Count; i < target.Length; i++)
        {
            target[i] = row[i] + much;
        }
    }

    public static void AddProduct(
        ReadOnlySpan<float> row,
        ReadOnlySpan<float> by,
        float factor,
        Span<float> sum
    )
    {
        var from = Whole(row, sum);
        var with = Whole(by, sum);
        var to = Whole(sum);
        var many = new Vector<float>(factor);
        for (var i = 0; i < to.Length; i++)
        {
            to[i] += from[i] * with[i] * many;
        }

        for (var i = to.Length * Vector<float>.Count; i < sum.Length; i++)
        {
            sum[i] += row[i] * by[i] * factor;
        }
    }

    /// <summary>The sum of all values, in double precision from block to block.</summary>
    public static double Sum(ReadOnlySpan<float> row)
    {
        const int Block = 1024;
        var sum = 0.0;
        for (var from = 0; from < row.Length; from += Block)
        {
            var block = row.Slice(from, Math.Min(Block, row.Length - from));
            var whole = MemoryMarshal.Cast<float, Vector<float>>(block);
            var sums = Vector<float>.Zero;
            foreach (var values in whole)
            {
                sums += values;
            }

            sum += Vector.Sum(sums);
            foreach (var value in block[(whole.Length * Vector<float>.Count)..])
            {
                sum += value;
            }
        }

        return sum;
    }

    /// <summary>The mean of all values; 0 of none.</summary>
    public static double Mean(ReadOnlySpan<float> values) => Sum(values) / Math.Max(1, values.Length);

    public static double Dot(ReadOnlySpan<float> row, ReadOnlySpan<float> other)
    {
        var whole = MemoryMarshal.Cast<float, Vector<float>>(row);
        var with = MemoryMarshal.Cast<float, Vector<float>>(other[..row.Length]);
        var sums = Vector<float>.Zero;
        for (var i = 0; i < whole.Length; i++)
        {
            sums += whole[i] * with[i];
        }

        double sum = Vector.Sum(sums);
        for (var i = whole.Length * Vector<float>.Count; i < row.Length; i++)
        {
            sum += row[i] * other[i];
        }

        return sum;
    }

    public static double Dot(ReadOnlySpan<float> row, ReadOnlySpan<float> other, ReadOnlySpan<float> third)
    {
        var whole = MemoryMarshal.Cast<float, Vector<float>>(row);
        var with = MemoryMarshal.Cast<float, Vector<float>>(other[..row.Length]);
        var and = MemoryMarshal.Cast<float, Vector<float>>(third[..row.Length]);
        var sums = Vector<float>.Zero;
        for (var i = 0; i < whole.Length; i++)
        {
            sums += whole[i] * with[i] * and[i];
        }

        double sum = Vector.Sum(sums);
        for (var i = whole.Length * Vector<float>.Count; i < row.Length; i++)
        {
            sum += row[i] * other[i] * third[i];
        }

        return sum;
    }

    // The part of a row that fills whole vectors, no longer than what it is written to.
    private static ReadOnlySpan<Vector<float>> Whole(ReadOnlySpan<float> row, ReadOnlySpan<float> target) =>
        MemoryMarshal.Cast<float, Vector<float>>(row[..target.Length]);

    private static Span<Vector<float>> Whole(Span<float> row) =>
        MemoryMarshal.Cast<float, Vector<float>>(row);
}
