using System.Numerics;
using Lane = System.Numerics.Vector<double>;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>
/// What a way back tells of each day that is asked, one supposition a lane: the mean of every component, and mean and
/// variance of the totals of some cells. A total needs the adjoint at one vector only, so the smoothed covariance is never
/// multiplied out; <see cref="LarvalAdjoint.Smooth"/> does that for one supposition and is the twin.
/// </summary>
internal sealed class LaneTotals
{
    private readonly ulong[] _sets;
    private readonly Func<int, int> _setsOn;
    private readonly int _size;
    private readonly Lane[] _means;
    private readonly (Lane Mean, Lane Variance)[] _totals;
    private readonly (Lane WithAll, Lane Variance)[] _ever;
    private readonly Lane[] _along;
    private readonly Lane[] _through;
    private readonly Lane[] _everRow;
    private readonly Lane[] _everThrough;

    /// <param name="size">Components of the state; the last two are the number that ever arrived and the shared error.</param>
    /// <param name="tellings">How many days are told.</param>
    /// <param name="sets">Bits of the cells of each total; the first is that of all cells.</param>
    /// <param name="setsOn">How many of the totals, from the first, a day tells; one or more.</param>
    internal LaneTotals(int size, int tellings, ulong[] sets, Func<int, int> setsOn)
    {
        _sets = sets;
        _setsOn = setsOn;
        _size = size;
        _means = new Lane[tellings * size];
        _totals = new (Lane, Lane)[tellings * sets.Length];
        _ever = new (Lane, Lane)[tellings];
        _along = new Lane[size];
        _through = new Lane[size];
        _everRow = new Lane[size];
        _everThrough = new Lane[size];
    }

    /// <summary>Means at a telling, larvae, by cell; then the number that ever arrived.</summary>
    internal ReadOnlySpan<Lane> MeanAt(int telling) => _means.AsSpan(telling * _size, _size);

    /// <summary>Mean and variance of a total, neither below zero.</summary>
    internal (Lane Mean, Lane Variance) Total(int telling, int set) =>
        _totals[(telling * _sets.Length) + set];

    /// <summary>Of the number that ever arrived: its covariance with all that live, and its variance.</summary>
    internal (Lane WithAll, Lane Variance) Ever(int telling) => _ever[telling];

    /// <summary>Takes the filtered mean and covariance of a day with what later entries say.</summary>
    internal void Take(
        int telling,
        ReadOnlySpan<Lane> mean,
        ReadOnlySpan<Lane> covariance,
        LaneAdjoint adjoint
    )
    {
        var smoothed = _means.AsSpan(telling * _size, _size);
        adjoint.SmoothMean(mean, covariance, smoothed);
        var ever = _size - 2;
        Array.Clear(_everRow);
        AddRow(covariance, ever, _everRow);
        adjoint.Through(_everRow, _everThrough);
        var withAll = Lane.Zero;
        for (var set = 0; set < _setsOn(telling); set++)
        {
            Array.Clear(_along);
            var (sum, variance) = (Lane.Zero, Lane.Zero);
            for (var left = _sets[set]; left != 0; left &= left - 1)
            {
                var i = BitOperations.TrailingZeroCount(left);
                sum += smoothed[i];
                AddRow(covariance, i, _along);
            }

            for (var left = _sets[set]; left != 0; left &= left - 1)
            {
                variance += _along[BitOperations.TrailingZeroCount(left)];
            }

            // a'(P - P L P)a, with P a along and L P a through.
            adjoint.Through(_along, _through);
            variance -= Dot(_along, _through);
            _totals[(telling * _sets.Length) + set] = (
                Vector.Max(Lane.Zero, sum),
                Vector.Max(Lane.Zero, variance)
            );
            withAll = set == 0 ? _along[ever] - Dot(_along, _everThrough) : withAll;
        }

        _ever[telling] = (withAll, _everRow[ever] - Dot(_everRow, _everThrough));
    }

    private void AddRow(ReadOnlySpan<Lane> triangle, int i, Span<Lane> sum)
    {
        var row = i * (i + 1) / 2;
        for (var j = 0; j <= i; j++)
        {
            sum[j] += triangle[row + j];
        }

        for (var j = i + 1; j < _size; j++)
        {
            sum[j] += triangle[(j * (j + 1) / 2) + i];
        }
    }

    private static Lane Dot(ReadOnlySpan<Lane> left, ReadOnlySpan<Lane> right)
    {
        var sum = Lane.Zero;
        for (var i = 0; i < left.Length; i++)
        {
            sum += left[i] * right[i];
        }

        return sum;
    }
}
