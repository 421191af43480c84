namespace Broodtide.Science.Estimation.Larvae;

/// <summary>The probability of a stage sample whose shares are known only about.</summary>
internal static class DirichletMultinomial
{
    /// <summary>
    /// Natural logarithm, without the combinatorial constant: Gamma(f)/Gamma(n+f) times the product of
    /// Gamma(x+fp)/Gamma(fp), which for whole x are rising products.
    /// </summary>
    /// <param name="tallies">How many in each stage.</param>
    /// <param name="shares">Expected shares, sum 1.</param>
    /// <param name="mistakes">Share of larvae put in any stage by mistake, 0 to 1.</param>
    /// <param name="precision">f: the smaller, the more samples differ.</param>
    internal static double Log(
        ReadOnlySpan<int> tallies,
        ReadOnlySpan<double> shares,
        double mistakes,
        double precision
    )
    {
        double sum = 0;
        var all = 0;
        for (var stage = 0; stage < tallies.Length; stage++)
        {
            // A stage the species does not have is met with the chance of a mistake.
            var share = stage < shares.Length ? shares[stage] : 0;
            var mixed = ((1 - mistakes) * share) + (mistakes / shares.Length);
            sum += LogRising(precision * mixed, tallies[stage]);
            all += tallies[stage];
        }

        return sum - LogRising(precision, all);
    }

    private static double LogRising(double from, int steps)
    {
        double sum = 0;
        var product = 1.0;
        for (var i = 0; i < steps; i++)
        {
            product *= from + i;
            if (product is > 1e200 or < 1e-200)
            {
                sum += Math.Log(product);
                product = 1;
            }
        }

        return sum + Math.Log(product);
    }
}
