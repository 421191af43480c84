using Broodtide.Units;
using MathNet.Numerics.Distributions;

namespace Broodtide.Oracles.Calibration;

/// <summary>
/// Calibration by simulation (Talts, Betancourt, Simpson, Vehtari and Gelman 2018): the rank of the truth among draws of
/// its posterior, over many simulations with truths from the prior, is even from 0 to the number of draws.
/// </summary>
/// <param name="Counts">Simulations in each bin of ranks.</param>
public sealed record RankHistogram(IReadOnlyList<int> Counts)
{
    public int Simulations => Counts.Sum();

    /// <summary>Sum over bins of (count - even)^2 / even.</summary>
    public double ChiSquare
    {
        get
        {
            var even = (double)Simulations / Counts.Count;
            return Counts.Sum(count => (count - even) * (count - even) / even);
        }
    }

    /// <summary>Bins of equal width; the number of possible ranks, draws plus one, must be a multiple of the bins.</summary>
    /// <exception cref="ArgumentException">It is none, or a rank is outside 0 to draws.</exception>
    public static RankHistogram Of(IReadOnlyList<int> ranks, int draws, int bins)
    {
        if (bins < 2 || draws < 1 || (draws + 1) % bins != 0)
        {
            throw new ArgumentException(
                "Draws plus one must be a multiple of two or more bins.",
                nameof(bins)
            );
        }

        var counts = new int[bins];
        foreach (var rank in ranks)
        {
            counts[Whole.Within(rank, 0, draws, nameof(ranks)) * bins / (draws + 1)]++;
        }

        return new(counts);
    }

    /// <summary>Counts of one bin that are accepted.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Simulations or bins below one, level outside 0 to 1.</exception>
    public static CountRange AcceptBin(int simulations, int bins, double level) =>
        CountRange.OfBinomial(simulations, 1.0 / Whole.Within(bins, 1, int.MaxValue), level);

    /// <summary>The chi-square over bins that is passed with probability one minus the level.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Bins below two, level outside 0 to 1.</exception>
    public static double CriticalChiSquare(int bins, double level) =>
        ChiSquared.InvCDF(Whole.Within(bins, 2, int.MaxValue) - 1, Finite.Within(level, 0, 1 - 1e-12));

    /// <summary>Whether the whole of it may be even at this level.</summary>
    public bool MayBeEven(double level) => ChiSquare < CriticalChiSquare(Counts.Count, level);
}
