using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace Broodtide.Science.Imaging;

/// <summary>
/// The discrete Fourier transform of rows and columns whose length is a power of two (Cooley and Tukey 1965, Math.
/// Comput. 19:297), in place, real and imaginary parts apart. Sixteen lines at a time, as many of them at once as the
/// machine has lanes.
/// </summary>
internal static class Fourier
{
    /// <summary>Forward and, apart from the factor 1/n, backward.</summary>
    public static void Plane(float[] real, float[] imaginary, GridShape shape, bool isBackward)
    {
        Rows(real, imaginary, shape, isBackward);
        Columns(real, imaginary, shape, isBackward);
    }

    private static void Rows(float[] real, float[] imaginary, GridShape shape, bool isBackward)
    {
        var lines = new Lines(shape.Across, isBackward);
        for (var y = 0; y < shape.Down; y += Lines.Count)
        {
            var (at, length) = (y * shape.Across, Math.Min(Lines.Count, shape.Down - y) * shape.Across);
            lines.PutRows(real.AsSpan(at, length), imaginary.AsSpan(at, length));
            lines.Transform();
            lines.TakeRows(real.AsSpan(at, length), imaginary.AsSpan(at, length));
        }
    }

    private static void Columns(float[] real, float[] imaginary, GridShape shape, bool isBackward)
    {
        var lines = new Lines(shape.Down, isBackward);
        for (var x = 0; x < shape.Across; x += Lines.Count)
        {
            var many = Math.Min(Lines.Count, shape.Across - x);
            for (var y = 0; y < shape.Down; y++)
            {
                var at = (y * shape.Across) + x;
                lines.Put(y, real.AsSpan(at, many), imaginary.AsSpan(at, many));
            }

            lines.Transform();
            for (var y = 0; y < shape.Down; y++)
            {
                var at = (y * shape.Across) + x;
                lines.Take(y, real.AsSpan(at, many), imaginary.AsSpan(at, many));
            }
        }
    }

    private sealed class Lines
    {
        /// <summary>Lines that lie side by side: as many as a line of the processor's memory holds.</summary>
        public const int Count = 16;

        private readonly int _length;
        private readonly int[] _reversed;
        private readonly float[] _cosines;
        private readonly float[] _sines;
        private readonly float[] _real;
        private readonly float[] _imaginary;

        public Lines(int length, bool isBackward)
        {
            _length = length;
            (_real, _imaginary) = (new float[Place(length)], new float[Place(length)]);
            _reversed = Reversed(length);
            _cosines = new float[length / 2];
            _sines = new float[length / 2];
            for (var i = 0; i < length / 2; i++)
            {
                var (sine, cosine) = Math.SinCos(2 * Math.PI * i / length);
                _cosines[i] = (float)cosine;
                _sines[i] = (float)(isBackward ? sine : -sine);
            }
        }

        public void Put(int at, ReadOnlySpan<float> real, ReadOnlySpan<float> imaginary)
        {
            real.CopyTo(_real.AsSpan(_reversed[at]));
            imaginary.CopyTo(_imaginary.AsSpan(_reversed[at]));
        }

        public void Take(int at, Span<float> real, Span<float> imaginary)
        {
            _real.AsSpan(Place(at), real.Length).CopyTo(real);
            _imaginary.AsSpan(Place(at), real.Length).CopyTo(imaginary);
        }

        /// <summary>Rows that lie one after the other, at most <see cref="Count"/>.</summary>
        public void PutRows(ReadOnlySpan<float> real, ReadOnlySpan<float> imaginary)
        {
            Turn(real, _real);
            Turn(imaginary, _imaginary);
        }

        public void TakeRows(Span<float> real, Span<float> imaginary)
        {
            TurnBack(_real, real);
            TurnBack(_imaginary, imaginary);
        }

        public void Transform()
        {
            var stages = int.Log2(_length);
            var half = 1;
            if (stages % 2 == 1)
            {
                Pairs();
                half = 2;
            }

            for (; half < _length; half *= 4)
            {
                Fours(half);
            }
        }

        // The first stage alone: its factors are 1.
        private void Pairs()
        {
            for (var at = 0; at < _length; at += 2)
            {
                for (var lane = Place(at); lane < Place(at) + Count; lane += Vector<float>.Count)
                {
                    AddAndTake(_real, lane, lane + Count);
                    AddAndTake(_imaginary, lane, lane + Count);
                }
            }
        }

        // Two stages at once, so that each value is fetched half as often: what two of half the length make, then what
        // two of those make.
        private void Fours(int half)
        {
            var step = _length / (4 * half);
            var (one, two, three) = (Place(half), Place(2 * half), Place(3 * half));
            for (var k = 0; k < half; k++)
            {
                var first = new Factor(_cosines[2 * k * step], _sines[2 * k * step]);
                var low = new Factor(_cosines[k * step], _sines[k * step]);
                var high = new Factor(_cosines[(k + half) * step], _sines[(k + half) * step]);
                for (var at = k; at < _length; at += 4 * half)
                {
                    for (var lane = Place(at); lane < Place(at) + Count; lane += Vector<float>.Count)
                    {
                        Four(lane, (one, two, three), first, low, high);
                    }
                }
            }
        }

        private void Four(
            int at,
            (int One, int Two, int Three) behind,
            in Factor first,
            in Factor low,
            in Factor high
        )
        {
            ref var real = ref MemoryMarshal.GetReference(
                _real.AsSpan(at, behind.Three + Vector<float>.Count)
            );
            ref var imaginary = ref MemoryMarshal.GetReference(
                _imaginary.AsSpan(at, behind.Three + Vector<float>.Count)
            );
            var (one, two, three) = ((nuint)behind.One, (nuint)behind.Two, (nuint)behind.Three);
            first.Turn(ref real, ref imaginary, one, out var bReal, out var bImaginary);
            first.Turn(ref real, ref imaginary, three, out var dReal, out var dImaginary);
            var aReal = Vector.LoadUnsafe(ref real);
            var aImaginary = Vector.LoadUnsafe(ref imaginary);
            var cReal = Vector.LoadUnsafe(ref real, two);
            var cImaginary = Vector.LoadUnsafe(ref imaginary, two);
            low.Turn(cReal + dReal, cImaginary + dImaginary, out var eReal, out var eImaginary);
            high.Turn(cReal - dReal, cImaginary - dImaginary, out var fReal, out var fImaginary);
            (aReal + bReal + eReal).StoreUnsafe(ref real);
            (aImaginary + bImaginary + eImaginary).StoreUnsafe(ref imaginary);
            (aReal + bReal - eReal).StoreUnsafe(ref real, two);
            (aImaginary + bImaginary - eImaginary).StoreUnsafe(ref imaginary, two);
            (aReal - bReal + fReal).StoreUnsafe(ref real, one);
            (aImaginary - bImaginary + fImaginary).StoreUnsafe(ref imaginary, one);
            (aReal - bReal - fReal).StoreUnsafe(ref real, three);
            (aImaginary - bImaginary - fImaginary).StoreUnsafe(ref imaginary, three);
        }

        private static void AddAndTake(float[] values, int one, int other)
        {
            var (a, b) = (new Vector<float>(values, one), new Vector<float>(values, other));
            (a + b).CopyTo(values, one);
            (a - b).CopyTo(values, other);
        }

        // In tiles, so that each line of memory is filled before it is left.
        private void Turn(ReadOnlySpan<float> rows, float[] values)
        {
            for (var from = 0; from < _length; from += Count)
            {
                var many = Math.Min(Count, _length - from);
                for (var lane = 0; lane * _length < rows.Length; lane++)
                {
                    var part = rows.Slice((lane * _length) + from, many);
                    var places = _reversed.AsSpan(from, many);
                    for (var i = 0; i < part.Length; i++)
                    {
                        values[places[i] + lane] = part[i];
                    }
                }
            }
        }

        private void TurnBack(float[] values, Span<float> rows)
        {
            for (var from = 0; from < _length; from += Count)
            {
                var many = Math.Min(Count, _length - from);
                for (var lane = 0; lane * _length < rows.Length; lane++)
                {
                    var part = rows.Slice((lane * _length) + from, many);
                    for (var i = 0; i < part.Length; i++)
                    {
                        part[i] = values[Place(from + i) + lane];
                    }
                }
            }
        }

        // Every 64 places one is left out: places a power of two apart would share their few lines of fast memory.
        private static int Place(int at) => (at + (at >> 6)) * Count;

        // Where each index goes: its bits read backwards.
        private static int[] Reversed(int length)
        {
            var places = new int[length];
            for (var i = 1; i < length; i++)
            {
                places[i] = (places[i >> 1] >> 1) | ((i & 1) == 1 ? length >> 1 : 0);
            }

            return Array.ConvertAll(places, Place);
        }
    }

    // A point on the unit circle by which values are turned.
    private readonly struct Factor(float cosine, float sine)
    {
        private readonly Vector<float> _cosine = new(cosine);
        private readonly Vector<float> _sine = new(sine);

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void Turn(
            ref float real,
            ref float imaginary,
            nuint at,
            out Vector<float> turnedReal,
            out Vector<float> turnedImaginary
        ) =>
            Turn(
                Vector.LoadUnsafe(ref real, at),
                Vector.LoadUnsafe(ref imaginary, at),
                out turnedReal,
                out turnedImaginary
            );

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void Turn(
            Vector<float> real,
            Vector<float> imaginary,
            out Vector<float> turnedReal,
            out Vector<float> turnedImaginary
        )
        {
            turnedReal = (real * _cosine) - (imaginary * _sine);
            turnedImaginary = (real * _sine) + (imaginary * _cosine);
        }
    }
}
