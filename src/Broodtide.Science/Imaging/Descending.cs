namespace Broodtide.Science.Imaging;

/// <summary>
/// The places of a picture in the order of their values, by counting eleven bits after eleven (Knuth 1998, The Art of
/// Computer Programming 3, section 5.2.5): quicker than comparing, and in passes that can pause.
/// </summary>
internal static class Descending
{
    private const int Bits = 11;
    private const int Heaps = 1 << Bits;
    private const int ValueFetches = 10;

    /// <summary>
    /// All places above minus infinity, the highest first, of equal ones the first in reading. With pauses: the last is
    /// the answer.
    /// </summary>
    /// <param name="grid">The picture, no value NaN.</param>
    public static IEnumerable<int[]> Steps(float[] grid)
    {
        var places = new List<int>();
        foreach (var (from, to) in Bands.Along(grid.Length, 2))
        {
            for (var at = from; at < to; at++)
            {
                if (!float.IsNegativeInfinity(grid[at]))
                {
                    places.Add(at);
                }
            }

            yield return [];
        }

        var order = places.ToArray();
        var next = new int[order.Length];
        for (var shift = 0; shift < 32; shift += Bits)
        {
            var starts = new int[Heaps + 1];
            foreach (var (from, to) in Bands.Along(order.Length, ValueFetches))
            {
                for (var i = from; i < to; i++)
                {
                    starts[Heap(grid[order[i]], shift) + 1]++;
                }

                yield return [];
            }

            for (var heap = 0; heap < Heaps; heap++)
            {
                starts[heap + 1] += starts[heap];
            }

            foreach (var (from, to) in Bands.Along(order.Length, ValueFetches))
            {
                for (var i = from; i < to; i++)
                {
                    next[starts[Heap(grid[order[i]], shift)]++] = order[i];
                }

                yield return [];
            }

            (order, next) = (next, order);
        }

        yield return order;
    }

    // Some bits of a whole number that is the larger the lower the value is; minus zero counts as zero.
    private static int Heap(float value, int shift)
    {
        var bits = BitConverter.SingleToUInt32Bits(-value + 0f);
        bits = (bits & 0x8000_0000) != 0 ? ~bits : bits | 0x8000_0000;
        return (int)((bits >> shift) & (Heaps - 1));
    }
}
