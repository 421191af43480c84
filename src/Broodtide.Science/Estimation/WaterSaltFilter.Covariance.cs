namespace Broodtide.Science.Estimation;

/// <content>How the covariance changes; three rows a vessel: water, salt, evaporation.</content>
public sealed partial class WaterSaltFilter
{
    // x -> A x with A = 1 + D: how the amounts moved depend on what the vessel was believed to hold.
    private void Transfer(int from, int? to, double bySalt, double byWater)
    {
        var (wf, sf) = (Water(from), Salt(from));
        var size = _mean.Length;
        // Rows first, then columns: P -> A P, then (A P) A'.
        for (var pass = 0; pass < 2; pass++)
        {
            for (var k = 0; k < size; k++)
            {
                ref var pw = ref Cell(pass, wf, k);
                ref var ps = ref Cell(pass, sf, k);
                var salt = (bySalt * ps) + (byWater * pw);
                pw += salt;
                ps -= salt;
                if (to is { } into)
                {
                    Cell(pass, Water(into), k) -= salt;
                    Cell(pass, Salt(into), k) += salt;
                }
            }
        }
    }

    private ref double Cell(int pass, int row, int column) =>
        ref pass == 0 ? ref _covariance[row, column] : ref _covariance[column, row];

    private void AddTransferNoise(int from, int? to, double water, double salt)
    {
        var noise = new double[_mean.Length];
        noise[Water(from)] = -water;
        noise[Salt(from)] = -salt;
        if (to is { } into)
        {
            noise[Water(into)] += water;
            noise[Salt(into)] += salt;
        }

        for (var i = 0; i < noise.Length; i++)
        {
            for (var j = 0; j < noise.Length; j++)
            {
                _covariance[i, j] += noise[i] * noise[j];
            }
        }
    }

    private void AddNoise(int slot, ReadOnlySpan<double> noise)
    {
        for (var i = 0; i < 3; i++)
        {
            for (var j = 0; j < 3; j++)
            {
                _covariance[Water(slot) + i, Water(slot) + j] += noise[i] * noise[j];
            }
        }
    }

    // Row and column: x[row] += factor * x[source].
    private void AddRow(int row, int source, double factor)
    {
        var size = _mean.Length;
        for (var k = 0; k < size; k++)
        {
            _covariance[row, k] += factor * _covariance[source, k];
        }

        for (var k = 0; k < size; k++)
        {
            _covariance[k, row] += factor * _covariance[k, source];
        }
    }

    private void Grow()
    {
        var size = _mean.Length + 3;
        Array.Resize(ref _mean, size);
        var larger = new double[size, size];
        for (var i = 0; i < size - 3; i++)
        {
            for (var j = 0; j < size - 3; j++)
            {
                larger[i, j] = _covariance[i, j];
            }
        }

        _covariance = larger;
    }

    private void Shrink(int row)
    {
        var size = _mean.Length - 3;
        var (mean, smaller) = (new double[size], new double[size, size]);
        for (var i = 0; i < size; i++)
        {
            var from = i < 3 * row ? i : i + 3;
            mean[i] = _mean[from];
            for (var j = 0; j < size; j++)
            {
                smaller[i, j] = _covariance[from, j < 3 * row ? j : j + 3];
            }
        }

        (_mean, _covariance) = (mean, smaller);
    }
}
