using Lane = System.Numerics.Vector<double>;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>
/// What later entries say about earlier numbers, one supposition a lane; <see cref="LarvalAdjoint"/> is the twin. The
/// matrix is symmetric: its lower triangle is kept, row by row.
/// </summary>
internal sealed class LaneAdjoint
{
    private readonly int _size;
    private readonly Lane[] _vector;
    private readonly Lane[] _matrix;
    private readonly Lane[] _row;

    internal LaneAdjoint(int size)
    {
        _size = size;
        _vector = new Lane[size];
        _matrix = new Lane[size * (size + 1) / 2];
        _row = new Lane[size];
    }

    internal void Clear()
    {
        Array.Clear(_vector);
        Array.Clear(_matrix);
    }

    /// <summary>Back over a count of a total.</summary>
    internal void Told(ulong cells, int ever, ReadOnlySpan<Lane> gain, in LaneTold told)
    {
        // a is the functional observed, K the gain: L' = a a'(rho/V) + (I - rho a K') L (I - rho K a').
        Through(_matrix, gain, _row);
        var rho = told.Narrowed;
        var (along, twice) = (Lane.Zero, Lane.Zero);
        for (var i = 0; i < _size; i++)
        {
            along += gain[i] * _vector[i];
            twice += gain[i] * _row[i];
        }

        var pulled = told.Pull + (rho * along);
        var own = (rho * told.InverseVariance) + (rho * rho * twice);
        var at = 0;
        for (var i = 0; i < _size; i++)
        {
            var ai = Weight(cells, ever, i);
            _vector[i] -= new Lane(ai) * pulled;
            for (var j = 0; j <= i; j++, at++)
            {
                var aj = Weight(cells, ever, j);
                if (ai != 0 || aj != 0)
                {
                    _matrix[at] +=
                        (new Lane(ai * aj) * own)
                        - (rho * ((new Lane(ai) * _row[j]) + (_row[i] * new Lane(aj))));
                }
            }
        }
    }

    /// <summary>Back over survival.</summary>
    internal void Thinned(ReadOnlySpan<Lane> survival)
    {
        var at = 0;
        for (var i = 0; i < _size; i++)
        {
            var s = i < survival.Length ? survival[i] : Lane.One;
            _vector[i] *= s;
            for (var j = 0; j <= i; j++, at++)
            {
                _matrix[at] *= j < survival.Length ? s * survival[j] : s;
            }
        }
    }

    /// <summary>Back over an arrival whose number shares the common error.</summary>
    internal void Arrived(int cell, double number)
    {
        var (ever, shared, times) = (_size - 2, _size - 1, new Lane(number));
        for (var j = 0; j < _size; j++)
        {
            _row[j] = times * (At(cell, j) + At(ever, j));
        }

        _vector[shared] += times * (_vector[cell] + _vector[ever]);
        At(shared, shared) += _row[shared] + (times * (_row[cell] + _row[ever]));
        for (var j = 0; j < _size; j++)
        {
            At(shared, j) += _row[j];
        }
    }

    /// <summary>Back over a move of a share from one cell into another.</summary>
    internal void Moved(int from, int to, double share)
    {
        var (going, staying) = (new Lane(share), new Lane(1 - share));
        var (own, both, there) = (At(from, from), At(from, to), At(to, to));
        _vector[from] = (staying * _vector[from]) + (going * _vector[to]);
        for (var j = 0; j < _size; j++)
        {
            At(from, j) = (staying * At(from, j)) + (going * At(to, j));
        }

        At(from, to) = (staying * both) + (going * there);
        At(from, from) =
            (staying * ((staying * own) + (going * both))) + (going * ((staying * both) + (going * there)));
    }

    /// <summary>The smoothed mean: m - P l.</summary>
    internal void SmoothMean(ReadOnlySpan<Lane> mean, ReadOnlySpan<Lane> covariance, Span<Lane> smoothed)
    {
        Through(covariance, _vector, smoothed);
        for (var i = 0; i < _size; i++)
        {
            smoothed[i] = mean[i] - smoothed[i];
        }
    }

    /// <summary>The matrix times a vector.</summary>
    internal void Through(ReadOnlySpan<Lane> vector, Span<Lane> product) => Through(_matrix, vector, product);

    private static void Through(ReadOnlySpan<Lane> triangle, ReadOnlySpan<Lane> vector, Span<Lane> product)
    {
        var at = 0;
        for (var i = 0; i < product.Length; i++)
        {
            var (sum, times) = (Lane.Zero, vector[i]);
            for (var j = 0; j < i; j++, at++)
            {
                sum += triangle[at] * vector[j];
                product[j] += triangle[at] * times;
            }

            product[i] = sum + (triangle[at++] * times);
        }
    }

    private ref Lane At(int i, int j) => ref _matrix[i >= j ? (i * (i + 1) / 2) + j : (j * (j + 1) / 2) + i];

    private double Weight(ulong cells, int ever, int i) =>
        i < _size - 2
            ? (((cells >> i) & 1) == 0 ? 0 : (ever < 0 ? -1 : 1))
            : (i == _size - 2 && ever < 0 ? 1 : 0);
}
