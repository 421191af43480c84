namespace Broodtide.Science.Statistics;

/// <summary>
/// Whether and how much vessels differ more than independent individuals would. The vessel is the unit of a
/// comparison; within one vessel nothing can be said about this.
/// </summary>
public static class Overdispersion
{
    /// <summary>
    /// Tarone 1979, Biometrika 66:585: Z = (sum (y - n p)^2 / (p q) - sum n) / sqrt(2 sum n (n - 1)), standard normal
    /// where there is no clumping.
    /// </summary>
    /// <exception cref="ArgumentException">Less than two rows, or all or none responded.</exception>
    public static double TaroneZ(IReadOnlyList<Tally> tallies)
    {
        var p = CommonShare(tallies);
        var spread = tallies.Sum(row => Math.Pow(row.Happened - (row.Trials * p), 2)) / (p * (1 - p));
        var pairs = tallies.Sum(row => (double)row.Trials * (row.Trials - 1));
        return pairs > 0
            ? (spread - tallies.Sum(row => (double)row.Trials)) / Math.Sqrt(2 * pairs)
            : throw new ArgumentException("No row has two individuals to be alike.", nameof(tallies));
    }

    /// <summary>
    /// Correlation between individuals of one vessel by analysis of variance (Donner 1986, Int. Stat. Rev. 54:67;
    /// Ridout, Demetrio and Firth 1999, Biometrics 55:137). Below zero where vessels are more alike than by chance.
    /// </summary>
    /// <exception cref="ArgumentException">
    /// Less than two rows, all or none responded, or one individual a row.
    /// </exception>
    public static double CorrelationByVariance(IReadOnlyList<Tally> tallies)
    {
        var p = CommonShare(tallies);
        var rows = tallies.Count;
        var all = tallies.Sum(row => (double)row.Trials);
        if (all <= rows)
        {
            throw new ArgumentException("No row has two individuals to be alike.", nameof(tallies));
        }

        var between = tallies.Sum(row => row.Trials * Math.Pow(row.Share - p, 2)) / (rows - 1);
        var within = tallies.Sum(row => row.Happened * (1 - row.Share)) / (all - rows);
        var size = (all - (tallies.Sum(row => (double)row.Trials * row.Trials) / all)) / (rows - 1);
        return (between - within) / (between + ((size - 1) * within));
    }

    /// <summary>Pearson chi-square against one share common to all rows; rows less one degrees of freedom.</summary>
    /// <exception cref="ArgumentException">Less than two rows, or all or none responded.</exception>
    public static double PearsonChiSquare(IReadOnlyList<Tally> tallies)
    {
        var p = CommonShare(tallies);
        return PearsonChiSquare(tallies, [.. Enumerable.Repeat(p, tallies.Count)]);
    }

    /// <summary>Pearson chi-square against fitted probabilities.</summary>
    internal static double PearsonChiSquare(IReadOnlyList<Tally> tallies, IReadOnlyList<double> fitted) =>
        tallies
            .Zip(
                fitted,
                (row, p) => Math.Pow(row.Happened - (row.Trials * p), 2) / (row.Trials * p * (1 - p))
            )
            .Sum();

    private static double CommonShare(IReadOnlyList<Tally> tallies)
    {
        var share = tallies.Sum(row => (double)row.Happened) / tallies.Sum(row => (double)row.Trials);
        return tallies.Count >= 2 && share is > 0 and < 1
            ? share
            : throw new ArgumentException(
                "Two rows or more are wanted, of which some respond and some do not.",
                nameof(tallies)
            );
    }
}
