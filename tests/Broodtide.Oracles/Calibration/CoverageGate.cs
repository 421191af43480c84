namespace Broodtide.Oracles.Calibration;

/// <summary>How many of so many intervals may hold the truth before somebody is called wrong.</summary>
public static class CoverageGate
{
    /// <param name="replicates">Intervals looked at.</param>
    /// <param name="nominal">Share that should hold the truth.</param>
    /// <param name="level">Probability that an honest method passes.</param>
    /// <exception cref="ArgumentOutOfRangeException">Replicates below one, or probabilities outside 0 to 1.</exception>
    public static CountRange Accept(int replicates, double nominal, double level) =>
        CountRange.OfBinomial(replicates, nominal, level);
}
