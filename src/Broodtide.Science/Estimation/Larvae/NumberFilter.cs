using System.Numerics;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>What a count did to the total it was of.</summary>
/// <param name="Pull">How far the mean moved, divided by the variance before.</param>
/// <param name="Narrowed">Which share of the variance went.</param>
/// <param name="InverseVariance">One over the variance before.</param>
internal readonly record struct TotalTold(double Pull, double Narrowed, double InverseVariance);

/// <summary>
/// Numbers of larvae in several cells as mean and covariance, carried through deaths, arrivals, moves and counts.
/// Deaths thin binomially; a count multiplies the gamma-shaped belief about the counted total by its exact
/// likelihood, and the cells follow the total by linear regression. Nothing is drawn by chance.
/// </summary>
/// <remarks>
/// The last two components are the number that ever arrived and the common error factor of the numbers at arrival;
/// both stand in the same linear state so that a count teaches them too.
/// </remarks>
public sealed class NumberFilter
{
    private readonly CountGrid _grid = new();
    private readonly double[] _gain;

    /// <summary>A filter in which nothing lives yet.</summary>
    /// <param name="cells">Number of cells, 1 to 62.</param>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than one or more than 62 cells.</exception>
    public NumberFilter(int cells)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(cells, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(cells, 62);
        Cells = cells;
        Size = cells + 2;
        Mean = new double[Size];
        Covariance = new double[Size * Size];
        _gain = new double[Size];
        Clear(0);
    }

    /// <summary>Number of cells.</summary>
    public int Cells { get; }

    /// <summary>The total of some cells: its mean and variance.</summary>
    /// <param name="cells">Bits of the cells.</param>
    public (double Mean, double Variance) Total(ulong cells)
    {
        double mean = 0;
        double variance = 0;
        for (var left = cells; left != 0; left &= left - 1)
        {
            var i = BitOperations.TrailingZeroCount(left);
            mean += Mean[i];
            var row = i * Size;
            for (var others = cells; others != 0; others &= others - 1)
            {
                variance += Covariance[row + BitOperations.TrailingZeroCount(others)];
            }
        }

        return (mean, Math.Max(0, variance));
    }

    /// <summary>Larvae arrive: a number with a variance of its own, added to a cell.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="mean">Mean number, larvae.</param>
    /// <param name="variance">Its variance.</param>
    public void Add(int cell, double mean, double variance)
    {
        Mean[cell] += mean;
        Mean[Ever] += mean;
        Covariance[(cell * Size) + cell] += variance;
        Covariance[(cell * Size) + Ever] += variance;
        Covariance[(Ever * Size) + cell] += variance;
        Covariance[(Ever * Size) + Ever] += variance;
    }

    /// <summary>Each larva of every cell survives with one chance, independently of the others.</summary>
    /// <param name="survival">The chance, 0 to 1.</param>
    public void Thin(double survival)
    {
        Span<double> each = stackalloc double[Cells];
        each.Fill(survival);
        Thin(each);
    }

    /// <summary>Larvae are taken out of a cell: a number known exactly, as far as there are so many.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="number">How many.</param>
    public void Remove(int cell, double number) => Mean[cell] = Math.Max(0, Mean[cell] - number);

    /// <summary>A count of the total of some cells, without any unknown of a run.</summary>
    /// <param name="cells">Bits of the cells.</param>
    /// <param name="evidence">The count; kinds that rest on a run's clumping or detection are refused.</param>
    /// <returns>The natural logarithm of the probability of what was seen.</returns>
    /// <exception cref="ArgumentException">The count rests on an unknown of a run.</exception>
    public double Observe(ulong cells, CountEvidence evidence)
    {
        if (evidence is AliquotEvidence or AliquotSumEvidence or LookEvidence)
        {
            throw new ArgumentException(
                "Such a count needs a run's clumping or detection.",
                nameof(evidence)
            );
        }

        return Observe(cells, CountTerm.Of(evidence), default, oddEntry: 0, out _);
    }

    internal int Size { get; }

    internal int Ever => Cells;

    internal int SharedError => Cells + 1;

    internal double[] Mean { get; }

    internal double[] Covariance { get; }

    /// <summary>What the last count told the cells: covariance with the total, divided by its variance.</summary>
    internal ReadOnlySpan<double> Gain => _gain;

    internal void Clear(double sharedErrorVariance)
    {
        Array.Clear(Mean);
        Array.Clear(Covariance);
        Mean[SharedError] = 1;
        Covariance[(SharedError * Size) + SharedError] = sharedErrorVariance;
    }

    internal void Thin(ReadOnlySpan<double> survival)
    {
        for (var i = 0; i < Size; i++)
        {
            var s = i < survival.Length ? survival[i] : 1;
            var row = Covariance.AsSpan(i * Size, Size);
            for (var j = 0; j < survival.Length; j++)
            {
                row[j] *= s * survival[j];
            }

            if (i < survival.Length)
            {
                row[Ever] *= s;
                row[SharedError] *= s;
                row[i] += s * (1 - s) * Mean[i];
                Mean[i] *= s;
            }
        }
    }

    /// <summary>
    /// Two deviations that some cells share: the outer product of each vector is added to the covariance.
    /// </summary>
    internal void Shake(ReadOnlySpan<int> cells, ReadOnlySpan<double> one, ReadOnlySpan<double> other)
    {
        foreach (var i in cells)
        {
            var row = Covariance.AsSpan(i * Size, Size);
            var (a, b) = (one[i], other[i]);
            foreach (var j in cells)
            {
                row[j] += (a * one[j]) + (b * other[j]);
            }
        }
    }

    /// <summary>Arrival whose number shares an error with others: number times the common factor.</summary>
    internal void AddShared(int cell, double number, double ownVariance)
    {
        for (var j = 0; j < Size; j++)
        {
            var shared = number * Covariance[(SharedError * Size) + j];
            Covariance[(cell * Size) + j] += shared;
            Covariance[(Ever * Size) + j] += shared;
        }

        for (var j = 0; j < Size; j++)
        {
            var shared = number * Covariance[(j * Size) + SharedError];
            Covariance[(j * Size) + cell] += shared;
            Covariance[(j * Size) + Ever] += shared;
        }

        var mean = number * Mean[SharedError];
        Mean[cell] += mean;
        Mean[Ever] += mean;
        Covariance[(cell * Size) + cell] += ownVariance;
        Covariance[(cell * Size) + Ever] += ownVariance;
        Covariance[(Ever * Size) + cell] += ownVariance;
        Covariance[(Ever * Size) + Ever] += ownVariance;
    }

    /// <summary>A share of one cell goes into another; with a share below 1 who goes is a matter of chance.</summary>
    internal void Move(int from, int to, double share)
    {
        for (var j = 0; j < Size; j++)
        {
            Covariance[(to * Size) + j] += share * Covariance[(from * Size) + j];
            Covariance[(from * Size) + j] *= 1 - share;
        }

        for (var j = 0; j < Size; j++)
        {
            Covariance[(j * Size) + to] += share * Covariance[(j * Size) + from];
            Covariance[(j * Size) + from] *= 1 - share;
        }

        var chance = share * (1 - share) * Mean[from];
        Covariance[(from * Size) + from] += chance;
        Covariance[(to * Size) + to] += chance;
        Covariance[(from * Size) + to] -= chance;
        Covariance[(to * Size) + from] -= chance;
        Mean[to] += share * Mean[from];
        Mean[from] *= 1 - share;
    }

    /// <summary>A number of larvae goes from one cell into another.</summary>
    internal void MoveNumber(int from, int to, double number)
    {
        var gone = Math.Min(number, Mean[from]);
        Mean[from] -= gone;
        Mean[to] += gone;
    }

    /// <summary>Larvae are taken out of some cells, each alike: which cells they came from is a matter of chance.</summary>
    internal void RemoveFrom(ulong cells, double number)
    {
        var (total, _) = Total(cells);
        if (total <= 0)
        {
            return;
        }

        var gone = Math.Min(number, total);
        for (var left = cells; left != 0; left &= left - 1)
        {
            var i = BitOperations.TrailingZeroCount(left);
            var share = Mean[i] / total;
            for (var others = cells; others != 0; others &= others - 1)
            {
                var j = BitOperations.TrailingZeroCount(others);
                var otherShare = Mean[j] / total;
                Covariance[(i * Size) + j] +=
                    gone
                    * ((i == j ? share : 0) - (share * otherShare))
                    * (total - gone)
                    / Math.Max(total, 1);
            }
        }

        for (var left = cells; left != 0; left &= left - 1)
        {
            Mean[BitOperations.TrailingZeroCount(left)] *= 1 - (gone / total);
        }
    }

    /// <summary>A count by its likelihood.</summary>
    /// <param name="cells">Bits of the cells counted.</param>
    /// <param name="term">The likelihood.</param>
    /// <param name="unknowns">The run's clumping and detection.</param>
    /// <param name="oddEntry">Chance that the entry is plainly wrong.</param>
    /// <param name="told">What the count did to the total.</param>
    internal double Observe(
        ulong cells,
        CountTerm term,
        in CountUnknowns unknowns,
        double oddEntry,
        out TotalTold told
    )
    {
        var (mean, variance) = Gather(cells);
        var after = _grid.Update(mean, variance, term, unknowns, oddEntry);
        Regress(mean, variance, after, out told);
        NoneBelowZero(cells, after.Mean);
        return after.LogEvidence;
    }

    /// <summary>A look that says how many are there at least and can only raise the belief.</summary>
    /// <param name="cells">Bits of the cells looked at.</param>
    /// <param name="term">How many at least.</param>
    /// <param name="oddEntry">Chance that the entry is plainly wrong.</param>
    /// <param name="told">What the look did to the total.</param>
    internal double Raise(ulong cells, CountTerm term, double oddEntry, out TotalTold told)
    {
        var (mean, variance) = Gather(cells);
        // That there is none at least says nothing, and must move nothing by the roughness of the grid.
        var after = term.Seen == 0 ? new(mean, variance, 0) : _grid.Raise(mean, variance, term, oddEntry);
        Regress(mean, variance, after with { Variance = variance }, out told);
        NoneBelowZero(cells, after.Mean);
        return after.LogEvidence;
    }

    // Mean and variance of a total; its covariance with every component goes into the gain.
    private (double Mean, double Variance) Gather(ulong cells)
    {
        double mean = 0;
        double variance = 0;
        Array.Clear(_gain);
        for (var left = cells; left != 0; left &= left - 1)
        {
            var i = BitOperations.TrailingZeroCount(left);
            mean += Mean[i];
            var row = Covariance.AsSpan(i * Size, Size);
            for (var j = 0; j < row.Length; j++)
            {
                _gain[j] += row[j];
            }
        }

        for (var left = cells; left != 0; left &= left - 1)
        {
            variance += _gain[BitOperations.TrailingZeroCount(left)];
        }

        return (mean, variance);
    }

    /// <summary>Deaths so far are at least a number: arrivals less what left less what lives.</summary>
    /// <param name="gone">Larvae that left the run alive, in all.</param>
    /// <param name="atLeast">Dead ones found, in all.</param>
    /// <param name="oddEntry">Chance that the entry is plainly wrong.</param>
    /// <param name="told">What it did to the number of deaths.</param>
    internal double ObserveDeaths(double gone, CountTerm atLeast, double oddEntry, out TotalTold told)
    {
        var mean = Mean[Ever] - gone;
        for (var j = 0; j < Size; j++)
        {
            _gain[j] = Covariance[(Ever * Size) + j];
        }

        for (var i = 0; i < Cells; i++)
        {
            mean -= Mean[i];
            for (var j = 0; j < Size; j++)
            {
                _gain[j] -= Covariance[(i * Size) + j];
            }
        }

        var variance = _gain[Ever];
        for (var i = 0; i < Cells; i++)
        {
            variance -= _gain[i];
        }

        var after = _grid.Update(Math.Max(0, mean), Math.Max(0, variance), atLeast, default, oddEntry);
        Regress(mean, variance, after, out told);
        var all = (1UL << Cells) - 1;
        double total = 0;
        for (var i = 0; i < Cells; i++)
        {
            total += Mean[i];
        }

        NoneBelowZero(all, total);
        return after.LogEvidence;
    }

    // All follow the total by linear regression.
    private void Regress(double mean, double variance, TotalAfter after, out TotalTold told)
    {
        told = default;
        if (variance <= 1e-12)
        {
            Array.Clear(_gain);
            return;
        }

        var scale = 1 / variance;
        for (var j = 0; j < Size; j++)
        {
            _gain[j] *= scale;
        }

        var step = after.Mean - mean;
        var less = variance - after.Variance;
        told = new(step * scale, less * scale, scale);
        for (var i = 0; i < Size; i++)
        {
            var gi = _gain[i];
            if (gi == 0)
            {
                continue;
            }

            Mean[i] += gi * step;
            var lessened = gi * less;
            var row = Covariance.AsSpan(i * Size, Size);
            for (var j = 0; j < row.Length; j++)
            {
                row[j] -= lessened * _gain[j];
            }
        }
    }

    // The regression may push a small cell below zero; the others give what it lacks, so that the total stands.
    private void NoneBelowZero(ulong cells, double total)
    {
        double positive = 0;
        var anyBelow = false;
        for (var left = cells; left != 0; left &= left - 1)
        {
            var m = Mean[BitOperations.TrailingZeroCount(left)];
            anyBelow |= m < 0;
            positive += Math.Max(0, m);
        }

        if (!anyBelow)
        {
            return;
        }

        var scale = positive > 0 ? Math.Max(0, total) / positive : 0;
        for (var left = cells; left != 0; left &= left - 1)
        {
            var i = BitOperations.TrailingZeroCount(left);
            Mean[i] = Math.Max(0, Mean[i]) * scale;
        }
    }
}
