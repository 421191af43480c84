using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace Broodtide.Science.Imaging;

/// <summary>How many values of a large grid lie where.</summary>
internal static class Ranks
{
    /// <summary>Into how many steps the values are heaped.</summary>
    public const int Steps = 256;

    private const int Half = 1 << 16;
    private const int ValueFetches = 8;

    /// <summary>
    /// The value of a rank, 0 for the smallest, without sorting: the values are counted by the upper half of their bits,
    /// then those that share it with the one looked for by the lower half.
    /// </summary>
    public static float Of(ReadOnlySpan<float> grid, int rank)
    {
        var counts = new int[Half];
        Uppers(grid, counts);
        var (upper, before) = Reached(counts, rank);
        Array.Clear(counts);
        Lowers(grid, upper, counts);
        return Value(upper, Reached(counts, rank - before).Place);
    }

    /// <summary>The same with pauses: the last is the answer.</summary>
    public static IEnumerable<float> ValuesOf(float[] grid, int rank)
    {
        var counts = new int[Half];
        foreach (var (from, to) in Bands.Along(grid.Length, ValueFetches))
        {
            Uppers(grid.AsSpan(from, to - from), counts);
            yield return 0;
        }

        var (upper, before) = Reached(counts, rank);
        Array.Clear(counts);
        foreach (var (from, to) in Bands.Along(grid.Length, ValueFetches))
        {
            Lowers(grid.AsSpan(from, to - from), upper, counts);
            yield return 0;
        }

        yield return Value(upper, Reached(counts, rank - before).Place);
    }

    private static void Uppers(ReadOnlySpan<float> grid, int[] counts)
    {
        foreach (var value in MemoryMarshal.Cast<float, uint>(grid))
        {
            counts[Ordered(value) >> 16]++;
        }
    }

    private static void Lowers(ReadOnlySpan<float> grid, uint upper, int[] counts)
    {
        foreach (var value in MemoryMarshal.Cast<float, uint>(grid))
        {
            var ordered = Ordered(value);
            if (ordered >> 16 == upper)
            {
                counts[ordered & (Half - 1)]++;
            }
        }
    }

    private static float Value(uint upper, uint lower)
    {
        var found = (upper << 16) | lower;
        return BitConverter.UInt32BitsToSingle((found & 0x8000_0000) != 0 ? found & 0x7FFF_FFFF : ~found);
    }

    /// <summary>The smallest and the largest value.</summary>
    public static (float Low, float High) Extremes(ReadOnlySpan<float> grid)
    {
        var many = MemoryMarshal.Cast<float, Vector<float>>(grid);
        var (low, high) = (new Vector<float>(grid[0]), new Vector<float>(grid[0]));
        foreach (var values in many)
        {
            low = Vector.Min(low, values);
            high = Vector.Max(high, values);
        }

        var (least, most) = (low[0], high[0]);
        for (var lane = 1; lane < Vector<float>.Count; lane++)
        {
            (least, most) = (Math.Min(least, low[lane]), Math.Max(most, high[lane]));
        }

        foreach (var value in grid[(many.Length * Vector<float>.Count)..])
        {
            (least, most) = (Math.Min(least, value), Math.Max(most, value));
        }

        return (least, most);
    }

    /// <summary>How many values lie in each step from the lowest to the highest.</summary>
    public static long[] Heaped(ReadOnlySpan<float> grid, float low, float high)
    {
        // Eight heaps in turn, so that equal values after each other need not wait.
        Span<int> heaps = stackalloc int[8 * Steps];
        heaps.Clear();
        var lanes = Vector<float>.Count;
        Span<byte> steps = stackalloc byte[4 * lanes];
        var scale = new Scale(low, high);
        ref var first = ref MemoryMarshal.GetReference(heaps);
        ref var values = ref MemoryMarshal.GetReference(grid);
        var x = 0;
        for (; x + (4 * lanes) <= grid.Length; x += 4 * lanes)
        {
            // Cut to a byte, so that no value, not even one that is no number, leads out of its heap.
            Vector
                .Narrow(
                    Vector.Narrow(scale.Of(ref values, x), scale.Of(ref values, x + lanes)),
                    Vector.Narrow(
                        scale.Of(ref values, x + (2 * lanes)),
                        scale.Of(ref values, x + (3 * lanes))
                    )
                )
                .CopyTo(steps);
            foreach (var eight in MemoryMarshal.Cast<byte, ulong>(steps))
            {
                Count(ref first, eight);
            }
        }

        for (; x < grid.Length; x++)
        {
            heaps[Math.Min(Steps - 1, (int)((grid[x] - low) / (high - low) * Steps))]++;
        }

        var heap = new long[Steps];
        for (var i = 0; i < heaps.Length; i++)
        {
            heap[i % Steps] += heaps[i];
        }

        return heap;
    }

    // So that the order of whole numbers is that of the values; minus zero counts as zero.
    private static uint Ordered(uint bits) =>
        bits == 0x8000_0000 ? 0x8000_0000
        : (bits & 0x8000_0000) != 0 ? ~bits
        : bits | 0x8000_0000;

    private static (uint Place, int Before) Reached(int[] counts, int rank)
    {
        var before = 0;
        for (var place = 0; ; place++)
        {
            if (before + counts[place] > rank)
            {
                return ((uint)place, before);
            }

            before += counts[place];
        }
    }

    // Eight steps, each in its own heap. A byte leads out of none, and no heap has more values than a grid.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Count(ref int heaps, ulong steps)
    {
        unchecked
        {
            Unsafe.Add(ref heaps, (byte)steps)++;
            Unsafe.Add(ref heaps, Steps + (byte)(steps >> 8))++;
            Unsafe.Add(ref heaps, (2 * Steps) + (byte)(steps >> 16))++;
            Unsafe.Add(ref heaps, (3 * Steps) + (byte)(steps >> 24))++;
            Unsafe.Add(ref heaps, (4 * Steps) + (byte)(steps >> 32))++;
            Unsafe.Add(ref heaps, (5 * Steps) + (byte)(steps >> 40))++;
            Unsafe.Add(ref heaps, (6 * Steps) + (byte)(steps >> 48))++;
            Unsafe.Add(ref heaps, (7 * Steps) + (byte)(steps >> 56))++;
        }
    }

    // The step of each of some values.
    private readonly struct Scale(float low, float high)
    {
        private readonly Vector<float> _low = new(low);
        private readonly Vector<float> _width = new(high - low);
        private readonly Vector<int> _last = new(Steps - 1);

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public Vector<uint> Of(ref float values, int at)
        {
            var step = (Vector.LoadUnsafe(ref values, (nuint)at) - _low) / _width * Steps;
            return Vector.AsVectorUInt32(Vector.Min(_last, Vector.ConvertToInt32Native(step)));
        }
    }
}
