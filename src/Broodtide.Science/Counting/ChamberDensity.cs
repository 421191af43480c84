using Broodtide.Science.Statistics;
using Broodtide.Units;

namespace Broodtide.Science.Counting;

/// <summary>What a chamber count says of the culture.</summary>
/// <param name="Seen">Cells counted in all.</param>
/// <param name="Estimate">Cells per mL of the culture, the dilution undone.</param>
/// <param name="InChamber">Cells per mL as they lay in the chamber.</param>
/// <param name="ByChance">Limits by chance alone, cells per mL of the culture: Garwood's.</param>
/// <param name="InAll">Limits with the error of chamber and dilution too, cells per mL of the culture.</param>
/// <param name="Spread">How the squares vary; none for one square or where nothing was seen.</param>
public sealed record ChamberDensity(
    int Seen,
    CellDensity Estimate,
    CellDensity InChamber,
    Limits ByChance,
    Limits InAll,
    DispersionIndex? Spread
)
{
    /// <summary>From the count of each square, all of one size.</summary>
    /// <param name="counts">Cells in each square counted, one square at least, 0 or more each.</param>
    /// <param name="chamber">The chamber.</param>
    /// <param name="dilution">How many times the sample was thinned before it was counted, Lugol's solution included, 1 or more.</param>
    /// <param name="errorShare">Standard deviation of chamber and dilution together as a share, 0 to 1; 0.05 to 0.1 is usual (practice).</param>
    /// <param name="level">Level of the limits.</param>
    /// <exception cref="ArgumentException">No square.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Outside these limits.</exception>
    public static ChamberDensity Of(
        IReadOnlyList<int> counts,
        CountingChamber chamber,
        double dilution,
        double errorShare,
        Probability level
    )
    {
        if (counts.Count == 0)
        {
            throw new ArgumentException("There is no square.", nameof(counts));
        }

        foreach (var count in counts)
        {
            ArgumentOutOfRangeException.ThrowIfNegative(count, nameof(counts));
        }

        var seen = counts.Sum();
        var part = chamber.Part(counts.Count);
        Finite.Within(errorShare, 0, 1);
        var perCell = ChamberCount.Diluted(1, part, dilution).PerMillilitre;
        var chance = PoissonCount.Garwood(seen, level);
        var byChance = chance.Times(perCell);
        var width = NormalWidth(level) * errorShare;
        return new(
            seen,
            ChamberCount.Diluted(seen, part, dilution),
            ChamberCount.Diluted(seen, part),
            byChance,
            seen == 0
                ? new(0, byChance.Upper * Math.Exp(width), level)
                : new(
                    seen * perCell * Math.Exp(-Both(Math.Log(seen / chance.Lower), width)),
                    seen * perCell * Math.Exp(Both(Math.Log(chance.Upper / seen), width)),
                    level
                ),
            counts.Count > 1 && seen > 0 ? Dispersion.Of(counts) : null
        );
    }

    // Errors that know nothing of each other add as squares, here on the logarithmic scale.
    private static double Both(double one, double other) => Math.Sqrt((one * one) + (other * other));

    private static double NormalWidth(Probability level) =>
        MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, 1 - Limits.Tail(level));
}
