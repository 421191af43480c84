namespace Broodtide.Science.Imaging;

/// <summary>How far each pixel of a thing lies from what is no thing.</summary>
public static class Distance
{
    private const float Far = 1e12f;

    /// <summary>
    /// The exact Euclidean distance, in pixels, from the middle of each marked pixel to the middle of the nearest one
    /// that is not; 0 where it is not marked (Felzenszwalb and Huttenlocher 2012, Theory of Computing 8:415: parabolas
    /// down, then across). Outside the picture nothing is known, so the edge counts as no border. Where all is marked
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
        for (var i = 0; i < distance.Length; i++)
        {
            distance[i] = marked[i] == 0 ? 0 : Far;
        }

        var work = new Envelope(Math.Max(shape.Across, shape.Down));
        var column = new float[shape.Down];
        for (var x = 0; x < shape.Across; x++)
        {
            for (var y = 0; y < shape.Down; y++)
            {
                column[y] = distance[(y * shape.Across) + x];
            }

            work.Lower(column);
            for (var y = 0; y < shape.Down; y++)
            {
                distance[(y * shape.Across) + x] = column[y];
            }
        }

        for (var y = 0; y < shape.Down; y++)
        {
            work.Lower(shape.Row(distance, y));
        }

        foreach (ref var value in distance)
        {
            value = value >= Far ? float.PositiveInfinity : MathF.Sqrt(value);
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
