namespace Broodtide.Science.Estimation.Larvae;

/// <summary>What later entries say about earlier numbers: a vector and a matrix carried backward in time.</summary>
internal sealed class LarvalAdjoint
{
    private readonly int _size;
    private readonly double[] _vector;
    private readonly double[] _matrix;
    private readonly double[] _row;
    private readonly double[] _product;
    private readonly double[] _smoothed;
    private bool _isEmpty = true;

    internal LarvalAdjoint(int size)
    {
        _size = size;
        _vector = new double[size];
        _matrix = new double[size * size];
        _row = new double[size];
        _product = new double[size * size];
        _smoothed = new double[size * size];
    }

    internal void Clear()
    {
        Array.Clear(_vector);
        Array.Clear(_matrix);
        _isEmpty = true;
    }

    /// <summary>Back over a count of a total: the cells' bits with weight 1 (-1 with ever = -1: of the deaths).</summary>
    internal void Told(ulong cells, int ever, ReadOnlySpan<double> gain, in TotalTold told)
    {
        if (told.InverseVariance == 0)
        {
            return;
        }

        // a is the functional observed, K the gain: L' = a a'(rho/V) + (I - rho a K') L (I - rho K a').
        var rho = told.Narrowed;
        double along = 0;
        double twice = 0;
        for (var i = 0; i < _size; i++)
        {
            along += gain[i] * _vector[i];
            double sum = 0;
            for (var j = 0; j < _size; j++)
            {
                sum += _matrix[(i * _size) + j] * gain[j];
            }

            _row[i] = sum;
            twice += gain[i] * sum;
        }

        for (var i = 0; i < _size; i++)
        {
            var ai = Weight(cells, ever, i);
            if (ai != 0)
            {
                _vector[i] -= ai * (told.Pull + (rho * along));
            }
        }

        var own = (rho * told.InverseVariance) + (rho * rho * twice);
        for (var i = 0; i < _size; i++)
        {
            var ai = Weight(cells, ever, i);
            for (var j = 0; j < _size; j++)
            {
                var aj = Weight(cells, ever, j);
                if (ai != 0 || aj != 0)
                {
                    _matrix[(i * _size) + j] += (ai * aj * own) - (rho * ((ai * _row[j]) + (_row[i] * aj)));
                }
            }
        }

        _isEmpty = false;
    }

    /// <summary>Back over survival.</summary>
    internal void Thinned(ReadOnlySpan<double> survival)
    {
        if (_isEmpty)
        {
            return;
        }

        for (var i = 0; i < survival.Length; i++)
        {
            var s = survival[i];
            if (s == 1)
            {
                continue;
            }

            _vector[i] *= s;
            for (var j = 0; j < _size; j++)
            {
                _matrix[(i * _size) + j] *= s;
                _matrix[(j * _size) + i] *= s;
            }
        }
    }

    /// <summary>Back over an arrival whose number shares the common error.</summary>
    internal void Arrived(int cell, double number)
    {
        // x' = M x with M = I + number (e_cell + e_ever) e_shared'.
        var ever = _size - 2;
        var shared = _size - 1;
        _vector[shared] += number * (_vector[cell] + _vector[ever]);
        for (var j = 0; j < _size; j++)
        {
            _matrix[(shared * _size) + j] +=
                number * (_matrix[(cell * _size) + j] + _matrix[(ever * _size) + j]);
        }

        for (var j = 0; j < _size; j++)
        {
            _matrix[(j * _size) + shared] +=
                number * (_matrix[(j * _size) + cell] + _matrix[(j * _size) + ever]);
        }
    }

    /// <summary>Back over a move of a share from one cell into another.</summary>
    internal void Moved(int from, int to, double share)
    {
        _vector[from] = ((1 - share) * _vector[from]) + (share * _vector[to]);
        for (var j = 0; j < _size; j++)
        {
            _matrix[(from * _size) + j] =
                ((1 - share) * _matrix[(from * _size) + j]) + (share * _matrix[(to * _size) + j]);
        }

        for (var j = 0; j < _size; j++)
        {
            _matrix[(j * _size) + from] =
                ((1 - share) * _matrix[(j * _size) + from]) + (share * _matrix[(j * _size) + to]);
        }
    }

    /// <summary>Turns filtered mean and covariance into smoothed ones: m - P l, P - P L P.</summary>
    internal void Smooth(Span<double> mean, Span<double> covariance)
    {
        if (_isEmpty)
        {
            return;
        }

        for (var i = 0; i < _size; i++)
        {
            double sum = 0;
            for (var j = 0; j < _size; j++)
            {
                sum += covariance[(i * _size) + j] * _vector[j];
            }

            _row[i] = sum;
        }

        for (var i = 0; i < _size; i++)
        {
            mean[i] -= _row[i];
        }

        Multiply(covariance, _matrix, _product);
        // P L P, row by row; the old rows are still needed, so the result goes into a buffer first.
        Multiply(_product, covariance, _smoothed);
        for (var i = 0; i < _smoothed.Length; i++)
        {
            covariance[i] -= _smoothed[i];
        }
    }

    private void Multiply(ReadOnlySpan<double> left, ReadOnlySpan<double> right, Span<double> product)
    {
        product.Clear();
        for (var i = 0; i < _size; i++)
        {
            for (var k = 0; k < _size; k++)
            {
                var l = left[(i * _size) + k];
                if (l == 0)
                {
                    continue;
                }

                for (var j = 0; j < _size; j++)
                {
                    product[(i * _size) + j] += l * right[(k * _size) + j];
                }
            }
        }
    }

    private double Weight(ulong cells, int ever, int i) =>
        i < _size - 2
            ? ((cells >> i) & 1) == 0
                ? 0
                : (ever < 0 ? -1 : 1)
            : (i == _size - 2 && ever < 0 ? 1 : 0);
}
