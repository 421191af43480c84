using System.Numerics;
using System.Runtime.InteropServices;

namespace Broodtide.Science.Imaging;

/// <summary>Operations on rows that measure: how far values lie apart, how a row bends, what lies at every second place.</summary>
internal static partial class Lanes
{
    public static void Mean(ReadOnlySpan<float> row, ReadOnlySpan<float> other, Span<float> target)
    {
        var from = Whole(row, target);
        var with = Whole(other, target);
        var to = Whole(target);
        for (var i = 0; i < to.Length; i++)
        {
            to[i] = (from[i] + with[i]) * 0.5f;
        }

        for (var i = to.Length * Vector<float>.Count; i < target.Length; i++)
        {
            target[i] = (row[i] + other[i]) * 0.5f;
        }
    }

    /// <summary>Before and after less twice what is between.</summary>
    public static void Bent(
        ReadOnlySpan<float> before,
        ReadOnlySpan<float> row,
        ReadOnlySpan<float> after,
        Span<float> target
    )
    {
        var from = Whole(before, target);
        var with = Whole(row, target);
        var last = Whole(after, target);
        var to = Whole(target);
        for (var i = 0; i < to.Length; i++)
        {
            to[i] = from[i] - (with[i] + with[i]) + last[i];
        }

        for (var i = to.Length * Vector<float>.Count; i < target.Length; i++)
        {
            target[i] = before[i] - (row[i] + row[i]) + after[i];
        }
    }

    public static void Absolute(ReadOnlySpan<float> row, Span<float> target)
    {
        var from = Whole(row, target);
        var to = Whole(target);
        for (var i = 0; i < to.Length; i++)
        {
            to[i] = Vector.Abs(from[i]);
        }

        for (var i = to.Length * Vector<float>.Count; i < target.Length; i++)
        {
            target[i] = Math.Abs(row[i]);
        }
    }

    public static void Root(ReadOnlySpan<float> row, Span<float> target)
    {
        var from = Whole(row, target);
        var to = Whole(target);
        for (var i = 0; i < to.Length; i++)
        {
            to[i] = Vector.SquareRoot(from[i]);
        }

        for (var i = to.Length * Vector<float>.Count; i < target.Length; i++)
        {
            target[i] = MathF.Sqrt(row[i]);
        }
    }

    /// <summary>Adds, or with a sign of -1 takes away, the square of how far each value lies from a level.</summary>
    public static void AddSquareApart(ReadOnlySpan<float> row, float level, float sign, Span<float> sum)
    {
        var from = Whole(row, sum);
        var to = Whole(sum);
        var many = new Vector<float>(level);
        for (var i = 0; i < to.Length; i++)
        {
            var apart = from[i] - many;
            to[i] += apart * apart * sign;
        }

        for (var i = to.Length * Vector<float>.Count; i < sum.Length; i++)
        {
            sum[i] += (row[i] - level) * (row[i] - level) * sign;
        }
    }

    /// <summary>What is there less the square of how far each value lies from a level, at least 0.</summary>
    public static void LessSquareApart(ReadOnlySpan<float> row, float level, Span<float> target)
    {
        var from = Whole(row, target);
        var to = Whole(target);
        var many = new Vector<float>(level);
        for (var i = 0; i < to.Length; i++)
        {
            var apart = from[i] - many;
            to[i] = Vector.Max(Vector<float>.Zero, to[i] - (apart * apart));
        }

        for (var i = to.Length * Vector<float>.Count; i < target.Length; i++)
        {
            var apart = row[i] - level;
            target[i] = Math.Max(0, target[i] - (apart * apart));
        }
    }

    /// <summary>Every second value from the first on, and every second from the second on.</summary>
    public static void Part(ReadOnlySpan<float> row, Span<float> even, Span<float> odd)
    {
        // Two values lie in one number of 64 bits; the first of them is its lower half.
        var two = MemoryMarshal.Cast<float, Vector<ulong>>(row[..(2 * odd.Length)]);
        var first = MemoryMarshal.Cast<float, Vector<uint>>(even);
        var second = MemoryMarshal.Cast<float, Vector<uint>>(odd);
        for (var i = 0; i < second.Length; i++)
        {
            var (low, high) = (two[2 * i], two[(2 * i) + 1]);
            first[i] = Vector.Narrow(low, high);
            second[i] = Vector.Narrow(Vector.ShiftRightLogical(low, 32), Vector.ShiftRightLogical(high, 32));
        }

        for (var i = second.Length * Vector<float>.Count; i < even.Length; i++)
        {
            even[i] = row[2 * i];
            if (i < odd.Length)
            {
                odd[i] = row[(2 * i) + 1];
            }
        }
    }

    /// <summary>What <see cref="Part"/> parted laid together again; there may be one even value more.</summary>
    public static void Join(ReadOnlySpan<float> even, ReadOnlySpan<float> odd, Span<float> row)
    {
        var two = MemoryMarshal.Cast<float, Vector<ulong>>(row[..(2 * odd.Length)]);
        var first = MemoryMarshal.Cast<float, Vector<uint>>(even);
        var second = MemoryMarshal.Cast<float, Vector<uint>>(odd);
        for (var i = 0; i < second.Length; i++)
        {
            Vector.Widen(first[i], out var evenLow, out var evenHigh);
            Vector.Widen(second[i], out var oddLow, out var oddHigh);
            two[2 * i] = evenLow | Vector.ShiftLeft(oddLow, 32);
            two[(2 * i) + 1] = evenHigh | Vector.ShiftLeft(oddHigh, 32);
        }

        for (var i = 2 * second.Length * Vector<float>.Count; i < row.Length; i++)
        {
            row[i] = i % 2 == 0 ? even[i / 2] : odd[i / 2];
        }
    }
}
