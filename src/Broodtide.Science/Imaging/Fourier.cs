namespace Broodtide.Science.Imaging;

/// <summary>
/// The discrete Fourier transform of rows and columns whose length is a power of two (Cooley and Tukey 1965, Math.
/// Comput. 19:297), in place, real and imaginary parts apart.
/// </summary>
internal static class Fourier
{
    /// <summary>Forward and, apart from the factor 1/n, backward.</summary>
    public static void Plane(double[] real, double[] imaginary, GridShape shape, bool isBackward)
    {
        var across = new Line(shape.Across, isBackward);
        for (var y = 0; y < shape.Down; y++)
        {
            across.Transform(
                real.AsSpan(y * shape.Across, shape.Across),
                imaginary.AsSpan(y * shape.Across, shape.Across)
            );
        }

        var down = new Line(shape.Down, isBackward);
        var (columnReal, columnImaginary) = (new double[shape.Down], new double[shape.Down]);
        for (var x = 0; x < shape.Across; x++)
        {
            for (var y = 0; y < shape.Down; y++)
            {
                columnReal[y] = real[(y * shape.Across) + x];
                columnImaginary[y] = imaginary[(y * shape.Across) + x];
            }

            down.Transform(columnReal, columnImaginary);
            for (var y = 0; y < shape.Down; y++)
            {
                real[(y * shape.Across) + x] = columnReal[y];
                imaginary[(y * shape.Across) + x] = columnImaginary[y];
            }
        }
    }

    private sealed class Line
    {
        private readonly int _length;
        private readonly double[] _cosines;
        private readonly double[] _sines;

        public Line(int length, bool isBackward)
        {
            _length = length;
            _cosines = new double[length / 2];
            _sines = new double[length / 2];
            for (var i = 0; i < length / 2; i++)
            {
                var (sine, cosine) = Math.SinCos(2 * Math.PI * i / length);
                _cosines[i] = cosine;
                _sines[i] = isBackward ? sine : -sine;
            }
        }

        public void Transform(Span<double> real, Span<double> imaginary)
        {
            for (int i = 1, j = 0; i < _length; i++)
            {
                var bit = _length >> 1;
                for (; (j & bit) != 0; bit >>= 1)
                {
                    j ^= bit;
                }

                j |= bit;
                if (i < j)
                {
                    (real[i], real[j]) = (real[j], real[i]);
                    (imaginary[i], imaginary[j]) = (imaginary[j], imaginary[i]);
                }
            }

            for (var half = 1; half < _length; half *= 2)
            {
                var step = _length / (2 * half);
                for (var start = 0; start < _length; start += 2 * half)
                {
                    for (var k = 0; k < half; k++)
                    {
                        var (c, s) = (_cosines[k * step], _sines[k * step]);
                        var (a, b) = (start + k, start + k + half);
                        var (re, im) = (
                            (real[b] * c) - (imaginary[b] * s),
                            (real[b] * s) + (imaginary[b] * c)
                        );
                        (real[b], imaginary[b]) = (real[a] - re, imaginary[a] - im);
                        (real[a], imaginary[a]) = (real[a] + re, imaginary[a] + im);
                    }
                }
            }
        }
    }
}
