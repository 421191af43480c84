namespace Broodtide.Science.Imaging;

/// <summary>How far each pixel of a thing lies from what is no thing.</summary>
public static class Distance
{
    private const float Far = 1e12f;
    private const int PixelFetches = 20;

    /// <summary>
    /// The exact Euclidean distance, in pixels, from the middle of each marked pixel to the middle of the nearest one
    /// that is not; 0 where it is not marked (Felzenszwalb and Huttenlocher 2012, Theory of Computing 8:415: counted
    /// down, parabolas across). Outside the picture nothing is known, so the edge counts as no border. Where all is marked
    /// the distance is infinite.
    /// </summary>
    /// <param name="marked">Which pixels belong to things: any byte but 0.</param>
    /// <param name="shape">The shape.</param>
    /// <param name="distance">The distances in pixels.</param>
    /// <exception cref="ArgumentException">A grid has another shape.</exception>
    public static void Transform(ReadOnlySpan<byte> marked, GridShape shape, Span<float> distance)
    {
        shape.MustFit(marked);
        shape.MustFit<float>(distance);
        Down(marked, shape, distance);
        Across(shape, distance, new(shape.Across), 0, shape.Down);
    }

    /// <summary><see cref="Transform"/> with pauses.</summary>
    internal static IEnumerable<Pause> Steps(byte[] marked, GridShape shape, float[] distance)
    {
        Down(marked, shape, distance);
        yield return default;
        var work = new Envelope(shape.Across);
        foreach (var (from, to) in Bands.Of(shape, PixelFetches))
        {
            Across(shape, distance, work, from, to);
            yield return default;
        }
    }

    private static void Across(GridShape shape, Span<float> distance, Envelope work, int top, int end)
    {
        for (var y = top; y < end; y++)
        {
            var row = shape.Row(distance, y);
            // Only from one empty pixel to the next: nothing beyond them is nearer.
            for (var from = 0; from < row.Length; )
            {
                var first = row[from..].IndexOfAnyExcept(0f);
                if (first < 0)
                {
                    break;
                }

                from += Math.Max(0, first - 1);
                var start = row[from] > 0 ? from : from + 1;
                var stop = row[start..].IndexOf(0f);
                var after = stop < 0 ? row.Length : start + stop + 1;
                work.Lower(row[from..after]);
                from = stop < 0 ? row.Length : after - 1;
            }

            foreach (ref var value in row)
            {
                value = value >= Far ? float.PositiveInfinity : MathF.Sqrt(value);
            }
        }
    }

    // The square of how far the nearest empty pixel of the same column is, row by row down and up again.
    private static void Down(ReadOnlySpan<byte> marked, GridShape shape, Span<float> distance)
    {
        var step = new float[shape.Across];
        Array.Fill(step, 1);
        var (row, far) = (new float[shape.Across], new float[shape.Across]);
        Array.Fill(row, Far);
        Array.Fill(far, Far);
        for (var y = 0; y < shape.Down; y++)
        {
            var from = shape.Row(marked, y);
            var to = shape.Row(distance, y);
            for (var x = 0; x < to.Length; x++)
            {
                row[x] = from[x] == 0 ? 0 : row[x] + 1;
            }

            row.CopyTo(to);
        }

        for (var y = shape.Down - 1; y >= 0; y--)
        {
            var to = shape.Row(distance, y);
            Lanes.AddScaled(step, 1, row);
            Lanes.Smallest(row, to, row);
            Lanes.Multiply(row, row, to);
            Lanes.Smallest(to, far, to);
        }
    }

    private sealed class Envelope(int longest)
    {
        private readonly int[] _places = new int[longest];
        private readonly double[] _from = new double[longest + 1];
        private readonly float[] _heights = new float[longest];

        // Each value becomes the least of height + (distance)^2 over all places of the line.
        public void Lower(Span<float> line)
        {
            line.CopyTo(_heights);
            var last = -1;
            for (var q = 0; q < line.Length; q++)
            {
                if (_heights[q] >= Far)
                {
                    continue;
                }

                var start = double.NegativeInfinity;
                while (last >= 0)
                {
                    start = Crossing(_places[last], q);
                    if (start > _from[last])
                    {
                        break;
                    }

                    last--;
                    start = double.NegativeInfinity;
                }

                last++;
                _places[last] = q;
                _from[last] = start;
            }

            for (int q = 0, k = 0; last >= 0 && q < line.Length; q++)
            {
                while (k < last && _from[k + 1] < q)
                {
                    k++;
                }

                var apart = q - _places[k];
                line[q] = (float)((apart * (double)apart) + _heights[_places[k]]);
            }
        }

        private double Crossing(int p, int q) =>
            (_heights[q] + ((double)q * q) - _heights[p] - ((double)p * p)) / (2.0 * (q - p));
    }
}
