using System.Numerics;
using Lane = System.Numerics.Vector<double>;

namespace Broodtide.Science.Estimation.Larvae;

/// <summary>What a count did to the total it was of: see <see cref="TotalTold"/>. All zero where it moved nothing.</summary>
internal readonly record struct LaneTold(Lane Pull, Lane Narrowed, Lane InverseVariance);

/// <content>What counts do.</content>
internal sealed partial class LaneFilter
{
    /// <summary>A count of the total of some cells; gives the logarithm of its probability.</summary>
    internal Lane Observe(
        ulong cells,
        CountTerm term,
        Lane clumping,
        Lane detection,
        double oddEntry,
        out LaneTold told
    )
    {
        var (mean, variance) = Gather(cells);
        var after = _grid.Update(mean, variance, term, clumping, detection, oddEntry);
        told = Regress(mean, variance, after);
        NoneBelowZero(cells, after.Mean);
        return after.LogEvidence;
    }

    /// <summary>A look that says how many are there at least and can only raise the belief.</summary>
    internal Lane Raise(ulong cells, CountTerm term, double oddEntry, out LaneTold told)
    {
        var (mean, variance) = Gather(cells);
        // That there is none at least says nothing, and must move nothing by the roughness of the grid.
        var after =
            term.Seen == 0 ? new(mean, variance, Lane.Zero) : _grid.Raise(mean, variance, term, oddEntry);
        told = Regress(mean, variance, after with { Variance = variance });
        NoneBelowZero(cells, after.Mean);
        return after.LogEvidence;
    }

    /// <summary>Deaths so far are at least a number.</summary>
    internal Lane ObserveDeaths(Lane gone, CountTerm atLeast, double oddEntry, out LaneTold told)
    {
        Array.Clear(Gain);
        AddRow(Ever, Lane.One);
        var mean = Mean[Ever] - gone;
        for (var i = 0; i < Cells; i++)
        {
            mean -= Mean[i];
            AddRow(i, -Lane.One);
        }

        var variance = Gain[Ever];
        for (var i = 0; i < Cells; i++)
        {
            variance -= Gain[i];
        }

        var after = _grid.Update(
            Vector.Max(Lane.Zero, mean),
            Vector.Max(Lane.Zero, variance),
            atLeast,
            Lane.One,
            Lane.One,
            oddEntry
        );
        told = Regress(mean, variance, after);
        var all = (1UL << Cells) - 1;
        NoneBelowZero(all, Total(all));
        return after.LogEvidence;
    }

    // Mean and variance of a total; its covariance with every component goes into the gain.
    private (Lane Mean, Lane Variance) Gather(ulong cells)
    {
        Array.Clear(Gain);
        var (mean, variance) = (Lane.Zero, Lane.Zero);
        for (var left = cells; left != 0; left &= left - 1)
        {
            var i = BitOperations.TrailingZeroCount(left);
            mean += Mean[i];
            AddRow(i, Lane.One);
        }

        for (var left = cells; left != 0; left &= left - 1)
        {
            variance += Gain[BitOperations.TrailingZeroCount(left)];
        }

        return (mean, variance);
    }

    private void AddRow(int i, Lane times)
    {
        var row = Covariance.AsSpan(_rows[i], i + 1);
        for (var j = 0; j < row.Length; j++)
        {
            Gain[j] += times * row[j];
        }

        for (var j = i + 1; j < Size; j++)
        {
            Gain[j] += times * Covariance[_rows[j] + i];
        }
    }

    private LaneTold Regress(Lane mean, Lane variance, in LaneTotal after)
    {
        var scale = Lanes.Where(
            Vector.LessThanOrEqual(variance, new Lane(Least)),
            Lane.Zero,
            Lane.One / variance
        );
        var step = after.Mean - mean;
        var less = variance - after.Variance;
        for (var i = 0; i < Size; i++)
        {
            var gain = Gain[i] * scale;
            Gain[i] = gain;
            Mean[i] += gain * step;
            var lessened = gain * less;
            var row = Covariance.AsSpan(_rows[i], i + 1);
            for (var j = 0; j < row.Length; j++)
            {
                row[j] -= lessened * Gain[j];
            }
        }

        return new(step * scale, less * scale, scale);
    }

    private void NoneBelowZero(ulong cells, Lane total)
    {
        var lowest = Lane.Zero;
        for (var left = cells; left != 0; left &= left - 1)
        {
            lowest = Vector.Min(lowest, Mean[BitOperations.TrailingZeroCount(left)]);
        }

        if (!Vector.LessThanAny(lowest, Lane.Zero))
        {
            return;
        }

        var positive = Lane.Zero;
        for (var left = cells; left != 0; left &= left - 1)
        {
            positive += Vector.Max(Lane.Zero, Mean[BitOperations.TrailingZeroCount(left)]);
        }

        var scale = Lanes.Where(
            Vector.GreaterThan(positive, Lane.Zero),
            Vector.Max(Lane.Zero, total) / positive,
            Lane.Zero
        );
        var any = Vector.LessThan(lowest, Lane.Zero);
        for (var left = cells; left != 0; left &= left - 1)
        {
            ref var mean = ref Mean[BitOperations.TrailingZeroCount(left)];
            mean = Lanes.Where(any, Vector.Max(Lane.Zero, mean) * scale, mean);
        }
    }
}
