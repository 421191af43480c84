using System.Numerics;
using Lane = System.Numerics.Vector<double>;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>
/// The filter of several suppositions in step, one a lane of the processor's vectors. <see cref="NumberFilter"/> is the
/// same for one supposition and the twin. The covariance is symmetric, so its lower triangle is kept, row by row.
/// </summary>
internal sealed partial class LaneFilter
{
    // A variance this small moves nothing.
    private const double Least = 1e-12;

    private readonly LaneGrid _grid = new();
    private readonly int[] _rows;
    private readonly Lane[] _shared;

    internal LaneFilter(int cells)
    {
        Cells = cells;
        Size = cells + 2;
        Mean = new Lane[Size];
        Gain = new Lane[Size];
        Covariance = new Lane[Size * (Size + 1) / 2];
        _rows = [.. Enumerable.Range(0, Size).Select(row => row * (row + 1) / 2)];
        _shared = new Lane[Size];
    }

    internal int Cells { get; }

    internal int Size { get; }

    internal Lane[] Mean { get; }

    /// <summary>The lower triangle, row by row.</summary>
    internal Lane[] Covariance { get; }

    /// <summary>What the last count told the cells: covariance with the total, divided by its variance.</summary>
    internal Lane[] Gain { get; }

    private int Ever => Cells;

    private int SharedError => Cells + 1;

    internal void Clear(Lane sharedErrorVariance)
    {
        Array.Clear(Mean);
        Array.Clear(Covariance);
        Mean[SharedError] = Lane.One;
        At(SharedError, SharedError) = sharedErrorVariance;
    }

    /// <summary>Mean of the total of some cells.</summary>
    internal Lane Total(ulong cells)
    {
        var mean = Lane.Zero;
        for (var left = cells; left != 0; left &= left - 1)
        {
            mean += Mean[BitOperations.TrailingZeroCount(left)];
        }

        return mean;
    }

    /// <summary>Larvae arrive with a variance of their own.</summary>
    internal void Add(int cell, double mean, Lane variance)
    {
        Mean[cell] += new Lane(mean);
        Mean[Ever] += new Lane(mean);
        At(cell, cell) += variance;
        At(Ever, cell) += variance;
        At(Ever, Ever) += variance;
    }

    /// <summary>Arrival whose number shares an error with others.</summary>
    internal void AddShared(int cell, double number, Lane ownVariance)
    {
        var times = new Lane(number);
        for (var j = 0; j < Size; j++)
        {
            _shared[j] = times * At(SharedError, j);
        }

        var cellShared = times * (At(SharedError, cell) + _shared[SharedError]);
        var everShared = times * (At(SharedError, Ever) + _shared[SharedError]);
        At(cell, cell) += _shared[cell] + cellShared;
        At(Ever, cell) += _shared[Ever] + cellShared;
        At(Ever, Ever) += _shared[Ever] + everShared;
        for (var j = 0; j < Size; j++)
        {
            if (j != cell && j != Ever)
            {
                At(cell, j) += _shared[j];
                At(Ever, j) += _shared[j];
            }
        }

        var mean = times * Mean[SharedError];
        Mean[cell] += mean;
        Mean[Ever] += mean;
        At(cell, cell) += ownVariance;
        At(Ever, cell) += ownVariance;
        At(Ever, Ever) += ownVariance;
    }

    /// <summary>
    /// Each larva survives by its cell's chance, and the cells of a vessel share two deviations: see
    /// <see cref="NumberFilter.Thin(ReadOnlySpan{double})"/> and <see cref="NumberFilter.Shake"/>.
    /// </summary>
    internal void Thin(
        ReadOnlySpan<Lane> survival,
        ReadOnlySpan<Lane> one,
        ReadOnlySpan<Lane> other,
        ReadOnlySpan<int> vessels
    )
    {
        var (ever, shared) = (_rows[Ever], _rows[SharedError]);
        for (var i = 0; i < survival.Length; i++)
        {
            var s = survival[i];
            var row = Covariance.AsSpan(_rows[i], i + 1);
            for (var j = 0; j < row.Length; j++)
            {
                var both = row[j] * (s * survival[j]);
                both += j == i ? s * (Lane.One - s) * Mean[i] : Lane.Zero;
                row[j] = vessels[i] == vessels[j] ? both + ((one[i] * one[j]) + (other[i] * other[j])) : both;
            }

            Covariance[ever + i] *= s;
            Covariance[shared + i] *= s;
            Mean[i] *= s;
        }
    }

    /// <summary>A share of one cell goes into another.</summary>
    internal void Move(int from, int to, double share)
    {
        var (going, staying) = (new Lane(share), new Lane(1 - share));
        for (var j = 0; j < Size; j++)
        {
            if (j != from && j != to)
            {
                At(to, j) += going * At(from, j);
                At(from, j) *= staying;
            }
        }

        var (own, both) = (At(from, from), At(from, to));
        At(to, to) += (going * both) + (going * (both + (going * own)));
        At(from, to) = (both + (going * own)) * staying;
        At(from, from) = own * staying * staying;
        var chance = going * staying * Mean[from];
        At(from, from) += chance;
        At(to, to) += chance;
        At(from, to) -= chance;
        Mean[to] += going * Mean[from];
        Mean[from] *= staying;
    }

    internal void MoveNumber(int from, int to, double number)
    {
        var gone = Vector.Min(new Lane(number), Mean[from]);
        Mean[from] -= gone;
        Mean[to] += gone;
    }

    /// <summary>Larvae are taken out of some cells, each alike.</summary>
    internal void RemoveFrom(ulong cells, double number)
    {
        var total = Total(cells);
        var any = Vector.GreaterThan(total, Lane.Zero);
        var perAll = Lanes.Where(any, Lane.One / total, Lane.Zero);
        var gone = Lanes.Where(any, Vector.Min(new Lane(number), total), Lane.Zero);
        var chance = gone * (total - gone) / Vector.Max(total, Lane.One);
        for (var left = cells; left != 0; left &= left - 1)
        {
            var i = BitOperations.TrailingZeroCount(left);
            var share = Mean[i] * perAll;
            for (var others = cells; others != 0; others &= others - 1)
            {
                var j = BitOperations.TrailingZeroCount(others);
                if (j <= i)
                {
                    At(i, j) += chance * ((i == j ? share : Lane.Zero) - (share * (Mean[j] * perAll)));
                }
            }
        }

        // Divided anew: where all are taken out, nothing must be left, not even what rounding leaves.
        var staying = Lanes.Where(any, Lane.One - (gone / total), Lane.One);
        for (var left = cells; left != 0; left &= left - 1)
        {
            Mean[BitOperations.TrailingZeroCount(left)] *= staying;
        }
    }

    private ref Lane At(int i, int j) => ref Covariance[i >= j ? _rows[i] + j : _rows[j] + i];
}
